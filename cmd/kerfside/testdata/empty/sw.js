self.addEventListener("install", (event) => event.waitUntil(caches.open("empty").then((cache) => cache.addAll(["/", "/app.js", "/worker.js"]))));
self.addEventListener("fetch", (event) => event.respondWith(caches.match(event.request).then((kept) => kept ?? fetch(event.request))));
