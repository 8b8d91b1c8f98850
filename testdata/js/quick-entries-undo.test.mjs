// Undo takes back all that was stored at once, or nothing of it.
import assert from "node:assert/strict";
import { test } from "node:test";
import { abortNext, withPhone } from "./phone.mjs";
import { QuickEntries } from "../../pwa/parts/quick-entries.js";

test("Undo of a part that was changed is one entry of the journal, and says what failed", withPhone(async (phone) => {
  const tab = phone.tab();
  const fit = (about) => ({ kind: "part.fitted", about, body: { slot: "tip", rig: "r" } });
  await tab.tap(fit("old"));
  const told = [];
  let undo = async () => assert.fail("nothing is offered");
  const toasts = { show: (text, { undo: offered } = {}) => ((undo = offered ?? undo), told.push(text)), problem: () => told.push("not stored") };
  await new QuickEntries(/** @type {any} */ ({ journal: tab, toasts })).put([{ kind: "part.pulled", about: "old", body: { rig: "r" } }, fit("new")], "Changed");
  const fitted = async () => (await tab.read(["now"])).views.now.rigs[0].parts.map(({ part }) => part);
  assert.deepEqual(await fitted(), ["new"]);
  let taps = 0;
  const tap = tab.tap.bind(tab);
  tab.tap = (entry) => (taps++, tap(entry));
  const { length } = await phone.all("event");
  abortNext(tab, new Error("no")); // the first of what it writes
  await undo();
  assert.deepEqual(await fitted(), ["new"]);
  assert.equal((await phone.all("event")).length, length);
  await undo();
  assert.deepEqual(await fitted(), ["old"]);
  assert.equal(taps, 2, "each Undo is one");
  assert.deepEqual(told, ["Changed", "not stored", "Undone."]);
}));
