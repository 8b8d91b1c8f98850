// What the timings of the cold start do to a store, on a page of the app or of
// the almost empty one. Nothing here goes through the app: both are treated alike.
"use strict";

/** Runs work in a transaction over all stores of the database and resolves, once it is complete, to what work's request gave. */
async function inStore(mode, work) {
  const opening = indexedDB.open("kerfside");
  const db = await new Promise((resolve, reject) => ([opening.onsuccess, opening.onerror] = [() => resolve(opening.result), () => reject(opening.error)]));
  try {
    return await new Promise((resolve, reject) => {
      const tx = db.transaction([...db.objectStoreNames], mode, { durability: "strict" });
      const request = work(tx);
      tx.oncomplete = () => resolve(request?.result);
      tx.onabort = () => reject(tx.error);
    });
  } finally {
    db.close();
  }
}

/** The next so many records of a store after a key; null begins. */
async function dump(store, after, count) {
  const range = after === null ? null : IDBKeyRange.lowerBound(after, true);
  const keys = await inStore("readonly", (tx) => tx.objectStore(store).getAllKeys(range, count));
  const values = await inStore("readonly", (tx) => tx.objectStore(store).getAll(range, count));
  return keys.map((key, i) => ({ key, value: values[i] }));
}

/** Puts records into a store as they are. */
function restore(store, records) {
  return inStore("readwrite", (tx) => {
    const target = tx.objectStore(store);
    for (const { key, value } of records) target.keyPath === null ? target.put(value, key) : target.put(value);
  });
}

/** The entries that were stamped after a time. */
async function since(t) {
  const all = await inStore("readonly", (tx) => tx.objectStore("event").index("unsent").getAll(IDBKeyRange.bound([1, t], [1, []])));
  return all.map((value) => ({ key: value.id, value }));
}

/** Puts entries into the store one by one, as they are tapped. */
async function restoreEach(records) {
  for (const record of records) await restore("event", [record]);
}

/** Whether the snapshot holds all that was folded: then the app writes no more by itself. */
async function isKept() {
  const meta = await inStore("readonly", (tx) => tx.objectStore("meta").get("meta"));
  const rungs = await inStore("readonly", (tx) => tx.objectStore("snapshot").getAll());
  return Math.max(0, ...rungs.map(({ l }) => l)) >= meta.nextL - 1;
}

/**
 * Has the browser begin a new log for this origin. At each start it replays the one there is, up to 4 MB,
 * whoever wrote it, so how much a fill happens to leave in it would decide the figure.
 */
async function settle() {
  const name = "settle";
  const opening = indexedDB.open(name);
  opening.onupgradeneeded = () => opening.result.createObjectStore("junk", { autoIncrement: true });
  const db = await new Promise((resolve) => (opening.onsuccess = () => resolve(opening.result)));
  for (let turn = 0; turn < 12; turn++) {
    await new Promise((resolve) => {
      const tx = db.transaction("junk", "readwrite", { durability: "strict" });
      for (let i = 0; i < 20; i++) tx.objectStore("junk").put("junk".repeat(8000)); // longer ones would go into a file of their own
      tx.oncomplete = resolve;
    });
  }
  db.close();
  await new Promise((resolve) => (indexedDB.deleteDatabase(name).onsuccess = resolve));
}

/** How long a small record takes until it is on the disk, so often. */
async function puts(count) {
  const times = [];
  for (let i = 0; i < count; i++) {
    const began = performance.now();
    await restore("meta", [{ key: "puts", value: { i } }]);
    times.push(performance.now() - began);
  }
  return times;
}
