// Pace judges the last arc against the plan, and keeps how the cut was only when that is tapped.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { turns } from "./turn.mjs";
import { PacePage } from "../../pwa/pages/pace.js";

Element.prototype.getAnimations ??= () => [];

const field = (key, known) => ({ key, label: key, kind: "number", optional: true, ...(known ? { known } : {}) });
const all = [{ name: "travel-pace", title: "", about: "", results: [], fields: [field("speed", "plan.speed"), field("length"), field("time")] }];

const handedOn = (speed) => ({ fields: { metal: "stainless", thickness: "6mm" }, results: { current: { value: 45, unit: "A", text: "45 A" }, pressure: { value: 460_000.4, unit: "Pa", text: "4.6 bar" }, speed: { value: 0.01, unit: "m/s", text: speed } } });

/** Opens Pace; what it asks, what it enters. @param {Record<string, any>} kept @param {{sumsRun?: boolean, passed?: number}} [how] */
async function open(kept, { sumsRun = false, passed } = {}) {
  const main = place();
  const life = new AbortController();
  const own = ownParts(kept);
  const asked = [];
  const entered = [];
  const journal = { now: () => 7, read: async () => ({ views: { rigs: { rigs: [{ id: "r", fields: {} }], sites: [] }, now: { session: { id: "s" }, rigs: [] }, book: null } }), tap: async (entry) => (entered.push(...[entry].flat()), { ids: ["e"] }) };
  const page = new PacePage(main, /** @type {any} */ ({
    life: life.signal, title() {}, sumsRun: () => sumsRun, asset: async () => all, journal, toasts: { show() {}, problem(e) { throw e; } },
    settings: { values: { units: "metric", rig: "r", site: "" } }, alarm: {},
    calculate: async (_, values) => (asked.push({ ...values }), { results: passed && values.time ? { passed: { value: passed, text: "" }, verdict: "too slow" } : { beat: { value: 6, text: "6 s" } }, cautions: [], working: [], sources: [] }),
    call: (name, { values = [] } = {}) => (sumsRun ? Promise.resolve(name === "read-value" ? { whole: 6000, text: "x" } : { texts: values.map(() => "600 mm/min") }) : Promise.reject({ kind: "busy" })), ...own,
  }));
  await page.start();
  await turns();
  return { page, main, asked, entered, own, end: () => (life.abort(), page.stop()), how: (n) => [...main.querySelectorAll("button")].filter((b) => /good|slow|fast|sever/i.test(b.textContent))[n] };
}

test("it opens with plan and last arc", async () => {
  const at = await open({ "plan.begin": handedOn("600 mm/min"), "arc.last": { seconds: "12.3" } });
  assert.deepEqual(at.asked.at(-1), { speed: "600 mm/min", time: "12.3s" });
  at.end();
});

test("a new plan's speed is taken, and what was typed stays", async () => {
  const kept = { "plan.begin": handedOn("600 mm/min") };
  (await open(kept)).end();
  kept["plan.begin"] = handedOn("900 mm/min");
  const at = await open(kept);
  assert.equal(at.asked.at(-1).speed, "900 mm/min");
  at.end();
  kept["sum.travel-pace"] = { speed: "750 mm/min", length: "200mm" };
  const typed = await open(kept);
  assert.deepEqual(typed.asked.at(-1), { speed: "750 mm/min", length: "200mm" });
  typed.end();
});

test("the arc's time is not lost where its length comes later", async () => {
  const kept = { "plan.begin": handedOn("600 mm/min"), "arc.last": { seconds: "9.0" } };
  (await open(kept)).end();
  const again = await open(kept);
  assert.equal(again.asked.at(-1).time, "9.0s");
  again.end();
});

test("nothing is kept without a tap, and one tap keeps all of it", async () => {
  const at = await open({ "plan.begin": handedOn("600 mm/min"), "arc.last": { seconds: "15" }, "sum.travel-pace": { length: "200mm" } }, { sumsRun: true, passed: 0.0133333 });
  assert.deepEqual(at.entered, []);
  at.how(1).click();
  await turns();
  assert.deepEqual(at.entered.map(({ kind, in: session, body }) => ({ kind, session, body })), [{ kind: "cut.tried", session: "s",
    body: { rig: "r", verdict: "too-slow", metal: "stainless", amps: 45, pressure: 460_000, speed: 13_333, thickness: 6000 } }]);
  at.end();
});

test("a pass is judged before it can be kept", async () => {
  const at = await open({ "plan.begin": handedOn("600 mm/min"), "arc.last": { seconds: "15" }, "sum.travel-pace": { length: "200mm" } }, { passed: 0.01 });
  assert.equal(at.how(0).closest("section").hidden, false);
  at.end();
});

test("without a pass there is nothing to keep", async () => {
  const at = await open({ "plan.begin": handedOn("600 mm/min") }, { passed: 0.01 });
  assert.equal(at.how(0).closest("section").hidden, true);
  at.end();
});
