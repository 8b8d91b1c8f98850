import assert from "node:assert/strict";
import { test } from "node:test";
import { inertWhile } from "../../pwa/parts/inert-while.js";

class Control {
  inert = false;
  isConnected = true;
  focus() {
    document.activeElement = this;
  }
}

/** A document with one control that has the focus. */
function focused() {
  const control = new Control();
  const body = {};
  Object.assign(globalThis, { HTMLElement: Control, document: { body, activeElement: control } });
  return control;
}

test("what moves is deaf until it has come, and a moment longer", async (t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  const control = focused();
  /** @type {(value: string) => void} */
  let come = () => {};
  const done = inertWhile([control], () => new Promise((resolve) => (come = resolve)));
  assert.equal(control.inert, true);
  come("the ranking");
  assert.equal(await done, "the ranking");
  assert.equal(control.inert, true);
  document.activeElement = document.body; // as a browser does when what has the focus goes inert
  t.mock.timers.runAll();
  assert.equal(control.inert, false);
  assert.equal(document.activeElement, control);
});

test("what failed to come leaves nothing deaf", async (t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  const control = focused();
  await assert.rejects(inertWhile([control], () => Promise.reject(new Error("no sums"))), /no sums/);
  t.mock.timers.runAll();
  assert.equal(control.inert, false);
});
