import assert from "node:assert/strict";
import { test } from "node:test";
import { startWasm } from "./wasm.mjs";

const { Sayings } = await import("../../pwa/parts/sayings.js");

test("what is not known is shown as it came and learnt from the sums, in one call a unit", async () => {
  const wasm = await startWasm();
  let calls = 0;
  const call = async (name, input) => {
    calls += 1;
    return wasm(name, input);
  };
  let units = "us";
  const sayings = new Sayings({ call, units: () => units });
  assert.equal(sayings.say(0.95, "length", "mm"), "0.95 mm");
  sayings.say(6.35, "length", "mm");
  sayings.say(90, "pressure", "psi");
  assert.equal(await sayings.learn(), true);
  assert.equal(calls, 2);
  assert.equal(sayings.say(0.95, "length", "mm"), "0.0374 in");
  assert.equal(sayings.say(6.35, "length", "mm"), "1/4 in");
  assert.equal(await sayings.learn(), false, "nothing new");
  units = "metric";
  sayings.say(90, "pressure", "psi");
  await sayings.learn();
  assert.equal(sayings.say(90, "pressure", "psi"), "6.21 bar"); // 90 × 0.0689476, NIST SP 811
});

test("a quantity with one unit is shown as it came, without asking", async () => {
  const sayings = new Sayings({ call: () => Promise.reject(new Error("asked")), units: () => "us" });
  assert.equal(sayings.say(207.5, "voltage", "V"), "207.5 V");
  assert.equal(await sayings.learn(), false);
});

test("while the sums have not started, what is shown stays", async () => {
  const sayings = new Sayings({ call: () => Promise.reject({ kind: "busy" }), units: () => "us" });
  sayings.say(1.2, "length", "mm");
  assert.equal(await sayings.learn(), false);
  assert.equal(sayings.say(1.2, "length", "mm"), "1.2 mm");
});
