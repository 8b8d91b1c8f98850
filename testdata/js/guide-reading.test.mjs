// What is read off a part is kept at once, whatever the sums are doing.

import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";

const { GuidePage } = await import("../../pwa/pages/guide.js");

const guide = {
  id: "bring-up", title: "Bring the rig up", when: "", about: "", place: "ready", form: "steps", minutes: 1, cautions: "", sources: [],
  steps: [{ id: "pressure", title: "Pressure", do: "", why: "", answers: ["done"], source: "", readings: [{ key: "flowing", label: "Flowing", quantity: "pressure", unit: "psi", scale: 1 }] }],
};

/** Shows the step in a fresh place. */
function open(deps) {
  const main = place();
  const page = new GuidePage(main, { drawings: {}, html() {}, ...deps });
  page.start(new AbortController().signal);
  page.show(guide, { step: "pressure" });
  return main;
}

const turn = () => new Promise((resolve) => setImmediate(resolve));

test("a reading is told before the sums can say it in the reader's units", async () => {
  const main = open({ pad: { ask: async () => 90 }, learn: () => new Promise(() => {}) });
  const told = [];
  main.addEventListener("guide:reading", ({ detail }) => told.push(detail.readings));
  main.querySelector('[data-action="read"]').click();
  await turn();
  assert.match(main.textContent, /90 psi/);
  assert.deepEqual(told, [{ flowing: 90 }]);
});
