// Keeps one whole version of the page for use without a network. seal.mjs fills in the next two lines at every build.
const VERSION = "unsealed";
const FILES = [];

// Caches belong to the origin, not to the folder: the scope in the name keeps two copies on one host apart.
const FAMILY = `hearthload ${self.registration.scope} `;
const MINE = FAMILY + VERSION;

// All files or none: one that fails leaves the version before it in place.
self.addEventListener("install", (event) => {
  const fresh = FILES.map((name) => new Request(name, { cache: "reload" }));
  event.waitUntil(caches.open(MINE).then((cache) => cache.addAll(fresh)));
});

self.addEventListener("activate", (event) => {
  const old = (names) => names.filter((name) => name.startsWith(FAMILY) && name !== MINE);
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(old(names).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

// A new version waits until the page asks for it (or until every tab is closed), then takes over page and worker together.
self.addEventListener("message", (event) => {
  if (event.data === "switch") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const request = event.request;
  if (request.method !== "GET" || !request.url.startsWith(self.registration.scope)) return;
  const kept = caches
    .open(MINE)
    .then((cache) => cache.match(request, { ignoreSearch: true, ignoreVary: true }));
  event.respondWith(kept.then((answer) => answer ?? fetch(request)));
});
