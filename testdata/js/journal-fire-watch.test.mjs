// What a phone remembers of fire watches at the tap must be what the fold says of them a moment later.
import assert from "node:assert/strict";
import { test } from "node:test";
import { resultOf, withPhone } from "./phone.mjs";
import { startWasm } from "./wasm.mjs";
import { FoldLoop } from "../../pwa/worker/fold-loop.js";

const minute = 60_000;
const begun = (session, rig, min = 60) => ({ kind: "watch.started", in: session, body: { ms: min * minute, rig } });
const ended = (of, session) => ({ kind: "watch.ended", in: session, body: { of } });
const shown = async (tab) => (await tab.read(["now"])).views.now?.watch;

test("after each tap the phone shows what the fold will say", withPhone(async (phone) => {
  const tab = phone.tab();
  const folder = new FoldLoop({ db: tab.db, call: await startWasm(), channel: { tell() {} } });
  await folder.run();
  const ids = {};
  for (const [name, act] of [
    ["opened", () => tab.tap({ kind: "session.opened", about: "s-1", body: { rig: "rig-1" } })],
    ["struck", () => tab.startArc({ rig: "rig-1", in: "s-1" })],
    ["off", () => tab.stopArc({ rig: "rig-1" })],
    ["watch", () => tab.tap(begun("s-1", "rig-1"))],
    ["struck again", () => tab.startArc({ rig: "rig-1", in: "s-1" })],
    ["off again", () => tab.stopArc({ rig: "rig-1" })],
    ["another rig elsewhere", () => tab.startArc({ rig: "rig-2", in: "s-2" })],
    ["another rig off", () => tab.stopArc({ rig: "rig-2" })],
    ["its rig elsewhere", () => tab.startArc({ rig: "rig-1", in: "s-2" })],
    ["its rig off", () => tab.stopArc({ rig: "rig-1" })],
    ["ended", () => tab.tap(ended(ids.watch, "s-1"))],
    ["the end undone", () => tab.voidEntry(ids.ended, "undone")],
    ["the end brought back", () => tab.bringBack(ids.ended)],
    ["a second", () => tab.tap(begun("s-1", "rig-1", 30))],
    ["a third, of another rig", () => tab.tap(begun("s-2", "rig-2", 90))],
    ["two ended at once", () => tab.tap([ended(ids["a second"], "s-1"), ended(ids["a third, of another rig"], "s-1")])],
    ["a fourth", () => tab.tap(begun("s-1", "rig-1"))],
    ["the fourth undone", () => tab.voidEntry(ids["a fourth"], "undone")],
    ["the fourth brought back", () => tab.bringBack(ids["a fourth"])],
    ["ended of nothing", () => tab.tap(ended("never-comes___________", "s-1"))],
  ]) {
    phone.wall += 2 * minute;
    ids[name] = (await act()).id;
    const atOnce = (await shown(tab)) ?? [];
    await folder.run();
    assert.deepEqual(atOnce, (await shown(tab)) ?? [], name);
  }
  assert.equal((await shown(tab)).length, 1);
}));

