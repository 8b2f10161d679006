// Starts the page's program and looks after new versions. Trunk's own start script is inline, which the policy refuses.
//
// For the page: when a new version stands ready, `data-update="ready"` appears on <html> and the window gets the event
// `hearthload-update`. Dispatching `hearthload-switch` on the window takes the new version: page and worker reload together.

const root = document.documentElement;

/** Says in the page itself, in words, that it could not start. */
function trouble(error) {
  console.error(error);
  const place = document.getElementById("boot");
  if (place) {
    place.setAttribute("role", "alert");
    place.textContent = `The page could not start (${error.message ?? error}). Reload it; if that does not help, use a newer browser.`;
  }
}

async function start() {
  const { js, wasm } = document.querySelector("script[data-wasm]").dataset;
  const program = await import(js);
  await program.default({ module_or_path: new URL(wasm, import.meta.url) });
  dispatchEvent(new CustomEvent("TrunkApplicationStarted"));
}

/** Tells the page that a version is waiting, now or once it has been fetched. */
function announce(registration) {
  const ready = () => {
    // Without a controller this is the first version ever: there is nothing to switch from.
    if (!registration.waiting || !navigator.serviceWorker.controller) return;
    root.dataset.update = "ready";
    dispatchEvent(new CustomEvent("hearthload-update"));
  };
  registration.addEventListener("updatefound", () => registration.installing?.addEventListener("statechange", ready));
  ready();
  addEventListener("hearthload-switch", () => registration.waiting?.postMessage("switch"));
}

async function keepForOffline() {
  const workers = navigator.serviceWorker;
  if (!workers) return; // an insecure address, or a browser that was told not to
  let before = workers.controller;
  workers.addEventListener("controllerchange", () => {
    if (before) location.reload();
    before = workers.controller;
  });
  const registration = await workers.register("./sw.js", { updateViaCache: "none" });
  announce(registration);
  // Browsers look for a new version of their own accord only now and then. Without a network this fails, and may.
  await registration.update().catch(() => {});
}

start().catch(trouble);
keepForOffline().catch((error) => console.warn("no offline copy:", error));
