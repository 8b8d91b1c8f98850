// Keeping a gauge's reading draws its picture anew, which takes its time: taps meanwhile keep no second one.
import assert from "node:assert/strict";
import { test } from "node:test";
import { pictures, setGlobals } from "./globals.mjs";
import { place } from "./screen.mjs";
import { turn } from "./turn.mjs";
import { PhotoGaugePage } from "../../pwa/pages/photo-gauge.js";

const round = Array.from({ length: 8 }, (_, i) => ({ x: 50 + i, y: 50, group: "rim" }));
const edge = Array.from({ length: 6 }, (_, i) => ({ x: 9 * i, y: 0, group: "scale" }));
const left = { bytes: new ArrayBuffer(4), type: "image/jpeg", drawn: true, marks: { list: [...edge, ...round], found: true, object: "coin" } };
const sizes = Object.fromEntries(["largest", "smallest", "largest_error", "smallest_error", "centre_x", "centre_y", "long_axis", "short_axis", "turn"].map((key) => [key, { value: 0.001, text: key }]));

test("a reading that is being kept is kept once, and says that it is under way", async (t) => {
  let clock = 0;
  const encoding = [];
  t.mock.method(performance, "now", () => (clock += 1000)); // no tap is the bounce of a glove
  const canvas = Object.getPrototypeOf(document.createElement("canvas"));
  t.mock.method(canvas, "getContext", () => ({ fillRect() {}, drawImage() {} }));
  canvas.toBlob = (done) => encoding.push(() => done(new Blob([new Uint8Array([0xff, 0xd8, 0xff, 0xda])])));
  t.after(() => delete canvas.toBlob);
  setGlobals(t, {
    requestAnimationFrame: () => 0, cancelAnimationFrame() {}, ...pictures(100),
    FileReader: class { readAsDataURL() { this.result = "data:image/jpeg;base64,"; this.onload(); } },
  });
  const life = new AbortController();
  t.after(() => life.abort());
  const tapped = [];
  const went = [];
  const main = place();
  const page = new PhotoGaugePage(main, /** @type {any} */ ({
    life: life.signal, go: (path) => went.push(path), asset: async () => [], calculate: async () => ({ results: { ...sizes, trust: "good", shape: "round" }, cautions: [], working: [] }),
    journal: { addEventListener() {}, db: { run: async (_, mode) => (mode === "readonly" ? left : undefined) }, tap: async (entries) => (tapped.push(...entries.map(({ kind }) => kind)), { ids: [] }), read: async () => ({ views: { now: null, rigs: null } }) },
    settings: { values: { units: "metric", rig: "rig-1" } }, toasts: { show() {}, problem: (trouble) => assert.fail(JSON.stringify(trouble)) },
    drafts: { of: () => ({ object: "coin" }), keep() {} },
  }));
  await page.start({});
  main.querySelector("[data-action=goon]").click();
  await turn();
  await turn();
  const keep = main.querySelector("[data-action=keep]");
  keep.click();
  await turn();
  keep.click();
  await turn();
  assert.match(keep.textContent, /Keeping/);
  while (went.length === 0) {
    encoding.splice(0).forEach((done) => done());
    await turn();
  }
  keep.click(); // before the other screen has come
  await turn();
  assert.deepEqual(tapped, ["part.fitted", "photo.added", "part.reading"]);
  assert.deepEqual(encoding, []);
});
