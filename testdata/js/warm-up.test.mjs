import assert from "node:assert/strict";
import { mock, test } from "node:test";
import { WarmUp } from "../../pwa/worker/warm-up.js";

/** A rehearsal of so many steps, and what was called of them. */
function rehearsed(t, steps) {
  mock.timers.enable({ apis: ["setTimeout"] });
  t.after(() => mock.timers.reset());
  const made = [];
  const rehearsal = new WarmUp();
  const call = (name, { step }) => {
    made.push([name, step]);
    if (step >= steps) throw new Error("no such step");
    return { more: step + 1 < steps };
  };
  return { rehearsal, made, call };
}

test("every step is made once, each after a wait in which calls are answered", (t) => {
  const { rehearsal, made, call } = rehearsed(t, 3);
  rehearsal.heard();
  mock.timers.tick(60_000);
  assert.deepEqual(made, [], "nothing before the sums can be called");
  rehearsal.start(call);
  assert.deepEqual(made, [], "nothing at once");
  for (let i = 1; i <= 3; i++) {
    mock.timers.tick(300);
    assert.equal(made.length, i);
  }
  mock.timers.tick(60_000);
  assert.deepEqual(made, [["rehearse", 0], ["rehearse", 1], ["rehearse", 2]]);
});

test("a call puts what is left off until it is calm", (t) => {
  const { rehearsal, made, call } = rehearsed(t, 3);
  rehearsal.start(call);
  mock.timers.tick(300);
  for (let i = 0; i < 20; i++) {
    mock.timers.tick(200);
    rehearsal.heard();
  }
  assert.equal(made.length, 1, "calls kept coming");
  mock.timers.tick(300);
  assert.equal(made.length, 2);
});

test("one that fails ends it, and tells nobody", (t) => {
  const { rehearsal, made, call } = rehearsed(t, 0);
  rehearsal.start(call);
  mock.timers.tick(300);
  rehearsal.heard();
  mock.timers.tick(60_000);
  assert.equal(made.length, 1);
});
