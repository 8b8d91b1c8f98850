// The gate: nothing is answered beforehand, no verdict stands beside other answers than its own, and what is kept is what was told.
import assert from "node:assert/strict";
import { test } from "node:test";
import { ownParts } from "./own.mjs";
import { place, rows } from "./screen.mjs";
import { turn } from "./turn.mjs";
import { GatePage } from "../../pwa/pages/gate.js";
import { jobHolds } from "../../pwa/parts/job.js";

const declared = {
  name: "may-i-cut",
  fields: [{ key: "wet", label: "Wet?", hazard: true }, { key: "gas", label: "Gas?", hazard: true }, { key: "sealed", label: "Sealed?", hazard: true }, { key: "watcher", label: "Who watches?", choices: [{ word: "me", label: "Me" }, { word: "mate", label: "A mate" }] }],
  together: [{ title: "Around you", label: "None of these", says: { wet: "no", gas: "no" } }],
};
const stop = (key) => ({ key, name: `${key}, in words`, why: `${key} kills`, cleared_by: "you" });
const told = (verdict, { stop: stops = [], conditions = [] } = {}) => ({ results: { verdict, stop: stops, conditions }, cautions: ["Never said to be safe."] });
/** What the sums tell of answers: each hazard that is so is a stop. */
const judge = (answers) => {
  const stops = ["wet", "gas", "sealed"].filter((key) => answers[key] === "yes").map(stop);
  return told(stops.length ? "stop" : "conditions", { stop: stops, conditions: [{ name: "somebody watches", do: "Stay.", cleared_by: "you" }] });
};
const answered = { wet: "no", gas: "no", sealed: "no", watcher: "me" };

/** The gate on a phone with a session, a rig and a site. */
async function open(t, { draft = undefined, session = /** @type {any} */ ({ id: "s-1", rig: "rig-1" }), call = async (_, answers) => judge(answers), tap = async (entries) => ({ ids: [entries].flat().map((_, i) => `e-${i}`) }) } = {}) {
  t.mock.timers.enable({ apis: ["setTimeout", "Date"], now: 1_760_731_116_544 });
  const main = place();
  const life = new AbortController();
  t.after(() => life.abort());
  const drafts = draft ? { gate: draft } : {};
  const [asked, tapped, went, shown] = [[], [], [], []];
  const world = { picks: "", main, drafts, asked, tapped, went, shown };
  const page = new GatePage(main, /** @type {any} */ ({
    life: life.signal, asset: async () => [declared], go: (path) => went.push(path),
    call: (name, answers, how) => (asked.push([name, { ...answers }]), call(name, answers, how)),
    journal: { read: async () => ({ views: { now: { session }, book: { sessions: [] }, rigs: { rigs: [{ id: "rig-1", fields: {} }], sites: [{ id: "yard", fields: {} }] } } }), tap: async (entries) => (tapped.push(entries), tap(entries)) },
    settings: { values: { rig: "rig-1", site: "yard" } },
    ...ownParts(drafts),
    chooser: { ask: async () => world.picks }, toasts: { show: (text, more) => shown.push({ text, ...more }), problem: assert.fail },
  }));
  page.start(); // which waits for the first sum
  await turn();
  const at = (ref) => main.querySelector(`[data-ref=${ref}]`);
  const press = async (el) => (el.click(), turn());
  return Object.assign(world, {
    page, at, press,
    asks: () => [...at("choices").querySelectorAll("[role=radiogroup]")].map((group) => group.getAttribute("aria-label")),
    answer: (label, word) => press(at("choices").querySelector(`[aria-label="${label}"] [data-word=${word}]`)),
    keep: () => press(at("keep")),
  });
}

/** A draft of these answers, given just now in that session. */
const draftOf = (answers, job = "s-1") => ({ ...answers, _job: job, _at: "1760731116544" });

