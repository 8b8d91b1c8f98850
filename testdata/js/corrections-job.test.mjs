// An arc and a piece are given to another cut of the job where they stand, pieces and pauses are put right.
import assert from "node:assert/strict";
import { test } from "node:test";
import "./screen.mjs";
import { Corrections } from "../../pwa/parts/corrections.js";

const cuts = [{ cut: "k1", row: { metal: "mild-steel", thickness: "6mm", length: "400mm", count: "3" } }, { cut: "k2", row: { metal: "stainless", name: "Lid" } }, { cut: "k3", row: null }];

/** As calc/journal/event/kinds.go has them. */
const fields = {
  "cut.done": [{ key: "n", as: "count" }],
  "pause.started": [{ key: "why", as: "word", words: [["air", "cooling", "parts", "marking", "moving", "drain", "other"]] }],
};

/** A list of one entry; picks are what is answered, one question after the other. @param {object} entry @param {string[]} picks */
async function correct(entry, picks, { job = "job-1", typed = "" } = {}) {
  const tapped = [];
  const asked = [];
  const line = { id: "e-1", v: 1, at: 1_760_731_116_544, void: false, history: [], check: [], device: "phone-a", about: "", ...entry };
  const deps = {
    asset: async () => fields,
    chooser: { ask: async (question) => (asked.push(question), picks.shift() ?? null) },
    pad: { ask: async () => typed },
    call: async (_, { id }) => (id === "job-1" ? { cuts } : Promise.reject({ kind: "not-found" })),
    journal: { tap: async (entries) => (tapped.push(...entries), { ids: ["x"] }) },
    toasts: { show() {}, problem: (err) => assert.fail(err) },
  };
  await new Corrections(/** @type {any} */ (deps), { show: String, lines: () => /** @type {any} */ ([line]), session: "s-1", job: () => job }).ask("e-1");
  return { asked, tapped };
}

const words = ({ options }) => options.map(({ word }) => word);

test("an arc is given to another cut of its session's job", async () => {
  const arc = { start: 0, stop: 30_000, ms: 30_000, starts: 1, running: false };
  const { asked, tapped } = await correct({ kind: "arc.run", body: { cut: "k1" }, arc }, ["cut", "k2"]);
  assert.match(asked[0].options.find(({ word }) => word === "cut").more, /3 × 400\u00a0mm · 6\u00a0mm mild steel/);
  assert.deepEqual(words(asked[1]), ["k1", "k2"], "a cut that has not come yet has no name to pick it by");
  assert.deepEqual(tapped, [{ kind: "amend", body: { of: "e-1", set: { cut: "k2" } } }]);
});

test("nothing is offered where the session has no job, or its job is not here", async () => {
  for (const job of ["", "job-2"]) {
    const { asked } = await correct({ kind: "arc.started", body: {} }, [], { job });
    assert.ok(!words(asked[0]).includes("cut"), job);
  }
  const { asked } = await correct({ kind: "note.added", body: { text: "x" } }, []);
  assert.ok(!words(asked[0]).includes("cut"), "a note is of no cut");
});

test("pieces done: how many, and of which cut", async () => {
  const done = { kind: "cut.done", about: "job-1", body: { cut: "k1", n: 3 } };
  assert.deepEqual((await correct(done, ["cut", "k2"], { job: "" })).tapped, [{ kind: "amend", body: { of: "e-1", set: { cut: "k2" } } }], "it names its job itself");
  assert.deepEqual((await correct(done, [".n"], { typed: "2" })).tapped, [{ kind: "amend", body: { of: "e-1", set: { n: 2 } } }]);
  assert.deepEqual((await correct(done, ["cut", "k1"])).tapped, [], "it is so already");
});

test("a pause was for something else", async () => {
  const { asked, tapped } = await correct({ kind: "pause.started", body: { why: "air" } }, [".why", "cooling"]);
  assert.deepEqual(asked[1].options.map(({ label }) => label), ["waiting for air", "cooling down", "changing parts", "marking out", "moving", "draining the trap", "something else"]);
  assert.deepEqual(tapped, [{ kind: "amend", body: { of: "e-1", set: { why: "cooling" } } }]);
});
