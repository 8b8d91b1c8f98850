// What was planned of a job beside what was done, in words, and what the next plan takes from it.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { comparedOf } from "../../pwa/pages/job-compared.js";

const minute = 60_000;
const cut = (more) => ({ cut: "a", row: { thickness: "6mm", length: "300mm", count: "2" }, count: 2, done: 2, arcs: 2, ms: 50_000, starts: 2, elapsed: 9 * minute, waits: [], ...more });
const planned = { planned: "about 8 to 15 min", takes: { a: "about 5 to 11 min" } };
const spread = (n, low, high) => ({ n, low: low * minute, median: low * minute, high: high * minute });

/** All that is told, line by line. @param {any} view @param {any} taught */
function told({ cuts = [cut({})], ...view } = {}, taught = {}) {
  const main = place();
  main.append(...comparedOf(/** @type {any} */ ({ pieces: 2, done: 2, loose: { elapsed: minute }, cuts, ...view }), /** @type {any} */ ({ cuts: [], times: [], ...planned, ...taught })));
  return [...main.querySelectorAll("h2, p, li > *, a")].map((el) => el.textContent.replaceAll("\u00a0", " "));
}

test("a job that is done is told beside its plan, cut by cut", () => {
  const waits = [{ why: "air", n: 2, ms: 3 * minute }, { why: "moving", n: 1, ms: 0 }];
  assert.deepEqual(told({ cuts: [cut({ waits })] }, { cuts: [{ cut: "a", says: "Burnt as planned." }] }), [
    "Planned and done", "It took 10 min. Planned about 8 to 15 min.",
    "2 × 300 mm · 6 mm mild steel", "2 of 2 done", "Arc 50 s, 2 starts.", "Burnt as planned.", "In all 9 min. Planned about 5 to 11 min.", "Air: 3 min, 2 waits.",
    "Set the plan by trial strips", "Job sheet",
  ]);
});

test("the time of half a row is not held to the plan of all of it", () => {
  const lines = told({ done: 1, cuts: [cut({ done: 1 })] });
  assert.equal(lines[1], "So far 10 min. Planned about 8 to 15 min.");
  assert.ok(lines.includes("In all 9 min."));
});

test("without a plan there is none to compare with, and nothing done tells nothing", () => {
  assert.equal(told({}, { planned: "", takes: {} })[1], "It took 10 min.");
  assert.deepEqual(told({ cuts: [cut({ done: 0, arcs: 0 })] }), []);
});

test("what the next plan reckons with is told with how often it was counted", () => {
  const times = [{ what: "pause-marking", before: spread(2, 1, 2), after: spread(5, 2, 4) }, { what: "row", before: spread(0, 0, 0), after: spread(1, 3, 3) }, { what: "gate", before: spread(0, 0, 0), after: spread(0, 0, 0) }];
  assert.deepEqual(told({}, { times }).slice(6), ["Your own times now", "Marking out", "2 min to 4 min, 5 times", "Before this job 1 min to 2 min", "To the next row", "3 min, 1 time", "Set the plan by trial strips", "Job sheet"]);
});

test("work on a cut that has not come yet is told too", () => assert.ok(told({ cuts: [cut({ row: null, count: 0 })] }).includes("A cut that is not on the list")));
