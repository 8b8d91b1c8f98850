// What a phone remembers of may-i-cut at the tap must be what the fold says of it a moment later.
import assert from "node:assert/strict";
import { test } from "node:test";
import { withPhone } from "./phone.mjs";
import { startWasm } from "./wasm.mjs";
import { FoldLoop } from "../../pwa/worker/fold-loop.js";

const stop = (step, rig = "rig-1") => ({ kind: "check.answered", body: { guide: "may-i-cut", step, result: "fail", says: `${step}, in words`, by: "you", rig, site: "yard" } });
const passed = (result, rig = "rig-1") => ({ kind: "check.answered", body: { guide: "may-i-cut", step: "asked", result, rig } });
const cleared = (of) => ({ kind: "check.cleared", body: { of, why: "vented: two 6 mm holes drilled" } });
const gate = async (tab) => (await tab.read(["now"])).views.now?.gate;

test("after each tap the phone shows what the fold will say", withPhone(async (phone) => {
  const tab = phone.tab();
  const folder = new FoldLoop({ db: tab.db, call: await startWasm(), channel: { tell() {} } });
  await folder.run();
  const ids = {};
  let first = "";
  for (const [name, act] of [
    ["sealed", () => tab.tap(stop("sealed"))],
    ["two at once", () => tab.tap([stop("wet"), stop("behind")])],
    ["another rig's", () => tab.tap(stop("wet", "rig-2"))],
    ["another check", () => tab.tap({ kind: "check.answered", body: { guide: "bring-up", step: "clamp", result: "fail" } })],
    ["cleared", () => tab.tap(cleared(ids.sealed))],
    ["the clearing undone", () => tab.voidEntry(ids.cleared, "undone")],
    ["the clearing brought back", () => tab.bringBack(ids.cleared)],
    ["a stop undone", () => tab.voidEntry(ids["another rig's"], "undone")],
    ["a stop brought back", () => tab.bringBack(ids["another rig's"])],
    ["passed", () => tab.tap(passed("conditions"))],
    ["the first of two cleared", () => tab.tap(cleared(first))],
    ["and undone: it stands first again", () => tab.voidEntry(ids["the first of two cleared"], "undone")],
    ["cleared again", () => tab.tap(cleared(ids["two at once"]))],
    ["of nothing", () => tab.tap(cleared("never-comes___________"))],
    ["void of nothing", () => tab.voidEntry("never-comes___________")],
  ]) {
    phone.wall += 1000;
    const done = await act();
    ids[name] = done.id;
    if (name === "two at once") first = done.ids[0];
    const atOnce = await gate(tab);
    await folder.run();
    const folded = await gate(tab);
    assert.deepEqual(atOnce.stops, folded.stops, name);
    assert.deepEqual(new Map(atOnce.asked.map((a) => [a.rig, [a.verdict, a.at]])), new Map(folded.asked.map((a) => [a.rig, [a.verdict, a.at]])), name);
  }
  const left = (await gate(tab)).stops.map((s) => s.says);
  assert.deepEqual(left.sort(), ["wet, in words", "wet, in words"]);
}));

test("a stop that no worker has folded stands after a restart", withPhone(async (phone) => {
  await phone.tab().tap(stop("sealed"));
  const again = phone.tab();
  assert.deepEqual((await gate(again)).stops.map((s) => s.step), ["sealed"]);
}));
