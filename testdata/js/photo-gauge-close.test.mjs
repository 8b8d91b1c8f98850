// The bore is shown close together with the words for it, not after them: nothing moves under the finger. And a tip is judged once the rig is told.
import assert from "node:assert/strict";
import { test } from "node:test";
import { pictures, setGlobals } from "./globals.mjs";
import { place } from "./screen.mjs";
import { turn } from "./turn.mjs";
import { PhotoGaugePage } from "../../pwa/pages/photo-gauge.js";
import { Marker } from "../../pwa/parts/marker.js";

const ring = (group, n, r) => Array.from({ length: n }, (_, i) => ({ x: 300 + r * Math.cos((2 * Math.PI * i) / n), y: 300 + r * Math.sin((2 * Math.PI * i) / n), group }));

/** @param {any} t @param {any} marks @param {any} [more] */
async function opened(t, marks, more = {}) {
  setGlobals(t, { requestAnimationFrame: () => 0, cancelAnimationFrame() {}, ...pictures(600) });
  const life = new AbortController();
  t.after(() => life.abort());
  const left = { bytes: new ArrayBuffer(4), type: "image/jpeg", drawn: true, marks };
  const main = place();
  const page = new PhotoGaugePage(main, /** @type {any} */ ({
    life: life.signal, go() {}, asset: async () => [], call: async () => ({ whole: 10_000 }), calculate: async () => { throw { msg: "not now" }; },
    journal: Object.assign(new EventTarget(), { db: { run: async (_, mode) => (mode === "readonly" ? left : undefined) }, read: async () => ({ views: {} }) }),
    settings: { values: { units: "metric", rig: "" } }, drafts: { of: () => ({ object: "round", width: "10mm" }), keep() {} }, ...more,
  }));
  await page.start({});
  main.querySelector("[data-action=goon]").click();
  for (let i = 0; i < 5; i++) await turn();
  return main;
}

test("the bore is shown close with the words for it", async (t) => {
  const looks = [];
  const main = await opened(t, { list: ring("scale", 6, 200), found: false });
  assert.match(main.querySelector("[data-ref=ask]").textContent, /middle of the bore/);
  t.mock.method(Marker.prototype, "look", (...to) => looks.push(to));
  main.querySelector("canvas").dispatchEvent(new CustomEvent("placed", { detail: { x: 300, y: 300 } }));
  assert.match(main.querySelector("[data-ref=ask]").textContent, /0 of 8/);
  assert.deepEqual(looks.map(([x, y, across]) => [x, y, Math.round(across)]), [[300, 300, 120]]); // 400 pixels are 10 mm, 3 mm are seen
});

test("a rig that is told later judges the marks that are set", async (t) => {
  const asked = [];
  const journal = Object.assign(new EventTarget(), { db: { run: async (_, mode) => (mode === "readonly" ? { bytes: new ArrayBuffer(4), type: "image/jpeg", drawn: true, marks: { list: [...ring("scale", 6, 200), ...ring("rim", 8, 20)], found: true } } : undefined) }, read: async () => ({ views }) });
  let views = /** @type {any} */ ({});
  await opened(t, {}, { journal, call: async (name) => (name === "rig-sizes" ? (views.rigs ? { orifice: { new: 0.95 } } : {}) : { whole: 10_000 }), calculate: async (_, input) => { asked.push(input.new); throw { msg: "not now" }; } });
  assert.deepEqual(asked, [undefined]);
  views = { rigs: { rigs: [{ id: "r", fields: {} }] } };
  journal.dispatchEvent(new Event("views"));
  for (let i = 0; i < 5; i++) await turn();
  assert.deepEqual(asked, [undefined, "0.95mm"]);
});
