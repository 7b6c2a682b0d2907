// Mends a page of which a part did not arrive whole, without the program: half an upload, or what the browser keeps of it
// damaged. It is asked for anew each time, so that it is mended itself by the next load.

(() => {
  const VERSION = "{{app}}";
  const FILES = new Map(["{{files}}"]);
  const SCOPE = new URL("./", document.currentScript.src).href;
  // As the service worker names them.
  const SHELF = `dappledome ${SCOPE} `;
  // The version that this tab has tried to mend.
  const MENDED = "dappledome.mended";
  const NOT_LOADED = "Dappledome cannot open: a part of it did not arrive. "
    + "Please check the connection and load the page again. ";

  let opened = false;
  let mending = false;

  addEventListener("opened", () => {
    opened = true;
    // Without its style sheet the program opens all the same.
    if (mending) return;
    const mended = take(MENDED);
    if (mended && mended !== VERSION) dispatchEvent(new Event("went-back"));
  });
  addEventListener("not-opened", mend);
  addEventListener("part-missing", () => fetchAnew());
  // A part whose digest is wrong is refused: only its element is told. A script that is broken otherwise tells the window.
  // What others bring into the page, such as a browser's extension, is not ours to mend.
  addEventListener("error", ({ target, filename }) => {
    if (target === window ? !opened && filename?.startsWith(SCOPE) : target.integrity) mend();
  }, true);

  async function mend() {
    if (mending) return;
    mending = true;
    // By itself once; then only when it is asked for, or it might go on for ever.
    if (take(MENDED) === VERSION || !note(MENDED, VERSION)) return offer();
    if (await goBack().catch(() => false) || await fetchAnew()) return location.reload();
    offer();
  }

  // Drops this version from what the browser keeps; whether a whole one is left that opens instead.
  async function goBack() {
    const registration = await navigator.serviceWorker.getRegistration(SCOPE);
    const others = (await caches.keys()).filter((name) => name.startsWith(SHELF) && name !== SHELF + VERSION);
    // The only one there is stays as long as none can be fetched instead: what broke may pass.
    if (others.length === 0 && !navigator.onLine) return false;
    await caches.delete(SHELF + VERSION);
    const roots = await Promise.all(others.map((cacheName) => caches.match(SCOPE, { cacheName })));
    return Boolean(registration?.active) && roots.some(Boolean);
  }

  // Has all files come from the host past what the browser remembers of them; whether all came whole.
  function fetchAnew() {
    const fresh = ([path, integrity]) => fetch(new URL(path, SCOPE), { cache: "reload", integrity });
    const all = Promise.all([...FILES].map(fresh));
    return all.then((answers) => answers.every((answer) => answer.ok), () => false);
  }

  async function offer() {
    if (!document.body) await new Promise((read) => addEventListener("DOMContentLoaded", read, { once: true }));
    const again = document.createElement("button");
    again.className = "button main";
    again.textContent = "Try again";
    again.addEventListener("click", () => {
      take(MENDED);
      location.reload();
    });
    const place = document.getElementById("opening") ?? document.createElement("p");
    place.replaceChildren(NOT_LOADED, again);
    document.body.prepend(place);
  }

  function note(name, value) {
    try {
      sessionStorage.setItem(name, value);
      return true;
    } catch {
      return false;
    }
  }

  // What was noted, which is gone with that.
  function take(name) {
    try {
      const noted = sessionStorage.getItem(name);
      sessionStorage.removeItem(name);
      return noted;
    } catch {
      return null;
    }
  }
})();
