// A glove bounces: what writes on each press writes once for a double tap, however slow or fast the store is.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { turn } from "./turn.mjs";
import { CutPage } from "../../pwa/pages/cut.js";
import { make, noteClick, onePress } from "../../pwa/parts/dom.js";

test("a press while the first is stored, or right after it, is the same press", async (t) => {
  let at = 1000;
  t.mock.method(performance, "now", () => at);
  let runs = 0;
  let done = () => {};
  const press = onePress(() => (runs++, new Promise((resolve) => (done = () => resolve(null)))));
  const first = press();
  at += 5000;
  await press();
  assert.equal(runs, 1, "the store is slow");
  done();
  await first;
  const second = press();
  done();
  await second;
  at += 100;
  await press();
  assert.equal(runs, 2, "the store is fast");
  at += 1000;
  press();
  assert.equal(runs, 3);
});

test("a press after another control was pressed is one of its own, however quick", async (t) => {
  t.mock.method(performance, "now", () => 1000);
  const main = place();
  const [end, undo] = [make("button", { "data-action": "end" }), make("button")];
  main.append(end, undo);
  let runs = 0;
  const press = onePress(() => runs++);
  for (const button of [end, end, undo, end]) {
    noteClick(/** @type {any} */ ({ target: button }));
    if (button === end) await press();
  }
  assert.equal(runs, 2);
});

test("what fails may be pressed again", async () => {
  let runs = 0;
  const press = onePress(() => Promise.reject(new Error(String(++runs))), 0);
  await assert.rejects(press(), /1/);
  await assert.rejects(press(), /2/);
});

for (const action of ["drained", "end"]) {
  test(`${action}, tapped twice, is stored once`, async () => {
    const main = place();
    const tapped = [];
    const journal = Object.assign(new EventTarget(), {
      now: Date.now, tap: async (entry) => (tapped.push(entry.kind), { ids: ["e"] }),
      seen: () => null, keepSeen() {}, read: async () => ({ views: { now: { session: { id: "s-1", rig: "rig-1", ms: 0, starts: 0 } }, rigs: null }, arc: {}, offset: 0, lastArc: null, device: "a" }),
    });
    const life = new AbortController();
    const page = new CutPage(main, /** @type {any} */ ({
      journal, life: life.signal, ...ownParts(), go() {}, toasts: { show() {} },
      settings: Object.assign(new EventTarget(), { values: { rig: "rig-1", watchMinutes: 60, units: "metric", watcher: "", taught: {} } }),
    }));
    await page.start();
    const button = main.querySelector(`[data-action=${action}]`);
    button.click();
    button.click();
    await turn();
    page.stop();
    life.abort();
    assert.equal(tapped.length, 1);
  });
}
