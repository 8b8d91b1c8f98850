// The journal's tests again, as a page runs it: where there is a document several transactions are under
// way at a time, and a worker has one.

import assert from "node:assert/strict";
import { test } from "node:test";

globalThis.document = /** @type {any} */ (new EventTarget()); // before the store is loaded, which looks for it
const { withPhone } = await import("./phone.mjs");

test("a page reads twice at a time", withPhone(async (phone, t) => {
  const tab = phone.tab();
  await tab.read([]);
  let going = 0;
  let most = 0;
  const { transaction } = IDBDatabase.prototype;
  t.mock.method(IDBDatabase.prototype, "transaction", function (...words) {
    const tx = transaction.apply(this, words);
    most = Math.max(most, ++going);
    tx.addEventListener("complete", () => going--);
    return tx;
  });
  const read = () => tab.db.run(["meta"], "readonly", (tx) => void tx.objectStore("meta").get("meta"));
  await Promise.all([read(), read()]);
  assert.equal(most, 2);
}));

test("who asks in the same step gets of one read, which knows of all that was stored before", withPhone(async (phone, t) => {
  const tab = phone.tab();
  let reads = 0;
  const { transaction } = IDBDatabase.prototype;
  t.mock.method(IDBDatabase.prototype, "transaction", function (...words) {
    if (words[1] === "readonly") reads++;
    return transaction.apply(this, words);
  });
  const [none, both] = await Promise.all([tab.read([]), tab.read(["now", "rigs"])]);
  assert.deepEqual([reads, Object.keys(none.views), Object.keys(both.views)], [1, [], ["now", "rigs"]]);
  tab.read([]);
  await tab.startArc({ rig: "rig-1" });
  const late = await tab.read([]);
  assert.deepEqual([reads, Object.keys(late.arc)], [3, ["rig-1"]]);
}));

// "pulse" first: it measures whether anything is under way, and "db" leaves what is blocked.
for (const name of ["store-health", "tap", "leaving", "second-copy", "fire-watch", "gate", "overlay", "db"]) await import(`./journal-${name}.test.mjs`);
