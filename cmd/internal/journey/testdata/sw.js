// Keeps the scratch app, so that it starts without its server.
"use strict";

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open("scratch").then((cache) => cache.addAll(["good.html", "good.js"])).then(() => self.skipWaiting()));
});
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("fetch", (event) => {
  if (event.request.method !== "GET") return; // what is sent goes to the server or fails in the page
  event.respondWith(caches.match(event.request).then((kept) => kept ?? fetch(event.request)));
});
