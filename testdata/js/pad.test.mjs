// The number pad: what its keys write, in which unit, and that what is read of it belongs to what stands there.
import assert from "node:assert/strict";
import { test } from "node:test";
import "./screen.mjs";
import { turn } from "./turn.mjs";
import { Pad } from "../../pwa/parts/pad.js";

Object.assign(Element.prototype, { // linkedom has no dialogs
  showModal() { this.open = true; },
  close() { this.open = false; },
});

/** A pad that was asked that question. */
function resultOf(question, pad = new Pad()) {
  const dialog = [...document.querySelectorAll("dialog.pad")].at(-1);
  const at = (ref) => dialog.querySelector(`[data-ref=${ref}]`);
  const keys = [...at("keys").children];
  const order = ["7", "8", "9", "back", "4", "5", "6", "/", "1", "2", "3", "-", "0", ".", "less", "more"];
  return {
    pad, at, answer: pad.ask({ label: "Length", ...question }),
    shows: () => at("value").textContent.trim(),
    press: (...pressed) => pressed.forEach((name) => keys[order.indexOf(name)].click()),
    unit: (name) => at("units").querySelector(`[data-unit="${name}"]`).click(),
    done: () => dialog.querySelector("[data-action=done]").click(),
    leave: () => dialog.querySelector("[data-action=leave]").click(),
    type: (...typed) => typed.forEach((key) => dialog.dispatchEvent(Object.assign(new CustomEvent("keydown", { cancelable: true }), { key }))),
  };
}

const lengths = { units: ["mm", "in"], gauge: true };

test("a chip in a unit that is not offered is that, and not the number in the usual one", async () => {
  const pad = resultOf({ ...lengths, chips: ["500mm", "3m", "8ft"] });
  [...pad.at("chips").children][1].click();
  assert.equal(await pad.answer, "3m");
  const again = resultOf({ ...lengths, value: "3m" }, pad.pad);
  assert.deepEqual([...again.at("units").children].map((key) => key.dataset.unit), ["mm", "in", "ga", "m"]);
  again.press("4");
  again.done();
  assert.equal(await again.answer, "4m");
});

test("the first key takes the place of what stood there, the others follow it", async () => {
  const pad = resultOf({ ...lengths, value: "6mm" });
  assert.equal(pad.shows(), "6 mm");
  pad.press("1", "2", ".", "5");
  assert.equal(pad.shows(), "12.5 mm");
  pad.press("back", "back");
  assert.equal(pad.shows(), "12 mm");
  pad.done();
  assert.equal(await pad.answer, "12mm");
});

test("Delete first empties it, which is an answer of its own; leaving is none", async () => {
  const pad = resultOf({ ...lengths, value: "16mm" });
  pad.press("back");
  assert.equal(pad.shows(), "–");
  pad.done();
  assert.equal(await pad.answer, "");
  const again = resultOf({ ...lengths, value: "6mm" }, pad.pad);
  again.press("9");
  again.leave();
  assert.equal(await again.answer, null);
});

test("a value keeps its unit, whatever its case, and one without has the usual one", async () => {
  for (const [value, want] of [["1-1/2in", "1-1/2 in"], ["1/4IN", "1/4 in"], ["16ga", "16 ga"], ["3ft", "3 ft"], ["3", "3 mm"], ["", "–"], ["0,8 mm", "0,8 mm"]]) assert.equal(resultOf({ ...lengths, value }).shows(), want, value);
  const pad = resultOf({ ...lengths, value: "6mm" });
  pad.unit("in");
  pad.press("1", "/", "4");
  pad.done();
  assert.equal(await pad.answer, "1/4in");
  const bare = resultOf({ value: "3" });
  bare.press("4");
  bare.done();
  assert.equal(await bare.answer, "4");
  assert.ok(bare.at("units").hidden);
});

test("inches go by sixteenths, as on a rule, and never below nothing", () => {
  for (const [value, more, less] of [["1/4in", "5/16", "3/16"], ["7/16in", "1/2", "3/8"], ["15/16in", "1", "7/8"], ["1in", "1-1/16", "15/16"], ["1-1/2in", "1-9/16", "1-7/16"], ["0.3in", "5/16", "1/4"], ["0in", "1/16", "0"]]) {
    for (const [key, want] of [["more", more], ["less", less]]) {
      const pad = resultOf({ ...lengths, value });
      pad.press(key);
      assert.equal(pad.shows().replace(/ \w+$/, ""), want, `${value} ${key}`);
    }
  }
});

test("other units go by a step of their own, without the dust of floating point", () => {
  for (const [units, value, more, less] of [[["mm"], "6mm", "6.5", "5.5"], [["bar"], "0.2bar", "0.3", "0.1"], [["bar"], "4.6bar", "4.7", "4.5"], [["°"], "0°", "5", "0"], [["A"], "40,5A", "41.5", "39.5"], [["kg"], "2kg", "3", "1"]]) {
    for (const [key, want] of [["more", more], ["less", less]]) {
      const pad = resultOf({ units, value });
      pad.press(key);
      assert.equal(pad.shows().replace(/ \S+$/, ""), want, `${value} ${key}`);
    }
  }
  const pad = resultOf({ units: ["mm"], value: "6mm" });
  pad.press("1", "more", "7");
  assert.equal(pad.shows(), "7 mm", "a key after a step begins anew");
});

test("a keyboard writes too, and Enter ends it", async () => {
  const pad = resultOf({ ...lengths, value: "6mm" });
  pad.type("1", "0", "x", "Backspace", ",", "5", "Enter");
  assert.equal(await pad.answer, "1,5mm");
});

test("what is read belongs to what stands there, however late it comes", async () => {
  const reads = [];
  const read = (text) => new Promise((resolve, reject) => reads.push({ text, resolve, reject }));
  const pad = resultOf({ ...lengths, value: "6mm", read, chips: ["10mm"] });
  pad.press("1", "2");
  assert.deepEqual(reads.map(({ text }) => text), ["6mm", "1mm", "12mm"]);
  reads[2].resolve({ text: "12 mm", also: "0.47 in" });
  await turn();
  reads[1].reject({ msg: "too thin" });
  reads[0].resolve({ text: "6 mm" });
  await turn();
  assert.equal(pad.at("also").textContent, "12 mm  =  0.47 in");
  assert.equal(pad.at("wrong").hidden, true);
  pad.press("0");
  reads[3].reject({ msg: "too thick", hint: "Less" });
  await turn();
  assert.deepEqual([pad.at("wrong").textContent, pad.at("also").textContent, pad.at("chips").hidden], ["too thickLess", "", true]);
  pad.press("back");
  assert.deepEqual([pad.at("wrong").hidden, pad.at("chips").hidden], [true, false], "nor does what was wrong stand beside what stands now");
  pad.at("chips").firstElementChild.click();
  assert.equal(await pad.answer, "10mm", "a common value is entered by one tap");
});

test("who asks while another waits takes the pad over, and who is gone is answered nothing", async () => {
  const first = resultOf({ value: "1" });
  const second = resultOf({ value: "2" }, first.pad);
  assert.equal(await first.answer, null);
  first.pad.leave();
  assert.equal(await second.answer, null);
});
