// Keeps the page for times without a network. A version is a folder of files that never change, with the root page
// that names it: it is kept as a whole or not at all, and the root page never comes from another version than its folder.
// Whole is what has the digests that were taken when it was laid out: a host also answers 200 for half a file.

const VERSION = "{{app}}";
const FILES = new Map(["{{files}}"]);
const SCOPE = self.registration.scope;
// Other folders of the same host may keep a Dappledome of their own.
const SHELF = `dappledome ${SCOPE} `;
const NOTES = `${SHELF}notes`;

self.addEventListener("install", (event) => event.waitUntil(keep()));
self.addEventListener("activate", (event) => event.waitUntil(takeOver()));

self.addEventListener("message", ({ data }) => {
  if (data?.use === "now") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { method, url } = event.request;
  if (method !== "GET" || !url.startsWith(SCOPE)) return;
  const path = url.slice(SCOPE.length).split(/[?#]/)[0];
  const [folder, name] = path.split("/");
  const root = path === "" || path === "index.html" ? "./" : path;
  if (name && folder.startsWith("app-")) {
    // A page that is older than this worker goes on getting its own files.
    event.respondWith(kept(event.request, path, folder));
  } else if (FILES.has(root)) {
    event.respondWith(keptRoot(event, root));
  }
});

function inCache(path, cacheName) {
  return caches.match(new URL(path, SCOPE), { cacheName, ignoreVary: true });
}

async function kept(request, path, version) {
  return await inCache(path, SHELF + version) ?? fetch(request);
}

// A page that could not be opened drops its version: then one that was kept before opens instead.
async function keptRoot(event, path) {
  const own = await inCache(path, SHELF + VERSION);
  if (own) return own;
  event.waitUntil(keepAgain().catch(() => {}));
  for (const name of await caches.keys()) {
    const file = name.startsWith(SHELF) && await inCache("./", name) && await inCache(path, name);
    if (file) return file;
  }
  return fetch(event.request);
}

async function keep() {
  // Past the browser's own memory, which may hold half a file, or under a name that stays one of another version. What was
  // led elsewhere cannot open a page.
  const whole = ([path, integrity]) =>
    new Request(new URL(path, SCOPE), { cache: "reload", redirect: "error", integrity });
  const shelf = await caches.open(SHELF + VERSION);
  // All of them or none.
  await shelf.addAll([...FILES].map(whole));
}

// Once: a version that does not open although it is whole is none for this browser.
async function keepAgain() {
  const notes = await caches.open(NOTES);
  if (await noted(notes, "kept-again") === VERSION) return;
  await keep();
  await notes.put("kept-again", new Response(VERSION));
}

async function noted(notes, name) {
  return (await notes.match(name))?.text();
}

async function takeOver() {
  const notes = await caches.open(NOTES);
  const last = await noted(notes, "in-use");
  // Pages of the last version may still be open; older ones are given up.
  const stay = [NOTES, SHELF + VERSION, SHELF + last];
  const old = (await caches.keys()).filter((name) => name.startsWith(SHELF) && !stay.includes(name));
  await Promise.all(old.map((name) => caches.delete(name)));
  await notes.put("in-use", new Response(VERSION));
  // The page that brought this worker is kept from now on, not only from its next opening.
  await self.clients.claim();
}
