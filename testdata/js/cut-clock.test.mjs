// On a phone whose clock is wrong the arc is timed by the clock that it began by, and what is entered
// afterwards is kept by it.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { CutPage } from "../../pwa/pages/cut.js";
import { QuickEntries } from "../../pwa/parts/quick-entries.js";

const hour = 3_600_000;
const now = () => Date.now() - 5 * hour; // the server’s

/** @param {Record<string, any>} more */
const deps = (more) => /** @type {any} */ ({
  life: AbortSignal.abort(), alarm: { ring: assert.fail }, ...ownParts(),
  settings: Object.assign(new EventTarget(), { values: { rig: "rig-1", watchMinutes: 60, units: "metric", watcher: "", taught: {} } }), toasts: { show() {}, problem: (err) => assert.fail(err) }, ...more,
});

test("an arc that burns since two minutes shows two minutes, and no drain is due", async () => {
  const main = place();
  const arc = { "rig-1": { id: "arc", start: now() - 120_000, in: "" } };
  const journal = Object.assign(new EventTarget(), { now, seen: () => null, keepSeen() {}, read: async () => ({ views: { now: null, rigs: null }, arc, offset: -5 * hour, lastArc: null, device: "a" }) });
  const life = new AbortController();
  const page = new CutPage(main, deps({ journal, life: life.signal }));
  await page.start();
  page.stop();
  life.abort();
  assert.match(main.querySelector("[data-ref=time]").textContent, /^2 min/);
  assert.match(main.querySelector("[data-ref=drain]").textContent, /^Drain in 18 min/);
});

test("arc time by hand ends now", async () => {
  const tapped = [];
  const journal = { now, tap: async (entries) => (tapped.push(...[entries].flat()), { ids: [] }) };
  const answers = ["5min", "1"];
  const entries = new QuickEntries(deps({ journal, sumsRun: () => true, call: async () => ({ whole: 300 }), pad: { ask: async () => answers.shift() } }));
  await entries.arcLater({ session: "s-1", rig: "rig-1", parts: [] });
  const [{ body }] = tapped;
  assert.equal(body.stop - body.start, 300_000);
  assert.ok(Math.abs(body.stop - now()) < hour);
});
