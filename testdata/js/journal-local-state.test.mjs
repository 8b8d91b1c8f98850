// What is this phone's own: settings and what is half entered, after a kill that localStorage had not
// been written before, and after the browser emptied the store.

import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { test } from "node:test";
import { page, withPhone } from "./phone.mjs";
import { LocalState } from "../../pwa/journal/local-state.js";

const { IDBFactory } = createRequire(new URL("../../cmd/dev/npm/package.json", import.meta.url))("fake-indexeddb");

/** Gives a test a phone and its localStorage; open() is a start of the app. */
const withOwn = (body) => withPhone(async (phone, t) => {
  const { localStorage } = page(t);
  const opened = [];
  const open = async () => {
    const own = new LocalState({ factory: phone.factory, clock: () => phone.wall });
    opened.push(own);
    let corrected = 0;
    own.addEventListener("corrected", () => corrected++);
    await own.start();
    return Object.assign(own, { corrected: () => corrected });
  };
  await body(phone, { localStorage, open });
  for (const own of opened) {
    await own.settled();
    own.db.close();
  }
});

/** What localStorage has now, to be what it has again after a kill. */
const late = (localStorage) => {
  const then = { ...localStorage };
  return () => {
    for (const key of Object.keys(localStorage)) localStorage.removeItem(key);
    for (const [key, text] of Object.entries(then)) localStorage.setItem(key, text);
  };
};

test("what was set and stored survives a kill that localStorage was late for", withOwn(async (phone, { localStorage, open }) => {
  const own = await open();
  own.set("settings", { units: "metric" });
  own.set("draft.note", { text: "half" });
  const kill = late(localStorage);
  own.set("settings", { units: "us" });
  own.remove("draft.note");
  own.set("draft.rig", { name: "Truck" });
  await own.settled();
  kill();
  const next = new LocalState({ factory: phone.factory, clock: () => phone.wall });
  assert.deepEqual(next.get("settings"), { units: "metric" }, "the first paint has what localStorage has");
  next.db.close();
  const after = await open();
  assert.deepEqual([after.get("settings"), after.get("draft.note"), after.get("draft.rig")], [{ units: "us" }, undefined, { name: "Truck" }]);
  assert.deepEqual(after.names().sort(), ["draft.rig", "settings"]);
  assert.equal(after.corrected(), 1);
  assert.equal((await open()).corrected(), 0, "localStorage is mended");
}));

test("a clock that went back makes nothing older", withOwn(async (phone, { localStorage, open }) => {
  const own = await open();
  own.set("settings", { hand: "right" });
  const kill = late(localStorage);
  phone.wall -= 1_000_000;
  own.set("settings", { hand: "left" });
  await own.settled();
  kill();
  assert.deepEqual((await open()).get("settings"), { hand: "left" });
}));

test("of two tabs the last to set a value is right", withOwn(async (phone, { open }) => {
  const [a, b] = [await open(), await open()];
  a.set("settings", { look: "sun" });
  b.set("settings", { look: "night" });
  assert.deepEqual([a.get("settings"), b.get("settings")], [{ look: "night" }, { look: "night" }]);
  await Promise.all([a.settled(), b.settled()]);
  assert.deepEqual((await open()).get("settings"), { look: "night" });
}));

test("values of a version that had only localStorage are taken over", withOwn(async (phone, { localStorage, open }) => {
  localStorage.setItem("kerfside.settings", JSON.stringify({ units: "us" }));
  localStorage.setItem("kerfside.draft.note", "no JSON");
  localStorage.setItem("kerfside.crew", "N0sD1w2aRtY7uIo9PqLm3g");
  await (await open()).settled();
  localStorage.removeItem("kerfside.settings");
  const after = await open();
  assert.deepEqual([after.get("settings"), after.get("draft.note"), after.names()], [{ units: "us" }, undefined, ["settings"]]);
}));

test("a full localStorage loses nothing", withOwn(async (phone, { localStorage, open }) => {
  const own = await open();
  Object.defineProperty(localStorage, "setItem", { value: () => assert.fail("full") });
  own.set("draft.note", { text: "long" });
  assert.deepEqual(own.get("draft.note"), { text: "long" });
  await own.settled();
  assert.deepEqual((await open()).get("draft.note"), { text: "long" });
}));

test("what was removed long ago leaves no trace", withOwn(async (phone, { localStorage, open }) => {
  const own = await open();
  own.set("draft.note", { text: "half" });
  own.remove("draft.note");
  await own.settled();
  phone.wall += 2 * 86_400_000;
  await open();
  assert.deepEqual(Object.keys(localStorage), []);
  assert.deepEqual((await open()).names(), []);
}));
