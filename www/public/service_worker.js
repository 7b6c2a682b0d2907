// Keeps the page for times without a network. A version is a folder of files that never change, with the root page
// that names it: it is kept as a whole or not at all, and the root page never comes from another version than its folder.

const VERSION = "{{app}}";
const FILES = ["{{files}}"];
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
  } else if (FILES.includes(root)) {
    event.respondWith(kept(event.request, root, VERSION));
  }
});

async function kept(request, path, version) {
  const file = await caches.match(new URL(path, SCOPE), { cacheName: SHELF + version, ignoreVary: true });
  return file ?? fetch(request);
}

async function keep() {
  // Past the browser's own memory: what has a name that stays may be of another version there.
  const fresh = (path) => new Request(new URL(path, SCOPE), { cache: path.startsWith(VERSION) ? "default" : "reload" });
  const root = await fetch(fresh("./"));
  // Half way through an upload the host may still have the last version's page.
  if (!root.ok || root.redirected || !(await root.clone().text()).includes(`"${VERSION}/`)) {
    throw new Error(`The root page is not of ${VERSION}.`);
  }
  const shelf = await caches.open(SHELF + VERSION);
  // All of them or none.
  await shelf.addAll(FILES.filter((path) => path !== "./").map(fresh));
  await shelf.put(new URL("./", SCOPE), root);
}

async function takeOver() {
  const notes = await caches.open(NOTES);
  const last = await (await notes.match("in-use"))?.text();
  // Pages of the last version may still be open; older ones are given up.
  const stay = [NOTES, SHELF + VERSION, SHELF + last];
  const old = (await caches.keys()).filter((name) => name.startsWith(SHELF) && !stay.includes(name));
  await Promise.all(old.map((name) => caches.delete(name)));
  await notes.put("in-use", new Response(VERSION));
  // The page that brought this worker is kept from now on, not only from its next opening.
  await self.clients.claim();
}
