// A part that was changed is stored by two touches, whatever was in the torch.
import assert from "node:assert/strict";
import { test } from "node:test";
import { QuickEntries } from "../../pwa/parts/quick-entries.js";

/** @param {any[]} parts @param {string|null} picked */
async function change(parts, picked) {
  const asked = [];
  const tapped = [];
  const deps = { journal: { tap: async (entries) => (tapped.push(...[entries].flat()), { ids: [] }) }, toasts: { show() {} }, chooser: { ask: async (question) => (asked.push(question), picked) } };
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
