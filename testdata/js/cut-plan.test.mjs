// The plan on Cut: in the units of now, whatever units it was handed on in and by which version.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { turn } from "./turn.mjs";
import { startWasm } from "./wasm.mjs";
import { CutPage } from "../../pwa/pages/cut.js";

/** As version 0.1 stored it on a phone in US units. 67 psi are 4.62 bar, 19.1 in/min 485 mm/min (NIST SP 811). */
const old = { fields: { thickness: "3/8in" }, results: {
  current: { value: 45, unit: "A", text: "45 A" }, pressure: { value: 461_948.7, unit: "Pa", text: "67 psi", also: "4.62 bar" },
  speed: { value: 0.008086, unit: "m/s", text: "19.1 in/min" }, pace: { value: 123.7, unit: "s/m", text: "12.6 s per 4 in" }, standing: "Try it on scrap.",
} };
const day = { verdict: "fails", binding: "hose", arc_on: { value: 300, unit: "s", text: "5 min" }, arc_rest: { value: 300, unit: "s", text: "5 min" } };

/** @param {any} begun @param {(cut: {page: CutPage, settings: any, shown: (ref: string) => string, main: any}) => unknown} body @param {any} [call] */
async function withPlan(begun, body, call = () => Promise.reject({ kind: "busy" })) {
  const main = place();
  const settings = Object.assign(new EventTarget(), { values: { rig: "rig-1", watchMinutes: 60, units: "metric", watcher: "", taught: {} } });
  const journal = Object.assign(new EventTarget(), { now: Date.now, seen: () => null, keepSeen() {}, read: async () => ({ views: { now: null, rigs: null }, arc: {}, offset: 0, lastArc: null, device: "a" }) });
  const life = new AbortController();
  const page = new CutPage(main, /** @type {any} */ ({ journal, life: life.signal, call, settings, alarm: {}, toasts: { show() {} }, ...ownParts({ "plan.begin": begun }) }));
  try {
    await page.start();
    await body({ page, settings, main, shown: (ref) => main.querySelector(`[data-ref=${ref}]`).textContent.replaceAll("\u00a0", " ") });
  } finally {
    page.stop();
    life.abort();
  }
}

test("before the sums run the last texts stand, in their own units", () => withPlan(old, ({ shown }) => {
  assert.equal(shown("plan"), "45 A · 67 psi · 19.1 in/min · 12.6 s per 4 in");
  assert.match(shown("why"), /^Try it on scrap\./);
}));

test("the sums say them in the units of now, and again when those change", async () => {
  const wasm = await startWasm();
  await withPlan(old, async ({ shown, settings }) => {
    const soon = async (/** @type {RegExp} */ wanted) => {
      for (let i = 0; i < 50 && !wanted.test(shown("plan")); i++) await turn();
      assert.match(shown("plan"), wanted);
    };
    await soon(/^45 A · 4\.6\d* bar · .* mm?\/min · 12(\.\d+)? s per 100 mm$/);
    settings.values.units = "us";
    settings.dispatchEvent(new Event("change"));
    await soon(/^45 A · 67 psi · .* in\/min · .* s per 4 in$/);
  }, async (name, input) => wasm(name, input));
});

test("what the site is short of, and the rhythm, stand from the first paint", () => withPlan({ ...old, day }, ({ shown, main }) => {
  assert.equal(shown("site"), "▲ Site: hose short");
  assert.equal(shown("duty"), "Cut 5 min, wait 5 min");
  assert.equal(main.querySelector("[data-ref=duty]").hidden, false);
}));

test("a site that holds, and a plate that asks for no wait, take no warning", () => withPlan({ ...old, day: { ...day, verdict: "ok", arc_rest: { value: 0, unit: "s", text: "0 s" } } }, ({ shown }) => {
  assert.equal(shown("site"), "");
  assert.equal(shown("duty"), "No wait by the plate");
}));

test("without a plan nothing is said of one; a damaged one breaks nothing", async () => {
  for (const begun of [null, { fields: 5, results: [], day: "no" }, { results: { pressure: "as the machine sets it", speed: null } }, { day: { verdict: "fails" } }]) {
    await withPlan(begun, ({ shown, main }) => {
      assert.doesNotMatch(shown("plan"), /null|undefined|object/);
      assert.equal(main.querySelector("[data-ref=duty]").hidden, true);
    });
  }
});
