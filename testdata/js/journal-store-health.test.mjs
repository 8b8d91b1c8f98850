// A store that does not answer: said after five seconds without progress, and what is tapped is kept.

import assert from "node:assert/strict";
import { test } from "node:test";
import { abortNext, resultOf, hold, note, page, withPhone } from "./phone.mjs";
import { turn } from "./turn.mjs";
import { storeHealth } from "../../pwa/journal/store-health.js";

/** Lets a second pass n times, with what follows from it. */
async function seconds(t, n) {
  for (let i = 0; i < n; i++) {
    t.mock.timers.tick(1000);
    await turn();
  }
}

/** The keys of what is kept beside the store. */
const keptIn = (localStorage) => Object.keys(localStorage).filter((key) => key.startsWith("kerfside.failed."));

/** Waits until nothing is kept beside the store. */
async function emptied(localStorage) {
  while (keptIn(localStorage).length > 0) await turn();
}

const heard = (tab) => {
  const said = [];
  tab.addEventListener("stuck", ({ detail }) => said.push(detail?.kind ?? null));
  return said;
};

test("what is tapped while the store is stuck is kept, and stored when it answers", withPhone(async (phone, t) => {
  t.mock.timers.enable({ apis: ["setInterval"] });
  const { localStorage } = page(t);
  const tab = phone.tab();
  const said = heard(tab);
  const letGo = hold(tab);
  const first = assert.rejects(tab.tap(note("first")), { kind: "stuck" });
  await seconds(t, 4);
  assert.deepEqual(said, []);
  await seconds(t, 1);
  await first;
  assert.deepEqual(said, ["stuck"]);
  phone.wall += 1000;
  await assert.rejects(tab.startArc({ rig: "rig-1" }), { kind: "stuck" }, "at once, for it is known to be stuck");
  phone.wall += 60_000;
  await assert.rejects(tab.stopArc({ rig: "rig-1" }), { kind: "stuck" });
  assert.equal(tab.failed.length, 3);
  assert.equal(keptIn(localStorage).length, 3);

  letGo();
  await emptied(localStorage);
  const stored = await phone.all("event");
  assert.deepEqual(said, ["stuck", null]);
  const [note1, start, stop] = stored.map(({ raw }) => JSON.parse(raw)).sort((a, b) => a.wall[0] - b.wall[0]);
  assert.equal(note1.body.text, "first");
  assert.equal(stop.body.of, start.id);
  assert.equal(stop.wall[0] - start.wall[0], 60_000);
  assert.deepEqual(tab.failed, []);
}));

test("what was kept is stored by the next start, once", withPhone(async (phone, t) => {
  phone.name = "kerfside"; // where a phone without crew is at home: else its tabs go there
  t.mock.timers.enable({ apis: ["setInterval"] });
  const { localStorage } = page(t);
  const stuck = phone.tab();
  hold(stuck);
  const tapped = assert.rejects(stuck.tap(note("kept")), { kind: "stuck" });
  await seconds(t, 5);
  await tapped;
  stuck.failed.length = 0; // that page is closed, with what it waits for
  storeHealth.ended();

  const tabs = [phone.tab(), phone.tab()];
  for (const tab of tabs) tab.start();
  await emptied(localStorage);
  const events = await tabs[0].db.run(["event"], "readonly", (tx) => resultOf(tx.objectStore("event").getAll()));
  assert.deepEqual(events.map(({ raw }) => JSON.parse(raw).body.text), ["kept"]);
}));

test("what is being stored as the page goes is stored by the next start, once", withPhone(async (phone, t) => {
  const { localStorage, view } = page(t);
  phone.name = "kerfside";
  const going = phone.tab();
  await going.start();
  let cut;
  const run = going.db.run.bind(going.db);
  going.db.run = (stores, mode, body, ...rest) => (body.toString().includes("assertAtHome(meta)") ? new Promise((resolve) => (cut = resolve)) : run(stores, mode, body, ...rest));
  going.startArc({ rig: "rig-1" });
  going.tap(note("cut off"));
  const { ids } = await phone.tab().tap(note("stored"));
  view.dispatchEvent(new Event("pagehide"));
  assert.equal(keptIn(localStorage).length, 2);
  // The third was stored just before the page went, but it had not heard so.
  localStorage.setItem(`kerfside.failed.${ids[0]}`, JSON.stringify({ entries: [{ ...note("stored"), id: ids[0] }], wall: phone.wall }));
  assert.ok(cut);

  const next = phone.tab();
  next.start();
  await emptied(localStorage);
  const kinds = (await next.db.run(["event"], "readonly", (tx) => resultOf(tx.objectStore("event").getAll()))).map(({ raw }) => JSON.parse(raw)).map(({ kind, body }) => body.text ?? kind);
  assert.deepEqual(kinds.sort(), ["arc.started", "cut off", "stored"]);
}));

test("an arc that was kept stays so when the store cannot take it yet", withPhone(async (phone, t) => {
  const { localStorage } = page(t);
  const tab = phone.tab();
  tab.failed.push({ entries: [{ kind: "arc.started", id: "x".repeat(22), body: { rig: "rig-1" } }], wall: phone.wall, offered: "start" });
  abortNext(tab, new DOMException("no", "DataError"));
  assert.equal(await tab.retry(), 0);
  assert.deepEqual([tab.failed.length, keptIn(localStorage).length], [1, 1]);
  assert.equal(await tab.retry(), 1);
  assert.deepEqual([tab.failed.length, keptIn(localStorage).length, Object.keys((await tab.read([])).arc)], [0, 0, ["rig-1"]]);
}));

test("a store that answers now and then is not stuck, however slow", async (t) => {
  t.mock.timers.enable({ apis: ["setInterval"] });
  let said = 0;
  storeHealth.addEventListener("stuck", () => said++);
  storeHealth.began();
  for (let i = 0; i < 5; i++) {
    await seconds(t, 4);
    storeHealth.progressed();
  }
  storeHealth.ended();
  await seconds(t, 60);
  assert.equal(said, 0, "nothing is waited for any more");
});
