// The scratch app: enough of everything that the verbs of a journey do. It
// keeps the arc starts in IndexedDB and, while there is a server, on it.
"use strict";

const part = (name) => document.querySelector(`[data-ref="${name}"]`);

/** Runs one transaction on the one record and returns its number of starts. */
function starts(mode, work = () => {}) {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open("scratch", 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore("arcs");
    opening.onsuccess = () => {
      const transaction = opening.result.transaction("arcs", mode, { durability: "strict" });
      const store = transaction.objectStore("arcs");
      let count = 0;
      store.get("starts").onsuccess = (event) => {
        count = event.target.result ?? 0;
        work(store, count);
      };
      transaction.oncomplete = () => resolve(count);
      transaction.onabort = () => reject(transaction.error);
    };
  });
}

let waiting = 0;
globalThis.kerfside = {
  unsent: async () => {
    if (waiting > 0 && (await fetch("/put", { method: "POST", body: String(await starts("readonly")) }).catch(() => null))) waiting = 0;
    return waiting;
  },
  stateHash: async () => (await fetch("/get")).text(),
};

const show = async () => (part("arcs").textContent = `${await starts("readonly")} arcs`);
show();

document.querySelector("[data-action=start]").addEventListener("click", async () => {
  await starts("readwrite", (store, count) => store.put(count + 1, "starts"));
  waiting += 1;
  show();
});

document.querySelector("[data-action=field]").addEventListener("click", () => {
  part("entered").textContent = "";
  part("pad").showModal();
});
for (const key of ["1", "2", "4", "/", "in"]) {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = key;
  button.addEventListener("click", () => (part("entered").textContent += key));
  part("keys").append(button);
}
document.querySelector("[data-action=pad-done]").addEventListener("click", () => {
  part("value").textContent = part("entered").textContent;
  part("pad").close();
});
document.querySelector("#note").addEventListener("input", (event) => (part("chosen").textContent = `note ${event.target.value}`));
document.querySelector("#metal").addEventListener("change", (event) => (part("chosen").textContent = `metal ${event.target.value}`));
for (const radio of document.querySelectorAll("[name=shield]")) {
  radio.addEventListener("change", () => (part("chosen").textContent = `shield ${radio.value}`));
}
for (const [i, undo] of document.querySelectorAll("li button").entries()) {
  undo.addEventListener("click", () => (part("chosen").textContent = `undo ${i + 1}`));
}
document.addEventListener("keydown", (event) => {
  if (event.key === "MediaPlayPause") part("chosen").textContent = "headset";
});
if ("serviceWorker" in navigator) navigator.serviceWorker.register("sw.js");
