import assert from "node:assert/strict";
import { test } from "node:test";
import { resultOf, withPhone } from "./phone.mjs";

const yard = { kind: "site.set", about: "site-1", body: { name: "Yard", volts: "230V" } };
const bench = { kind: "rig.set", about: "rig-1", body: { name: "Bench", max_current: "40A" } };
const fit = (about, id) => ({ kind: "part.fitted", about, id, body: { slot: "tip", rig: "rig-1" } });
const ids = ["A", "B", "C"].map((letter) => letter.repeat(22));

/** Puts a view into the store, as a fold of before did. */
function view(phone, name, data, fold) {
  return phone.tabs[0].db.run(["view"], "readwrite", (tx) => resultOf(tx.objectStore("view").put({ name, fold, l: 0, data })));
}

test("a rig and a site are known as soon as they are stored, before any fold", withPhone(async (phone) => {
  await phone.tab().tap([bench, yard]);
  const { rigs } = (await phone.tab().read(["rigs"])).views; // as after a kill: no worker has run
  assert.deepEqual(rigs.rigs.map(({ id, fields }) => [id, fields]), [["rig-1", bench.body]]);
  assert.deepEqual(rigs.sites.map(({ id, fields }) => [id, fields]), [["site-1", yard.body]]);
}));

test("what was entered last stands over the view, field by field", withPhone(async (phone) => {
  const tab = phone.tab();
  const { foldVersion } = await import("../../pwa/journal/fold-version.js");
  await view(phone, "rigs", { rigs: [{ id: "rig-1", same: ["rig-0"], fields: { name: "Old", tips: "40A" }, by: { name: "x" }, also: [] }], sites: [], jobs: [] }, foldVersion);
  const { id } = await tab.tap({ kind: "rig.set", about: "rig-0", body: { name: "New", tips: null } });
  const [rig] = (await tab.read(["rigs"])).views.rigs.rigs;
  assert.deepEqual([rig.id, rig.fields, rig.by.name], ["rig-1", { name: "New" }, id]);
}));

test("a part is in from the tap on, out from the tap on, and has its reading", withPhone(async (phone) => {
  const tab = phone.tab();
  const tips = async () => (await tab.read(["now"])).views.now.rigs.find(({ rig }) => rig === "rig-1").parts;
  await tab.tap(fit("tip-1", ids[0]));
  await tab.tap({ kind: "part.reading", about: "tip-1", body: { dmax: 950 } });
  assert.deepEqual((await tips()).map(({ part, slot, reading }) => [part, slot, reading.dmax]), [["tip-1", "tip", 950]]);
  await tab.tap([{ kind: "part.pulled", about: "tip-1", id: ids[1], body: { why: "worn", rig: "rig-1" } }, fit("tip-2", ids[2])]);
  assert.deepEqual((await tips()).map(({ part }) => part), ["tip-2"]);
  await tab.voidEntry(ids[2]);
  await tab.voidEntry(ids[1]);
  assert.deepEqual((await tips()).map(({ part }) => part), ["tip-1"]);
}));

test("a drained trap counts from the tap on, until that is taken back", withPhone(async (phone) => {
  const tab = phone.tab();
  const { foldVersion } = await import("../../pwa/journal/fold-version.js");
  await view(phone, "now", { session: null, rigs: [{ rig: "rig-1", parts: [], drain: { every: 1_200_000, ms: 1_500_000, at: 5, due: -300_000 } }], faults: [] }, foldVersion);
  const drain = async () => (await tab.read(["now"])).views.now.rigs[0].drain;
  const { id } = await tab.tap({ kind: "trap.drained", body: { rig: "rig-1" } });
  assert.deepEqual(await drain(), { every: 1_200_000, ms: 0, at: phone.wall, due: 1_200_000 });
  await tab.voidEntry(id);
  assert.equal((await drain()).due, -300_000);
}));

test("a fault is settled from the tap on", withPhone(async (phone) => {
  const tab = phone.tab();
  const { foldVersion } = await import("../../pwa/journal/fold-version.js");
  await view(phone, "now", { session: null, rigs: [], faults: [{ id: "fault-1" }, { id: "fault-2" }] }, foldVersion);
  await tab.tap({ kind: "fault.mended", about: "fault-1", body: {} });
  assert.deepEqual((await tab.read(["now"])).views.now.faults, [{ id: "fault-2" }]);
}));
