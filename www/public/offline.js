// Has the page kept for times without a network, and tells it when a newer version is ready.

const HOUR = 3_600_000;
const keepers = navigator.serviceWorker;

export async function keep() {
  // Some browsers keep nothing in a private window: then the page works as long as the network does.
  if (!keepers) return;
  const script = new URL("../service_worker.js", import.meta.url);
  const registration = await keepers.register(script, { updateViaCache: "none" });
  announce(registration);
  lookForNewer(registration);
  addEventListener("use-new-version", () => use(registration));
}

// A page without a keeper was loaded past it and is new already.
function announce(registration) {
  const say = () => {
    if (keepers.controller && registration.waiting) dispatchEvent(new Event("new-version"));
  };
  const follow = () => registration.installing?.addEventListener("statechange", say);
  registration.addEventListener("updatefound", follow);
  follow();
  say();
}

function lookForNewer(registration) {
  let looked = 0;
  const look = () => {
    if (document.visibilityState !== "visible" || Date.now() - looked < HOUR) return;
    looked = Date.now();
    // Without a network there is nothing newer.
    registration.update().catch(() => {});
  };
  document.addEventListener("visibilitychange", look);
  if (registration.active) look();
}

function use(registration) {
  const open = () => location.reload();
  // Another page may have put it to use since it was announced.
  if (!registration.waiting) return open();
  keepers.addEventListener("controllerchange", open, { once: true });
  registration.waiting.postMessage({ use: "now" });
}
