// @ts-check
// The service worker: keeps the app's files on the phone and serves them from
// there. It is boring on purpose. The server puts this build's name and list
// of files into the two constants.
//
// All files of a build are kept or none; /api/ is never touched; a new build
// waits until no page of the old one is open, or until the page asks, which it
// does only when nothing is half entered.

const sw = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const BUILD_NAME = "BUILD";
const FILES = ["PRECACHE"];
const PREFIX = "kerfside-";
const CACHE = PREFIX + BUILD_NAME;

sw.addEventListener("install", (event) => {
  // Where the browser can, it takes files named by content from the cache
  // without waking this worker, which a cold start would have to wait for.
  /** @type {any} */ (event).addRoutes?.([
    { condition: { urlPattern: { pathname: "/a/*" } }, source: { cacheName: CACHE } },
    { condition: { urlPattern: { pathname: "/w/*" } }, source: { cacheName: CACHE } },
  ]);
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(FILES)));
});

sw.addEventListener("activate", (event) => {
  event.waitUntil(
    caches.keys()
      .then((names) => Promise.all(names.filter((n) => n.startsWith(PREFIX) && n !== CACHE).map((n) => caches.delete(n))))
      .then(() => sw.clients.claim()),
  );
});

sw.addEventListener("message", (event) => {
  if (event.data === "take over") sw.skipWaiting();
});

sw.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== sw.location.origin || url.pathname.startsWith("/api/")) return;
  if (event.request.mode === "navigate") {
    event.respondWith(caches.match("/", { cacheName: CACHE }).then((shell) => shell ?? fetch(event.request)));
    return;
  }
  event.respondWith(caches.match(url.pathname, { cacheName: CACHE }).then((kept) => kept ?? fetch(event.request)));
});
