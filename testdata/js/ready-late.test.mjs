// Ready while a sum runs: of several answers the one to what was entered last is shown, whichever comes first, and nothing that came meanwhile is lost.
import assert from "node:assert/strict";
import { test } from "node:test";
import { ownParts } from "./own.mjs";
import { place, rows } from "./screen.mjs";
import { turn } from "./turn.mjs";
import { noteTouch } from "../../pwa/parts/settled.js";
import { ReadyPage } from "../../pwa/pages/ready.js";

const declared = ["metal", "thickness"].map((key) => ({ key, label: key, kind: "number" }));

/** Ready on a phone with one rig, whose sums answer when the test says so, and do not hear that they were called off. */
async function open(t, { drafts = {}, seen = null } = {}) {
  const main = place();
  const life = new AbortController();
  t.after(() => life.abort());
  const sums = [];
  const world = { typed: "", rig: { id: "r", fields: { name: "Rig" } }, sums, drafts: Object.assign(drafts, { plan: { thickness: "6mm" } }), form: /** @type {any} */ (null) };
  const journal = Object.assign(new EventTarget(), { state: { coming: 0 }, now: () => 0, seen: () => seen, keepSeen() {}, read: async () => ({ views: { now: null, rigs: world.rig ? { rigs: [world.rig], sites: [] } : null }, arc: {} }) });
  const page = new ReadyPage(main, /** @type {any} */ ({
    life: life.signal, journal, go() {}, sumsRun: () => true, asset: () => (world.form ??= Promise.resolve({ name: "cut-plan", fields: declared })), call: async (name, { text }) => (name === "journal-report" ? { says: ["Nothing is due."] } : { text }),
    settings: Object.assign(new EventTarget(), { values: { units: "metric", rig: "r", site: "" } }),
    calculate: (name, input) => new Promise((resolve, reject) => sums.push({
      thickness: input.thickness, rig: input.rig.name,
      done: () => (resolve({ results: { current: { text: `for ${input.thickness} on ${input.rig.name}` }, path: { value: 0 }, limit_clean: { value: 1 } }, cautions: [] }), turn()),
      fail: (msg) => (reject({ msg, field: "metal" }), turn()),
    })),
    pad: { ask: async () => world.typed }, ...ownParts(drafts),
  }));
  page.start();
  await turn();
  await turn();
  const at = (ref) => main.querySelector(`[data-ref=${ref}]`);
  return Object.assign(world, {
    page, at, life, shown: () => (at("told").hidden ? "" : (/for \S+ on (Rig|Truck 2)/.exec(rows(main, "settings").join()) ?? [""])[0]),
    wrong: () => main.querySelector("[data-ref=plan] [data-ref=wrong]").textContent,
    type: async (key, text) => {
      world.typed = text;
      main.querySelector(`[data-key=${key}] button`).click();
      await turn();
    },
    hears: async (what) => (journal.dispatchEvent(new Event(what)), turn()),
    begin: () => {
      main.querySelector("[data-action=begin]").click();
      return drafts["plan.begin"]?.results?.current.text;
    },
  });
}

test("of two sums under way the newer stands, though the older comes later", async (t) => {
  const ready = await open(t);
  await ready.type("thickness", "8mm");
  const [older, newer] = ready.sums;
  assert.deepEqual([older.thickness, newer.thickness], ["6mm", "8mm"]);
  await newer.done();
  assert.equal(ready.shown(), "for 8mm on Rig");
  await older.done();
  assert.equal(ready.shown(), "for 8mm on Rig");
  assert.equal(ready.drafts["plan.answer"].results.current.text, "for 8mm on Rig", "nor is the older kept for the next start");
});

test("nor does an older sum show that comes first: what stands, stands until the newer has come", async (t) => {
  const ready = await open(t);
  await ready.sums[0].done();
  await ready.type("thickness", "8mm");
  await ready.type("thickness", "10mm");
  await ready.sums[1].done();
  assert.equal(ready.shown(), "for 6mm on Rig", "for the moment that sums take which run");
  assert.equal(ready.begin(), undefined, "but it is not this session's");
  await ready.sums[2].done();
  assert.equal(ready.shown(), "for 10mm on Rig");
  assert.equal(ready.begin(), "for 10mm on Rig");
});

test("a late failure of an older sum says nothing of the newer input", async (t) => {
  const ready = await open(t);
  await ready.type("metal", "copper");
  await ready.sums[1].done();
  await ready.sums[0].fail("too hard");
  assert.deepEqual([ready.shown(), ready.wrong()], ["for 6mm on Rig", ""]);
  await ready.type("metal", "lead");
  await ready.sums[2].fail("too soft");
  assert.equal(ready.shown(), "");
  assert.match(ready.at("form").textContent, /too soft/);
});

test("a rig that is named while its sum runs has its figures all the same", async (t) => {
  const ready = await open(t);
  await ready.type("thickness", "8mm");
  ready.rig = { id: "r", fields: { name: "Truck 2" } }; // on its own page, or by another phone
  await ready.hears("change");
  assert.equal(ready.at("rig").textContent, "Truck 2");
  for (const sum of ready.sums) await sum.done();
  assert.equal(ready.shown(), "for 8mm on Truck 2");
  assert.equal(ready.begin(), "for 8mm on Truck 2");
});

test("what is entered before the first sum has come is what is reckoned and kept", async (t) => {
  const ready = await open(t, { drafts: { "plan.answer": { results: { current: { text: "for 6mm on Rig" }, path: { value: 0 }, limit_clean: { value: 1 } }, cautions: [], keys: ["thickness"], asked: JSON.stringify([{ rig: { name: "Rig" }, site: {} }, [["thickness", "6mm"]], "metric"]) } } });
  assert.equal(ready.shown(), "for 6mm on Rig", "as it was left");
  await ready.type("thickness", "8mm");
  assert.deepEqual(ready.drafts.plan, { thickness: "8mm" });
  await ready.sums.at(-1).done();
  assert.deepEqual([ready.shown(), ready.begin()], ["for 8mm on Rig", "for 8mm on Rig"]);
});

test("a rig that is gone while its sum runs takes the figures along", async (t) => {
  const ready = await open(t);
  const { rig } = ready;
  ready.rig = /** @type {any} */ (null);
  await ready.hears("views");
  await ready.sums[0].done();
  assert.equal(ready.shown(), "");
  ready.rig = rig;
  await ready.hears("views");
  await ready.sums[1].done();
  assert.equal(ready.shown(), "for 6mm on Rig");
});

test("an answer to a screen that was left is neither shown nor kept", async (t) => {
  const ready = await open(t);
  ready.life.abort();
  ready.page.stop();
  await ready.sums[0].done();
  assert.deepEqual([ready.shown(), ready.drafts["plan.answer"]], ["", undefined]);
});

test("the first answer, which pushes the rows below it down, waits while a finger is on one, and the next does not", async (t) => {
  const ready = await open(t);
  t.mock.timers.enable({ apis: ["setTimeout"] });
  let now = 50_000;
  t.mock.method(performance, "now", () => now);
  const finger = (type) => noteTouch(/** @type {any} */ ({ type, pointerId: 1, target: ready.at("gate") }));
  finger("pointerdown");
  await ready.sums[0].done();
  assert.equal(ready.shown(), "");
  finger("pointerup");
  now += 1000;
  t.mock.timers.tick(1000);
  await turn();
  assert.equal(ready.shown(), "for 6mm on Rig");
  finger("pointerdown");
  await ready.type("thickness", "8mm");
  await ready.sums[1].done();
  assert.equal(ready.shown(), "for 8mm on Rig");
  finger("pointerup");
});
