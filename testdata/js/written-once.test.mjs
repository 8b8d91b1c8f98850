// A second tap while the first is still being written writes nothing of its own.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { turn } from "./turn.mjs";
import { FixPage } from "../../pwa/pages/fix.js";
import { GatePage } from "../../pwa/pages/gate.js";
import { ReadyPage } from "../../pwa/pages/ready.js";
import { StatusBar } from "../../pwa/parts/status-bar.js";

/** What a page is given, with a store that takes its time: each write waits for its turn in `writes`. */
function slow({ views = {}, drafts = {}, ...more } = {}) {
  const life = new AbortController();
  const tapped = [];
  const writes = [];
  const journal = Object.assign(new EventTarget(), {
    state: { coming: 0 }, now: () => Date.now(),
    seen: () => null, keepSeen() {},
    read: async () => ({ views: { now: null, rigs: { rigs: [], sites: [] }, book: null, ...views }, arc: {}, lastArc: null, device: "a", offset: 0 }),
    tap: (entry) => new Promise((resolve, reject) => {
      tapped.push([entry].flat().map(({ kind }) => kind).join());
      writes.push({ done: () => resolve({ ids: [] }), fail: reject });
    }),
  });
  const deps = {
    life: life.signal, journal, go() {}, title() {}, sumsRun: () => true, toasts: { show() {}, problem() {} }, alarm: { arm() {}, ring() {} },
    settings: Object.assign(new EventTarget(), { values: { units: "metric", rig: "", site: "", watchMinutes: 60, watcher: "" }, set() {} }),
    ...ownParts(drafts), ...more,
  };
  return { deps: /** @type {any} */ (deps), tapped, writes, leave: () => life.abort() };
}

test("one example rig", async () => {
  const main = place();
  const { deps, tapped, leave } = slow({ asset: async () => ({ fields: [] }), call: async () => ({ says: ["Nothing is due."] }) });
  await new ReadyPage(main, deps).start();
  for (let taps = 0; taps < 2; taps++) main.querySelector("[data-action=example]").click();
  leave();
  assert.deepEqual(tapped, ["rig.set"]);
});

test("a stop of the gate is kept once; a write that failed is made again", async (t) => {
  let clock = 0;
  t.mock.method(performance, "now", () => clock);
  const main = place();
  const found = { key: "wet", name: "something is wet", why: "", cleared_by: "you" };
  const declared = { name: "may-i-cut", together: [], fields: [{ key: "wet", label: "Wet?" }, { key: "gas", label: "Gas?" }] };
  const { deps, tapped, writes, leave } = slow({ asset: async () => [declared], call: async () => ({ results: { stop: [found] }, cautions: [] }),
    drafts: { gate: { wet: "yes", _job: "after ", _at: String(Date.now()) } } });
  await new GatePage(main, deps).start();
  const keep = () => main.querySelector("[data-action=keep]").click();
  keep();
  keep();
  assert.deepEqual(tapped, ["check.answered"]);
  writes[0].fail({ msg: "full" });
  await turn();
  clock = 1000; // no bounce of a glove
  keep();
  leave();
  assert.deepEqual(tapped, ["check.answered", "check.answered"]);
});

test("a fault is settled once, whichever way", async () => {
  const main = place();
  const cause = { key: "worn-tip", cause: "worn-tip", label: "Worn tip", words: "", do: "", guide: "g", step: "s" };
  const answer = { results: { state: "act", causes: [cause], no_faults: [], next: [] }, cautions: [] };
  const { deps, tapped, leave } = slow({ drafts: { fix: { signs: "dross", fault: "f-1" } }, chooser: { ask: async () => "worn-tip" }, calculate: async () => answer,
    asset: async () => ({ groups: [{ label: "", signs: ["dross"] }], signs: [{ key: "dross", label: "Dross" }], causes: [cause], checks: [], pictures: {} }) });
  await new FixPage(main, deps).start();
  for (const action of ["it", "it", "gone", "other"]) main.querySelector(`[data-action=${action}]`).click();
  await turn();
  leave();
  assert.deepEqual(tapped, ["fault.found,fault.mended"]);
});

test("one fire watch, and one end of it", async () => {
  Object.assign(globalThis, { location: { pathname: "/ready" } });
  for (const act of ["begin", "end"]) {
    const now = Date.now();
    const watch = { id: "w", in: "", rig: "", device: "a", ms: 60_000, from: now, ends: now + 60_000, running: false };
    const { deps, tapped, writes, leave } = slow({ views: { now: { watch: act === "end" ? [watch] : [] } } });
    const standing = new StatusBar(deps, place());
    await standing.start(deps.life);
    standing[act]();
    standing[act]();
    writes[0].done();
    await turn();
    leave();
    assert.equal(tapped.length, 1, act);
  }
});
