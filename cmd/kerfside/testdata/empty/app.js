// The least that an app of this kind can be, to measure the real one against:
// one module, one worker, one read of IndexedDB, kept by a service worker. Its
// store has the form of the real one and is filled with the same records, of
// which it reads one.
const opening = indexedDB.open("kerfside", 1);
opening.onupgradeneeded = () => {
  const event = opening.result.createObjectStore("event", { keyPath: "id" });
  event.createIndex("unsent", ["unsent", "t"]);
  event.createIndex("n", "n");
  event.createIndex("l", "l");
  opening.result.createObjectStore("meta");
  opening.result.createObjectStore("view", { keyPath: "name" });
  opening.result.createObjectStore("snapshot", { keyPath: "name" });
  opening.result.createObjectStore("photo", { keyPath: "sha256" });
};
const meta = await new Promise((resolve) => {
  opening.onsuccess = () => {
    opening.result.transaction("meta").objectStore("meta").get("meta").onsuccess = (event) => resolve(event.target.result);
  };
});
document.querySelector("p").textContent = `${(meta?.nextL ?? 1) - 1} entries`;
performance.mark("kerfside:useful");
new Worker("/worker.js", { type: "module" });
await navigator.serviceWorker.register("/sw.js");
await navigator.serviceWorker.ready;
document.documentElement.dataset.offline = "ready";
