// A phone that lost its own settings takes those that the journal has of it, and nothing that does not fit.
import assert from "node:assert/strict";
import { test } from "node:test";
import { setGlobals } from "./globals.mjs";
import { Settings } from "../../pwa/parts/settings.js";

/** Settings of a phone that has kept nothing yet, over an object with what it keeps. */
function fresh(t, kept = {}, metas = []) {
  setGlobals(t, {
    matchMedia: () => Object.assign(new EventTarget(), { matches: false }),
    navigator: { language: "en-GB" },
    document: { documentElement: { dataset: {} }, querySelectorAll: () => metas },
  });
  const own = Object.assign(new EventTarget(), { get: (name) => kept[name], set: (name, value) => void (kept[name] = value) });
  return new Settings(/** @type {any} */ (own));
}

test("what the journal has is taken, and stands on the phone", (t) => {
  const kept = {};
  const settings = fresh(t, kept);
  assert.equal(settings.any, false);
  settings.restore({ units: "us", look: "night", watchMinutes: 30, rig: "rig-1" });
  assert.deepEqual({ ...settings.values }, { ...settings.values, units: "us", look: "night", watchMinutes: 30, rig: "rig-1" });
  assert.equal(kept.settings.units, "us");
  assert.equal(settings.any, true);
  assert.equal(document.documentElement.dataset.look, "night");
});

test("what is of another kind, or no setting at all, changes nothing", (t) => {
  const settings = fresh(t);
  const before = { ...settings.values };
  settings.restore({ units: 7, watchMinutes: "soon", hand: null, mood: "good", constructor: "x", ["__proto__"]: { units: "us" } });
  assert.deepEqual({ ...settings.values }, before);
});

test("what is restored is not entered into the journal once more", (t) => {
  const settings = fresh(t);
  settings.addEventListener("change", () => assert.fail("told the journal"));
  settings.restore({ units: "us" });
});

test("the browser's own bars take the colour of the look that was chosen", (t) => {
  const metas = [0, 1].map(() => ({ media: "", setAttribute(_, to) { this.media = to; } }));
  const settings = fresh(t, {}, metas);
  assert.deepEqual(metas.map(({ media }) => media), ["all", "print"]);
  settings.set({ look: "night" });
  assert.deepEqual(metas.map(({ media }) => media), ["print", "all"]);
});
