// A part that was changed is stored by two touches, whatever was in the torch.
import assert from "node:assert/strict";
import { test } from "node:test";
import { QuickEntries } from "../../pwa/parts/quick-entries.js";

/** @param {any[]} parts @param {string|null} picked @param {any} [from]  the view stock's @param {string|null} [line]  picked when it is asked from where */
async function change(parts, picked, from, line = null) {
  const asked = [];
  const tapped = [];
  const deps = { journal: { read: async () => ({ views: from ? { stock: { from } } : {} }), tap: async (entries) => (tapped.push(...[entries].flat()), { ids: [] }) }, toasts: { show() {} }, chooser: { ask: async (question) => asked.push(question) > 1 ? line : picked } };
  await new QuickEntries(/** @type {any} */ (deps)).partChanged({ session: "s", rig: "rig-1", parts });
  return { asked, tapped };
}

const inside = [{ part: "old-electrode", slot: "electrode", ms: 60_000, starts: 1 }, { part: "odd", slot: "shield", ms: 5, starts: 2 }];

test("one question: the parts in the torch first, with what they have done, then the others", async () => {
  const { asked: [{ options }, ...more] } = await change(inside, null);
  assert.deepEqual(more, []);
  assert.deepEqual(options.map(({ word }) => word), ["electrode", "cup", "tip", "diffuser", "o-ring"]);
  assert.equal(options[0].more, "1 min of arc, 1 start since fitted");
});

test("the old part comes out as the new one goes in, in one write", async () => {
  const { tapped } = await change(inside, "electrode");
  assert.deepEqual(tapped.map(({ kind, about, body }) => [kind, kind === "part.pulled" ? about : body.slot]), [["part.pulled", "old-electrode"], ["part.fitted", "electrode"]]);
  assert.deepEqual((await change([], "tip")).tapped.map(({ kind }) => kind), ["part.fitted"]);
  assert.deepEqual((await change(inside, null)).tapped, []);
});

test("the part comes from the one line that it can be of; of several one is picked, and nothing is stored where that is left", async () => {
  const one = [{ word: "line-1", label: "45 A, 3 left" }];
  const several = [...one, { word: "line-2", label: "60 A, 5 left" }, { word: "none", label: "Not from stock" }];
  const lineOf = ({ tapped }) => tapped.map(({ body }) => body.line);
  assert.deepEqual(lineOf(await change([], "tip", { "rig-1": { tip: one } })), ["line-1"]);
  assert.deepEqual(lineOf(await change([], "tip", { "": { tip: one } })), ["line-1"]);
  assert.deepEqual(lineOf(await change([], "cup", { "rig-1": {}, "": { cup: one } })), [undefined]);
  const picked = await change([], "tip", { "rig-1": { tip: several } }, "line-2");
  assert.deepEqual([lineOf(picked), picked.asked[1].options], [["line-2"], several]);
  assert.deepEqual(lineOf(await change([], "tip", { "rig-1": { tip: several } }, "none")), [undefined]);
  assert.deepEqual(lineOf(await change([], "tip", { "rig-1": { tip: several } }, null)), []);
});
