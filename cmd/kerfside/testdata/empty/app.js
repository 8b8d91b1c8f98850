// The least that an app of this kind can be, to measure the real one against:
// one module, one worker, one read of IndexedDB, kept by a service worker.
const opening = indexedDB.open("empty", 1);
opening.onupgradeneeded = () => opening.result.createObjectStore("meta");
const count = await new Promise((resolve) => {
  opening.onsuccess = () => {
    opening.result.transaction("meta").objectStore("meta").count().onsuccess = (event) => resolve(event.target.result);
  };
});
document.querySelector("p").textContent = String(count);
performance.mark("kerfside:useful");
new Worker("/worker.js", { type: "module" });
await navigator.serviceWorker.register("/sw.js");
await navigator.serviceWorker.ready;
document.documentElement.dataset.offline = "ready";