/** Steps that each have to show at the tap what the fold says then. */
const scenes = {
  "two rigs burn in one session, one goes off": (tab) => [
    ["watch", () => tab.tap(begun("s-1", "rig-1"))],
    ["one", () => tab.startArc({ rig: "rig-1", in: "s-1" })],
    ["other", () => tab.startArc({ rig: "rig-2", in: "s-1" })],
    ["other off", () => tab.stopArc({ rig: "rig-2" })],
  ],
  "two that an arc starts anew end together, the end of the first is undone": (tab, ids) => [
    ["one", () => tab.tap({ ...begun("s-1", "rig-1"), id: "A".repeat(22) })],
    ["other", () => tab.tap({ ...begun("s-1", "rig-1"), id: `B${"A".repeat(21)}` })],
    ["arc", () => tab.startArc({ rig: "rig-1", in: "s-1" })],
    ["off", () => tab.stopArc({ rig: "rig-1" })],
    ["ended", () => tab.tap(ended(ids.one, "s-1"))],
    ["undone", () => tab.voidEntry(ids.ended, "undone")],
  ],
  "an earlier arc is entered by hand while one burns": (tab, ids, phone) => [
    ["watch", () => tab.tap(begun("s-1", "rig-1"))],
    ["arc", () => tab.startArc({ rig: "rig-1", in: "s-1" })],
    ["by hand", () => tab.tap({ kind: "arc.run", in: "s-1", body: { rig: "rig-1", start: phone.wall - 9 * minute, stop: phone.wall - 8 * minute } })],
  ],
  "removed, and brought back after an arc": (tab, ids) => [
    ["watch", () => tab.tap(begun("s-1", "rig-1"))],
    ["removed", () => tab.voidEntry(ids.watch, "undone")],
    ["arc", () => tab.startArc({ rig: "rig-1", in: "s-1" })],
    ["off", () => tab.stopArc({ rig: "rig-1" })],
    ["back", () => tab.bringBack(ids.watch)],
  ],
  "ended, and the end undone after an arc": (tab, ids) => [
    ["watch", () => tab.tap(begun("s-1", "rig-1"))],
    ["ended", () => tab.tap(ended(ids.watch, "s-1"))],
    ["arc", () => tab.startArc({ rig: "rig-1", in: "s-1" })],
    ["off", () => tab.stopArc({ rig: "rig-1" })],
    ["undone", () => tab.voidEntry(ids.ended, "undone")],
  ],
  "made longer": (tab, ids) => [
    ["watch", () => tab.tap(begun("s-1", "rig-1"))],
    ["longer", () => tab.amend(ids.watch, { ms: 120 * minute })],
  ],
  "begun without its rig while an arc burns": (tab) => [
    ["arc", () => tab.startArc({ rig: "rig-1" })],
    ["watch", () => tab.tap(begun("s-1"))],
  ],
};
for (const [name, steps] of Object.entries(scenes)) {
  test(`at the tap as after the fold: ${name}`, withPhone(async (phone) => {
    const tab = phone.tab();
    const folder = new FoldLoop({ db: tab.db, call: await startWasm(), channel: { tell() {} } });
    await tab.tap({ kind: "session.opened", about: "s-1", body: { rig: "rig-1" } });
    await folder.run();
    const ids = {};
    for (const [step, act] of steps(tab, ids, phone)) {
      phone.wall += 2 * minute;
      ids[step] = (await act()).id;
      const atOnce = (await shown(tab)) ?? [];
      await folder.run();
      assert.deepEqual(atOnce, (await shown(tab)) ?? [], step);
    }
  }));
}

test("an older arc that is entered by hand is not the last", withPhone(async (phone) => {
  const tab = phone.tab();
  await tab.startArc({ rig: "rig-1", in: "s-1" });
  phone.wall += minute;
  await tab.stopArc({ rig: "rig-1" });
  const at = phone.wall;
  await tab.tap({ kind: "arc.run", in: "s-1", body: { rig: "rig-1", start: at - 600 * minute, stop: at - 599 * minute } });
  assert.equal((await tab.read([])).lastArc.at, at);
}));

test("a watch that no worker has folded stands after a restart, and its end too", withPhone(async (phone) => {
  const { id } = await phone.tab().tap(begun("s-1", "rig-1"));
  assert.deepEqual((await shown(phone.tab())).map((w) => w.id), [id]);
  await phone.tab().tap(ended(id, "s-1"));
  assert.deepEqual((await shown(phone.tab())) ?? [], []);
}));

test("when an arc of this phone went off last is known at the tap", withPhone(async (phone) => {
  const tab = phone.tab();
  assert.equal((await tab.read([])).lastArc, null);
  await tab.startArc({ rig: "rig-1", in: "s-1" });
  phone.wall += minute;
  await tab.stopArc({ rig: "rig-1" });
  assert.deepEqual((await tab.read([])).lastArc, { rig: "rig-1", in: "s-1", at: phone.wall });
}));

test("an arc is the last one although one before was kept by a clock that ran ahead", withPhone(async (phone) => {
  const tab = phone.tab();
  const arc = async () => {
    await tab.startArc({ rig: "rig-1", in: "s-1" });
    phone.wall += minute;
    await tab.stopArc({ rig: "rig-1" });
    return (await tab.read([])).lastArc.at;
  };
  phone.wall += 300 * minute;
  const ahead = await arc();
  phone.wall -= 300 * minute;
  await tab.db.run(["meta"], "readwrite", async (tx) => { // as after a sync: the clock follows the server back
    const meta = await resultOf(tx.objectStore("meta").get("meta"));
    tx.objectStore("meta").put({ ...meta, clock: "0".repeat(16) }, "meta");
  });
  assert.ok((await arc()) < ahead);
}));

test("a watch of no length is not shown at the tap that brings it back", withPhone(async (phone) => {
  const tab = phone.tab();
  for (const ms of ["60", null, {}, -1]) {
    const { id } = await tab.tap({ kind: "watch.started", body: { ms } });
    await tab.voidEntry(id);
    await tab.bringBack(id);
    assert.deepEqual((await shown(tab)) ?? [], [], JSON.stringify(ms));
  }
}));
