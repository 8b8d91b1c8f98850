// @ts-check
// The service worker: keeps the app's files on the phone and serves them from
// there. It is boring on purpose. The server puts this build's name, its list of
// files, and what the pages of a start ask for, into the three constants.
//
// All files of a build are kept or none; /api/ and /help are never touched; a new build
// waits until no page of the old one is open, or until the page asks, which it
// does only when nothing is half entered.

const sw = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const BUILD_NAME = "BUILD-HASH";
const FILES = ["PRECACHE"];
const STARTS = /** @type {Record<string, string>} */ ({ STARTS: "" });
const PREFIX = "kerfside-";
const CACHE = PREFIX + BUILD_NAME;

sw.addEventListener("install", (event) => {
  // Where the browser can, it takes the page of a start and files named by content from
  // the cache without waking this worker, which a cold start would have to wait for.
  const source = { cacheName: CACHE };
  const routes = [
    ...["/a/*", "/w/*"].map((pathname) => ({ condition: { urlPattern: { pathname } }, source })),
    ...Object.keys(STARTS).map((pathname) => ({ condition: { urlPattern: { pathname, search: "" }, requestMode: "navigate" }, source })),
  ];
  Promise.resolve(/** @type {any} */ (event).addRoutes?.(routes)).catch(() => {}); // what no route takes is fetched below
  event.waitUntil(keep());
});

/** Keeps all files, and the page under each address that a route looks for. */
async function keep() {
  const cache = await caches.open(CACHE);
  await cache.addAll(FILES);
  const shell = /** @type {Response} */ (await cache.match("/"));
  const text = await shell.text();
  const headers = new Headers(shell.headers);
  for (const gone of ["Content-Encoding", "Content-Length", "ETag"]) headers.delete(gone);
  // Drawn first with what app.js puts there, for that is here already: a frame before would only hold it up.
  const start = text.replace('<script type="module"', '<script type="module" blocking="render"');
  await Promise.all(Object.entries(STARTS).map(([address, links]) => cache.put(address, new Response(start.replace("<!-- late -->", links), { headers }))));
}

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
  if (event.request.method === "POST" && url.pathname === "/share" && url.origin === sw.location.origin) return event.respondWith(putAside(event.request).catch(() => {}).then(() => Response.redirect("/share", 303)));
  if (event.request.method !== "GET" || url.origin !== sw.location.origin || /^\/(api|help)(\/|$)/.test(url.pathname)) return;
  if (event.request.mode === "navigate") {
    event.respondWith(caches.match(url.pathname in STARTS ? url.pathname : "/", { cacheName: CACHE }).then((shell) => shell ?? fetch(event.request)));
    return;
  }
  event.respondWith(caches.match(url.pathname, { cacheName: CACHE }).then((kept) => kept ?? fetch(event.request)));
});

/** Puts pictures aside that another app shared, in a cache of their own, which no build clears. What does not come through is told by /share. @param {Request} request */
async function putAside(request) {
  const cache = await caches.open("shared");
  const pictures = (await request.formData()).getAll("photo");
  await Promise.all(pictures.map((picture, i) => cache.put(`/share/${Date.now()}-${i}`, new Response(picture))));
}
