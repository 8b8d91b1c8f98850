// What comes late moves nothing under a finger: it waits until none is there, and a second longer.
import assert from "node:assert/strict";
import { test } from "node:test";
import { turn } from "./turn.mjs";
import { noteTouch, settled } from "../../pwa/parts/settled.js";

/** A list with a row in it, and a clock that is moved by hand. */
function world(t) {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  let now = 50_000;
  t.mock.method(performance, "now", () => now);
  const row = {};
  const list = /** @type {any} */ ({ contains: (target) => target === row });
  return {
    row, list,
    pass: async (ms) => {
      now += ms;
      t.mock.timers.tick(ms);
      await turn();
    },
    touch: (type, target = row, pointerId = 1) => noteTouch(/** @type {any} */ ({ type, target, pointerId })),
    /** Whether the list may move. */
    wait: () => {
      const it = { done: false };
      settled(list).then(() => (it.done = true));
      return it;
    },
  };
}

test("where nobody touched it moves at once, also while a finger is elsewhere", async (t) => {
  const { wait, touch } = world(t);
  touch("pointerdown", {}, 7);
  const it = wait();
  await turn();
  assert.ok(it.done);
  touch("pointerup", {}, 7);
});

test("a tap holds it for a second from where it began", async (t) => {
  const { wait, touch, pass } = world(t);
  touch("pointerdown");
  touch("pointerup");
  const it = wait();
  await pass(990);
  assert.equal(it.done, false);
  await pass(10);
  assert.ok(it.done);
});

test("a finger that stays holds it until it is lifted, and a tap meanwhile holds it anew", async (t) => {
  const { wait, touch, pass } = world(t);
  touch("pointerdown");
  const it = wait();
  for (let i = 0; i < 30; i++) await pass(100);
  assert.equal(it.done, false);
  touch("pointercancel");
  touch("pointerdown", undefined, 2);
  touch("pointerup", undefined, 2);
  for (let i = 0; i < 9; i++) await pass(100);
  assert.equal(it.done, false);
  await pass(100);
  await pass(100);
  assert.ok(it.done);
});
