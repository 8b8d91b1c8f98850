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
  pictures: async () => 0,
  journal: {
    read: async () => {
      send();
      return { sync: { unsent: waiting, onServer: waiting === 0 } };
    },
    syncNow: send,
    stateHash: async () => ({ hash: await (await fetch("/get")).text() }),
  },
};

/** Sends the count, if one waits; without a server it waits on. */
async function send() {
  if (waiting === 0) return;
  const body = String(await starts("readonly"));
  if (await fetch("/put", { method: "POST", body }).catch(() => null)) waiting = 0;
}

const show = async () => (part("arcs").textContent = `${await starts("readonly")} arcs`);
show();

document.querySelector("[data-action=start]").addEventListener("click", async () => {
  await starts("readwrite", (store, count) => store.put(count + 1, "starts"));
  waiting += 1;
  show();
});

document.querySelector("[data-action=field]").addEventListener("click", () => {
  part("entered").textContent = "";
  document.querySelector("dialog").showModal();
});
const add = (key) => (part("entered").textContent += key);
for (const key of ["1", "2", "4", "/"]) {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = key;
  button.addEventListener("click", () => add(key));
  part("keys").append(button);
}
document.querySelector("[data-unit=in]").addEventListener("click", () => add("in"));
document.querySelector("[data-action=done]").addEventListener("click", () => {
  part("value").textContent = part("entered").textContent;
  document.querySelector("dialog").close();
});
document.querySelector("#note").addEventListener("input", (event) => (part("chosen").textContent = `note ${event.target.value}`));
document.querySelector("#metal").addEventListener("change", (event) => (part("chosen").textContent = `metal ${event.target.value}`));
for (const radio of document.querySelectorAll("[name=shield]")) {
  radio.addEventListener("change", () => (part("chosen").textContent = `shield ${radio.value}`));
}
for (const [i, undo] of document.querySelectorAll("li button").entries()) {
  undo.addEventListener("click", () => (part("chosen").textContent = `undo ${i + 1}`));
}
document.querySelector("#photo").addEventListener("change", (event) => (part("chosen").textContent = `photo ${event.target.files[0].name}`));
part("board").addEventListener("click", (event) => {
  const box = event.target.getBoundingClientRect();
  part("chosen").textContent = event.clientX > box.x + box.width / 2 ? "right" : "left";
});
document.addEventListener("keydown", (event) => {
  if (event.key === "MediaPlayPause") part("chosen").textContent = "headset";
});
if ("serviceWorker" in navigator) navigator.serviceWorker.register("sw.js").then(() => navigator.serviceWorker.ready).then(() => (document.documentElement.dataset.offline = "ready"));

// How far the clock is before the time at which the page was opened, which no clock moves.
const tell = () => (part("clock").textContent = `${Math.floor((Date.now() - performance.timeOrigin) / 60000)} min ahead`);
tell();
setInterval(tell, 100);
