// What is read off a part is kept at once, whatever the sums are doing.

import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { turn } from "./turn.mjs";

const { GuideView } = await import("../../pwa/guide/guide.js");

const guide = {
  id: "bring-up", title: "Bring the rig up", when: "", about: "", place: "ready", form: "steps", minutes: 1, cautions: "", sources: [],
  steps: [{ id: "pressure", title: "Pressure", do: "", why: "", answers: ["done"], source: "", readings: [{ key: "flowing", label: "Flowing", quantity: "pressure", unit: "psi", scale: 1 }] }],
};

/** Shows the step in a fresh place. */
function open(deps) {
  const main = place();
  const page = new GuideView(main, { drawings: {}, html() {}, ...deps });
  page.start(new AbortController().signal);
  page.show(guide, { step: "pressure" });
  return main;
}

test("a reading is told before the sums can say it in the reader's units", async () => {
  const main = open({ pad: { ask: async () => 90 }, learn: () => new Promise(() => {}) });
  const told = [];
  main.addEventListener("guide:reading", ({ detail }) => told.push(detail.readings));
  main.querySelector('[data-action="read"]').click();
  await turn();
  assert.match(main.textContent, /90 psi/);
  assert.deepEqual(told, [{ flowing: 90 }]);
});

test("a step with a limit says the rig's own, until another tip is read", async () => {
  const main = place();
  const page = new GuideView(main, { drawings: {}, html() {}, pad: { ask: async () => 1.2 }, drawWords: { length: (mm) => `${mm} mm` } });
  const step = { ...guide.steps[0], id: "longest", drawing: { name: "orifice", params: { new: 1, limit: 1.15 }, text: "" }, readings: [{ key: "new", label: "New", quantity: "length", unit: "mm", scale: 1000 }] };
  page.start(new AbortController().signal);
  page.show({ ...guide, steps: [step, { ...step, id: "edge", drawing: { ...step.drawing, params: { new: 1 } } }] }, { step: "longest" });
  const own = () => main.querySelector('[data-ref="own"]');
  assert.equal(own().hidden, true);
  page.know({ orifice: { new: 1.05, limit: 1.2 } });
  assert.equal(own().hidden, false);
  assert.equal(own().textContent, "Your tip: 1.05 mm new · change at 1.2 mm");
  main.querySelector('[data-action="read"]').click();
  await turn();
  assert.equal(own().hidden, true);
  main.querySelector('[data-action="next"]').click();
  assert.equal(own().hidden, true, "a step without a limit says none");
});

test("a card says the rig's own limit where it speaks of it", () => {
  const main = place();
  const page = new GuideView(main, { drawings: {}, html() {}, drawWords: { length: (mm) => `${mm} mm` } });
  const step = { ...guide.steps[0], readings: [], drawing: { name: "orifice", params: { new: 1, limit: 1.15 }, text: "" } };
  page.start(new AbortController().signal);
  page.show({ ...guide, form: "card", steps: [step] });
  page.know({ orifice: { new: 1.05, limit: 1.2 } });
  assert.match(main.textContent, /change at 1\.2 mm/);
});

test("a step with a part leads back to what was taken in before it, until that is done", () => {
  const main = place();
  const page = new GuideView(main, { drawings: {}, html() {}, pad: {} });
  const step = (id, slot) => ({ id, title: id, do: "", why: "", answers: ["done", "not-done"], source: "", slot });
  page.start(new AbortController().signal);
  page.show({ ...guide, taken: [{ title: "Make it dead", steps: ["off", "cool"] }], steps: [step("early", "tip"), step("off"), step("cool"), step("tip", "tip"), step("log")] }, { step: "tip" });
  const first = () => main.querySelector('[data-ref="first"]');
  const isSaid = () => !main.querySelector('[data-ref="first-box"]').hidden;
  assert.equal(isSaid(), true);
  assert.equal(first().textContent, "First: Make it dead");
  assert.equal(first().getAttribute("href"), "#off");
  page.restore({ off: { result: "done" } });
  assert.equal(first().getAttribute("href"), "#cool");
  page.restore({ cool: { result: "not-done" } });
  assert.equal(isSaid(), true);
  page.restore({ cool: { result: "done" } });
  assert.equal(isSaid(), false);
  page.show({ ...guide, taken: [{ title: "Make it dead", steps: ["off"] }], steps: [step("early", "tip"), step("off"), step("log")] }, { step: "early" });
  assert.equal(isSaid(), false, "what stands behind a step is not before it");
  main.querySelector('[data-action="next"]').click();
  assert.equal(isSaid(), false, "a step of its own");
});

test("what was answered before a restart and comes late is shown on the step that is open, in place of what was there", () => {
  const main = place();
  const page = new GuideView(main, { drawings: {}, html() {}, pad: {} });
  page.start(new AbortController().signal);
  page.show({ ...guide, steps: [{ ...guide.steps[0], answers: ["good", "change"] }] }, { step: "pressure", answers: { pressure: { result: "change", readings: { flowing: 60 } } } });
  assert.match(main.textContent, /60 psi/);
  page.restore({ pressure: { result: "good", readings: {} } });
  assert.doesNotMatch(main.textContent, /60 psi/);
  assert.equal(main.querySelector('[data-result="good"]').getAttribute("aria-pressed"), "true");
  assert.equal(main.querySelector('[data-result="change"]').getAttribute("aria-pressed"), "false");
});
