// What a page has in flight as it goes away is cut off, and begun again if it comes back.

import assert from "node:assert/strict";
import { test } from "node:test";
import { resultOf, note, page, withPhone } from "./phone.mjs";
import { turn } from "./turn.mjs";
import { resume, suspend } from "../../pwa/journal/db.js";

/** Resolves as soon as the next transaction of a mode exists. */
const begun = (t, mode) => new Promise((resolve) => {
  const { transaction } = IDBDatabase.prototype;
  const mocked = t.mock.method(IDBDatabase.prototype, "transaction", function (...words) {
    const tx = transaction.apply(this, words);
    if (words[1] === mode) {
      mocked.mock.restore();
      resolve(tx);
    }
    return tx;
  });
});

/** The page goes and is back before it heard that its transactions were cut off. */
async function goAndComeBack(t, mode, view) {
  await begun(t, mode);
  suspend();
  view?.dispatchEvent(new Event("pagehide"));
  resume();
}

/** The keys of what is kept beside the store. */
const kept = () => Object.keys(localStorage).filter((key) => key.startsWith("kerfside.failed."));

/** Gives a test a page with a tab that has started. */
const withStarted = (body) => withPhone(async (phone, t) => {
  const { view } = page(t);
  phone.name = "kerfside"; // where a phone without crew is at home: else its tabs go there
  const tab = phone.tab();
  await tab.start();
  await tab.tap(note("before"));
  const told = [];
  tab.addEventListener("trouble", ({ detail }) => told.push(detail));
  await body(tab, { phone, t, view, told });
});

test("a tap that is cut off is stored when the page comes back, once", withPhone(async (phone, t) => {
  const tab = phone.tab();
  await tab.tap(note("before"));
  const tapping = tab.tap(note("cut off"));
  let isStored = false;
  tapping.then(() => (isStored = true), () => {});
  await begun(t, "readwrite");
  suspend();
  const late = tab.tap(note("while away"));
  for (let i = 0; i < 20; i++) await turn();
  assert.equal(isStored, false);
  const other = await resultOf(phone.factory.open(phone.name, 2)); // nothing holds the store: else this would be blocked
  assert.deepEqual(Array.from(other.objectStoreNames).includes("event"), true);
  const kept = await resultOf(other.transaction("event").objectStore("event").count());
  assert.equal(kept, 1);
  other.close();
  await resultOf(phone.factory.deleteDatabase(phone.name));
  resume();
  await Promise.all([tapping, late]);
  assert.deepEqual((await phone.all("event")).map(({ raw }) => JSON.parse(raw).body.text).sort(), ["cut off", "while away"]);
  assert.deepEqual(tab.failed, []);
}));

test("a page that is back before it hears of the cut stores its tap, once, and tells no trouble", withStarted(async (tab, { phone, t, view, told }) => {
  const tapping = tab.tap(note("cut off"));
  await goAndComeBack(t, "readwrite", view);
  assert.equal(kept().length, 1, "noted, for nobody knew that it would be back");
  await tapping;
  assert.deepEqual((await phone.all("event")).map(({ raw }) => JSON.parse(raw).body.text).sort(), ["before", "cut off"]);
  assert.deepEqual([tab.failed, told, kept()], [[], [], []]);
}));

test("an arc that was cut off so is no second arc at the next start", withStarted(async (tab, { phone, t, view, told }) => {
  const starting = tab.startArc({ rig: "rig-1" });
  await goAndComeBack(t, "readwrite", view);
  assert.equal((await starting).written, true);
  assert.deepEqual([told, kept()], [[], []]);
  phone.wall += 60_000;
  await tab.stopArc({ rig: "rig-1" });
  const next = phone.tab();
  await next.start();
  await next.settled();
  assert.deepEqual((await phone.all("event")).map(({ raw }) => JSON.parse(raw).kind).sort(), ["arc.started", "arc.stopped", "note.added"]);
  assert.deepEqual((await next.read([])).arc, {});
}));

test("an arc that is refused leaves no note", withStarted(async (tab, { t, view }) => {
  await tab.startArc({ rig: "rig-1" });
  const again = tab.startArc({ rig: "rig-1" });
  await goAndComeBack(t, "readwrite", view);
  assert.equal((await again).written, false);
  assert.deepEqual(kept(), []);

  const stopping = assert.rejects(tab.stopArc({ rig: "rig-1" }), ({ msg }) => /AbortError/.test(msg));
  const tx = await begun(t, "readwrite");
  view.dispatchEvent(new Event("pagehide"));
  assert.equal(kept().length, 1);
  tx.abort(); // by the browser
  await stopping;
  assert.deepEqual(kept(), [], "the button offers it again");
}));

test("a read that was cut off is read when the page is back", withStarted(async (tab, { t }) => {
  const reading = tab.read([]);
  await goAndComeBack(t, "readonly");
  assert.equal((await reading).sync.unsent, 1);
}));