test("nothing is answered beforehand, and one tap for what belongs together answers that alone", async (t) => {
  const gate = await open(t);
  assert.deepEqual(gate.asks(), ["Wet?"]);
  assert.equal(gate.main.querySelectorAll("[aria-checked=true]").length, 0);
  assert.deepEqual(gate.asked, [["stops-so-far", {}]]);
  await gate.press(gate.main.querySelector("[data-action=together]"));
  assert.deepEqual(gate.asked.at(-1), ["stops-so-far", { wet: "no", gas: "no" }]);
  assert.deepEqual([gate.asks(), gate.at("keep").hidden], [["Sealed?"], true]);
  assert.equal(gate.main.querySelectorAll("[aria-checked=true]").length, 0);
});

test("once one of a group is answered the one tap for all of it is gone", async (t) => {
  const gate = await open(t);
  await gate.answer("Wet?", "yes");
  assert.deepEqual([gate.asks(), gate.main.querySelectorAll("[data-action=together]").length], [["Gas?"], 0]);
});

test("the whole is judged once all is answered, a stop as soon as it is found", async (t) => {
  const gate = await open(t);
  await gate.answer("Wet?", "yes");
  assert.match(gate.at("told").textContent, /wet, in wordswet kills/);
  assert.deepEqual([gate.at("rest").hidden, gate.at("keep").hidden], [false, false], "more is asked, and the stop can be kept");
  await gate.answer("Gas?", "no");
  await gate.answer("Sealed?", "no");
  await gate.answer("Who watches?", "mate");
  assert.deepEqual(gate.asked.map(([name]) => name), ["stops-so-far", "stops-so-far", "stops-so-far", "stops-so-far", "may-i-cut"]);
  assert.deepEqual(rows(gate.main, "answers"), ["Wet? Yes", "Gas? No", "Sealed? No", "Who watches? A mate"]);
  assert.match(gate.at("told").textContent, /wet kills.*Stay/);
  assert.equal(gate.at("rest").hidden, true);
});

test("no stop so far is no verdict", async (t) => {
  const gate = await open(t, { draft: draftOf({ wet: "no", gas: "no", sealed: "no" }) });
  assert.deepEqual([gate.at("told").textContent, gate.at("keep").hidden], ["", true]);
});

test("what moved under the finger is deaf until it has come to rest", async (t) => {
  const gate = await open(t);
  await gate.answer("Wet?", "no");
  assert.ok(gate.at("choices").inert && gate.at("keep").inert && gate.at("change").inert);
  t.mock.timers.tick(350);
  assert.ok(!gate.at("choices").inert && !gate.at("keep").inert && !gate.at("change").inert);
});

test("an answer is undone: asked anew, without the verdict that it led to", async (t) => {
  const waiting = [];
  const gate = await open(t, { draft: draftOf(answered), call: (_, answers) => new Promise((resolve) => waiting.push(() => resolve(judge(answers)))) });
  waiting.shift()();
  await turn();
  assert.equal(gate.at("keep").hidden, false);
  gate.picks = "sealed";
  await gate.press(gate.at("change"));
  assert.deepEqual(gate.asks(), ["Sealed?"]);
  assert.equal(gate.main.querySelectorAll("[aria-checked=true]").length, 0);
  assert.deepEqual([gate.at("told").textContent, gate.at("keep").hidden], ["", true], "before the sums have answered");
  assert.deepEqual(gate.drafts.gate, draftOf({ wet: "no", gas: "no", watcher: "me" }));
  gate.picks = "";
  const sums = gate.asked.length;
  await gate.press(gate.at("change"));
  assert.equal(gate.asked.length, sums, "left without a choice");
});

test("a verdict that comes late, for answers that were changed since, is dropped", async (t) => {
  const waiting = [];
  const gate = await open(t, { draft: draftOf({ ...answered, sealed: "" }), call: (_, answers) => new Promise((resolve, reject) => waiting.push({ done: () => resolve(judge(answers)), fail: () => reject({ msg: "too late" }) })) });
  await gate.answer("Sealed?", "no");
  gate.picks = "sealed";
  await gate.press(gate.at("change"));
  await gate.answer("Sealed?", "yes");
  const [first, second, third, last] = waiting;
  last.done();
  await turn();
  assert.match(gate.at("told").textContent, /sealed kills/);
  second.done();
  third.fail();
  first.fail();
  await turn();
  assert.match(gate.at("told").textContent, /sealed kills/);
  assert.equal(gate.at("wrong").hidden, true);
});

