// A reading that is still on its way as its step is answered.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { turn } from "./turn.mjs";
import { GuideView } from "../../pwa/guide/guide.js";

const guide = {
  id: "bring-up", title: "Bring the rig up", when: "", about: "", place: "ready", form: "steps", minutes: 1, cautions: "", sources: [],
  steps: [{ id: "pressure", title: "Pressure", do: "", why: "", answers: ["done"], source: "", readings: [{ key: "flowing", label: "Flowing", quantity: "pressure", unit: "psi", scale: 1 }] }],
};

test("a reading that comes after the answer is told with it", async () => {
  /** @type {(value: number) => void} */ let enter = () => {};
  const main = place();
  const page = new GuideView(main, { drawings: {}, html() {}, pad: { ask: () => new Promise((resolve) => { enter = resolve; }) } });
  page.start(new AbortController().signal);
  page.show(guide, { step: "pressure" });
  const told = [];
  main.addEventListener("guide:answer", ({ detail }) => told.push([detail.step, detail.result, detail.readings]));
  main.addEventListener("guide:reading", () => assert.fail("it is answered"));
  main.querySelector('[data-action="read"]').click();
  main.querySelector('[data-result="done"]').click();
  await turn();
  enter(90);
  await turn();
  assert.deepEqual(told, [["pressure", "done", {}], ["pressure", "done", { flowing: 90 }]]);
});
