// What the photo gauge asks for as marks are set with a thumb, and that newest marks win.
import assert from "node:assert/strict";
import { test } from "node:test";
import { pictures, setGlobals } from "./globals.mjs";
import { place } from "./screen.mjs";
import { turn } from "./turn.mjs";
import { PhotoGaugePage } from "../../pwa/pages/photo-gauge.js";
import { Marker } from "../../pwa/parts/marker.js";

const number = (value) => ({ value, text: String(value) });
/** An answer in which the bore is that wide. */
const sized = (largest) => ({ results: { ...Object.fromEntries(["smallest", "largest_error", "smallest_error", "centre_x", "centre_y", "long_axis", "short_axis", "turn"].map((key) => [key, number(1)])), largest: number(largest), trust: "good", shape: "round" }, cautions: [], working: [] });

/** The gauge on a picture that was left without marks, all of it shown: a pixel of the screen for one of the picture. */
async function opened(t, object, width = "10mm") {
  setGlobals(t, { requestAnimationFrame: () => 0, cancelAnimationFrame() {}, ...pictures(400) });
  const canvas = Object.getPrototypeOf(document.createElement("canvas"));
  const shape = { clientWidth: 400, clientHeight: 400, clientLeft: 0, clientTop: 0, setPointerCapture() {}, getBoundingClientRect: () => ({ left: 0, top: 0 }) };
  for (const [name, value] of Object.entries(shape)) Object.defineProperty(canvas, name, { value, configurable: true });
  t.after(() => Object.keys(shape).forEach((name) => delete canvas[name]));
  const looks = [];
  t.mock.method(Marker.prototype, "look", (x, y, across) => looks.push([x, y, across].map(Math.round)));
  const life = new AbortController();
  t.after(() => life.abort());
  const main = place();
  const sums = [];
  const left = { bytes: new ArrayBuffer(4), type: "image/jpeg", drawn: true, marks: { list: [], found: false } };
  const page = new PhotoGaugePage(main, /** @type {any} */ ({
    life: life.signal, go() {}, asset: async () => [], call: async () => ({ whole: 10_000 }), calculate: (_, input) => new Promise((resolve, reject) => sums.push({ input, resolve, reject })),
    journal: Object.assign(new EventTarget(), { db: { run: async (_, mode) => (mode === "readonly" ? left : undefined) }, read: async () => ({ views: {} }) }),
    settings: { values: { units: "metric", rig: "" } }, drafts: { of: () => ({ object, width }), keep() {} },
  }));
  await page.start({});
  main.querySelector("[data-action=goon]").click();
  for (let i = 0; i < 5; i++) await turn();
  const at = (ref) => main.querySelector(`[data-ref=${ref}]`);
  const send = (type, x, y) => at("canvas").dispatchEvent(Object.assign(new CustomEvent(type), { pointerId: 1, clientX: x, clientY: y }));
  const touch = async (x, y, toX = x, toY = y) => {
    send("pointerdown", x, y);
    if (toX !== x || toY !== y) send("pointermove", toX, toY);
    send("pointerup", toX, toY);
    await turn();
  };
  /** Marks a ring of n about the middle. */
  const ring = async (n, r, from = 0) => {
    for (let i = from; i < n; i++) await touch(200 + r * Math.cos((2 * Math.PI * i) / n), 200 + r * Math.sin((2 * Math.PI * i) / n));
  };
  return { at, touch, ring, looks, sums, asks: () => at("ask").textContent, undo: async () => (main.querySelector("[data-action=undo]").click(), turn()) };
}

test("six marks about something round, one touch for the bore, then its rim; less than eight of that is not reckoned", async (t) => {
  const gauge = await opened(t, "coin");
  const before = gauge.asks();
  await gauge.ring(5, 150);
  assert.equal(gauge.asks(), before.replace("0", "5"), "the same is asked for, five are set");
  await gauge.touch(200 + 75, 200 - 130);
  assert.match(gauge.asks(), /middle of the bore/);
  await gauge.touch(200, 200);
  assert.match(gauge.asks(), /0 of 8/, "a touch there is no mark");
  await gauge.ring(8, 90);
  assert.equal(gauge.sums.length, 1);
  const { scale, rim, width } = gauge.sums[0].input;
  assert.deepEqual([scale.split(", ").length, rim.split(", ").length, width], [6, 8, undefined]);
  assert.match(scale, /^350\.00:200\.00, /);
});

test("what is marked next is shown: the edge once two marks tell where it is, then what lies about a coin; dragging shows nothing anew", async (t) => {
  const gauge = await opened(t, "coin");
  await gauge.touch(100, 200);
  assert.deepEqual(gauge.looks, []);
  await gauge.touch(300, 200);
  assert.deepEqual(gauge.looks, [[200, 200, 300]]); // one and a half times the 200 pixels that they are apart
  await gauge.touch(300, 200, 310, 200);
  assert.equal(gauge.looks.length, 1);
  for (const y of [20, 80, 320, 380]) await gauge.touch(200, y);
  assert.deepEqual(gauge.looks.slice(1).map(([, , across]) => across), [1440]); // four times the 360 between the furthest
});

test("a mark that is taken back is asked for again, also when the bore was shown", async (t) => {
  const gauge = await opened(t, "coin");
  await gauge.ring(6, 150);
  await gauge.touch(200, 200);
  await gauge.undo();
  assert.doesNotMatch(gauge.asks(), /of 8|middle/);
  await gauge.touch(275, 70);
  assert.match(gauge.asks(), /middle of the bore/);
});

test("something that is not round has two marks, both ends of its width", async (t) => {
  const gauge = await opened(t, "measured");
  const ends = [gauge.asks()];
  await gauge.touch(100, 200);
  ends.push(gauge.asks());
  await gauge.touch(300, 200);
  assert.equal(new Set(ends).size, 2);
  assert.match(gauge.asks(), /middle of the bore/);
  await gauge.touch(200, 100);
  await gauge.ring(8, 50);
  assert.deepEqual([gauge.sums[0].input.scale, gauge.sums[0].input.width], ["100.00:200.00, 300.00:200.00", "10mm"]);
});

test("an answer to older marks is dropped, be it a size or a refusal", async (t) => {
  const gauge = await opened(t, "coin");
  await gauge.ring(6, 150);
  await gauge.touch(200, 200);
  await gauge.ring(8, 90);
  await gauge.touch(290, 200, 285, 200);
  await gauge.touch(285, 200, 280, 200);
  assert.equal(gauge.sums.length, 3, "one a mark, and one each time it is moved");
  const [first, second, last] = gauge.sums;
  assert.match(last.input.rim, /^280\.00:200\.00/);
  last.resolve(sized(1.25));
  await turn();
  assert.match(gauge.at("readings").textContent, /1\.25/);
  first.resolve(sized(9));
  second.reject({ msg: "no circle" });
  await turn();
  assert.match(gauge.at("readings").textContent, /1\.25/);
  assert.ok(gauge.at("fault").hidden && !gauge.at("result").hidden);
  await gauge.undo();
  assert.ok(gauge.at("result").hidden, "seven marks tell no size");
});
