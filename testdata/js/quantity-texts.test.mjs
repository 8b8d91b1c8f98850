import assert from "node:assert/strict";
import { test } from "node:test";
import { startWasm } from "./wasm.mjs";

const { QuantityTexts } = await import("../../pwa/parts/quantity-texts.js");

test("what is not known is shown as it came and learnt from the sums, in one call a unit and sort", async () => {
  const wasm = await startWasm();
  let calls = 0;
  const call = async (name, input) => {
    calls += 1;
    return wasm(name, input);
  };
  let units = "us";
  const quantityTexts = new QuantityTexts({ call, units: () => units });
  assert.equal(quantityTexts.say(0.95, "length", "mm", "bore"), "0.95 mm");
  quantityTexts.say(6.35, "length", "mm", "plate");
  quantityTexts.say(90, "pressure", "psi");
  assert.equal(await quantityTexts.learn(), true);
  assert.equal(calls, 3);
  assert.equal(quantityTexts.say(0.95, "length", "mm", "bore"), "0.037 in");
  assert.equal(quantityTexts.say(6.35, "length", "mm", "plate"), "1/4 in");
  assert.equal(await quantityTexts.learn(), false, "nothing new");
  units = "metric";
  quantityTexts.say(90, "pressure", "psi");
  await quantityTexts.learn();
  assert.equal(quantityTexts.say(90, "pressure", "psi"), "6.2 bar"); // 90 × 0.0689476, NIST SP 811
});

test("a quantity with one unit is shown as it came, without asking", async () => {
  const quantityTexts = new QuantityTexts({ call: () => Promise.reject(new Error("asked")), units: () => "us" });
  assert.equal(quantityTexts.say(207.5, "voltage", "V"), "207.5 V");
  assert.equal(await quantityTexts.learn(), false);
});

test("while the sums have not started, what is shown stays", async () => {
  const quantityTexts = new QuantityTexts({ call: () => Promise.reject({ kind: "busy" }), units: () => "us" });
  quantityTexts.say(1.2, "length", "mm");
  assert.equal(await quantityTexts.learn(), false);
  assert.equal(quantityTexts.say(1.2, "length", "mm"), "1.2 mm");
});