test("a sum that fails says why; one that was called off says nothing", async (t) => {
  let trouble = /** @type {any} */ ({ msg: "The sums cannot start", hint: "Reload" });
  const gate = await open(t, { call: () => Promise.reject(trouble) });
  assert.equal(gate.at("wrong").textContent, "The sums cannot startReload");
  assert.equal(gate.at("keep").hidden, true);
  trouble = new DOMException("called off", "AbortError");
  gate.at("wrong").hidden = true;
  await gate.answer("Wet?", "no");
  assert.equal(gate.at("wrong").hidden, true);
});

test("hazards answered for another job are asked anew, what is none is not", async (t) => {
  const gate = await open(t, { draft: draftOf(answered, "s-0") });
  assert.deepEqual(gate.asked, [["stops-so-far", { watcher: "me" }]]);
  assert.deepEqual(gate.asks(), ["Wet?"]);
});

test("answers on a screen that was left open for half a day are dropped as it is seen, and not kept", async (t) => {
  const gate = await open(t, { draft: draftOf({ ...answered, wet: "yes" }) });
  t.mock.timers.tick(jobHolds - 1);
  const seen = () => document.dispatchEvent(new CustomEvent("visibilitychange"));
  Object.assign(document, { visibilityState: "visible" });
  t.after(() => delete (/** @type {any} */ (document).visibilityState));
  seen();
  assert.deepEqual([gate.asks(), gate.at("keep").hidden], [[], false], "still this job's");
  t.mock.timers.tick(1);
  await gate.keep();
  assert.deepEqual([gate.tapped, gate.went], [[], []]);
  assert.equal(gate.shown.length, 1);
  assert.deepEqual(gate.asks(), ["Wet?"]);
  await gate.answer("Wet?", "no");
  t.mock.timers.tick(jobHolds);
  seen();
  assert.deepEqual(gate.asks(), ["Wet?"]);
});

test("each stop is kept as a check that failed, with who may clear it, and Undo takes all of them back", async (t) => {
  const gate = await open(t, { draft: draftOf({ ...answered, wet: "yes", gas: "yes" }) });
  t.mock.timers.tick(90_000);
  await gate.keep();
  const common = { guide: "may-i-cut", rig: "rig-1", site: "yard", answers: { ...answered, wet: "yes", gas: "yes" }, took: 90_000 };
  const entry = (key) => ({ kind: "check.answered", in: "s-1", body: { ...common, step: key, result: "fail", says: `${key}, in words`, by: "you" } });
  assert.deepEqual(gate.tapped, [[entry("wet"), entry("gas")]]);
  assert.deepEqual([gate.drafts, gate.went], [{}, ["/ready"]]);
  gate.shown[0].undo();
  await turn();
  assert.deepEqual(gate.tapped[1].map(({ kind, body }) => [kind, body.of, body.on]), [["void", "e-1", true], ["void", "e-0", true]]);
});

test("where nothing stops, one entry says under which conditions; without session none is named", async (t) => {
  const gate = await open(t, { draft: draftOf(answered, "after "), session: null });
  t.mock.timers.tick(40_000);
  await gate.keep();
  assert.deepEqual(gate.tapped, [{ kind: "check.answered", body: { guide: "may-i-cut", rig: "rig-1", site: "yard", answers: answered, took: 40_000, step: "asked", result: "conditions", says: "somebody watches" } }]);
});

test("what the phone did not take is told, and the answers stand", async (t) => {
  const gate = await open(t, { draft: draftOf(answered), tap: () => Promise.reject({ msg: "No room", hint: "Free some" }) });
  await gate.keep();
  assert.equal(gate.at("wrong").textContent, "No roomFree some");
  assert.deepEqual([gate.drafts.gate, gate.went], [draftOf(answered), []]);
});
