// The journal's tests again, as a page runs it: where there is a document several transactions are under
// way at a time, and a worker has one.

import assert from "node:assert/strict";
import { test } from "node:test";

globalThis.document = /** @type {any} */ (new EventTarget()); // before the store is loaded, which looks for it
const { withPhone } = await import("./phone.mjs");

test("a page reads twice at a time", withPhone(async (phone, t) => {
  const tab = phone.tab();
  await tab.paint([]);
  let going = 0;
  let most = 0;
  const { transaction } = IDBDatabase.prototype;
  t.mock.method(IDBDatabase.prototype, "transaction", function (...words) {
    const tx = transaction.apply(this, words);
    most = Math.max(most, ++going);
    tx.addEventListener("complete", () => going--);
    return tx;
  });
  await Promise.all([tab.paint([]), tab.paint([])]);
  assert.equal(most, 2);
}));

// "stuck" first: it measures whether anything is under way, and "store" leaves what is blocked.
for (const name of ["stuck", "tap", "leave", "copy", "watch", "gate", "since", "store"]) await import(`./journal-${name}.test.mjs`);
