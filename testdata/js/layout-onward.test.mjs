// What follows from a layout: a file of its templates, a cut in today's plan, its cuts in a job's list.
import assert from "node:assert/strict";
import { test } from "node:test";
import "./screen.mjs";
import { LayoutOnward } from "../../pwa/pages/layout-onward.js";

const declared = { name: "pipe-saddle", title: "Pipe saddle" };
const answer = {
  templates: [{ key: "branch", title: "Branch" }, { key: "hole", title: "Hole" }],
  cuts: [{ name: "branch end", fields: { thickness: "3.9mm", length: "210mm", count: "2" } }, { name: "hole", fields: { thickness: "5.5mm", length: "190mm", pierces: "1", start: "pierce" } }],
};
const jobs = [{ id: "j1", name: "Rail", done: 0, pieces: 3 }, { id: "j2", name: "Done", done: 2, pieces: 2 }];

/** Picks that option and tells what came of it. @param {"print"|"cut"} what @param {string} word @param {Record<string, any>} [settings] */
async function pick(what, word, settings = { units: "metric", rig: "r", site: "s" }) {
  const world = { offered: [], tapped: [], called: [], went: "", today: { plan: { metal: "stainless", thickness: "6mm", surface: "clean" } }, said: [] };
  const deps = {
    settings: { values: settings }, today: world.today,
    chooser: { ask: async ({ options }) => ((world.offered = options.map((o) => o.word)), word) },
    journal: { read: async () => ({ views: { jobs: { jobs }, rigs: { rigs: [{ id: "r", fields: { name: "Truck 1" } }], sites: [{ id: "s", fields: {} }] } } }), tap: async (entry) => world.tapped.push(entry) },
    call: async (name, input) => {
      world.called.push([name, input]);
      if (name === "templates") throw { kind: "refused", msg: "too large" };
      return { fields: { name: "Rail", "cut.a": { thickness: "6mm", at: 1000 } } };
    },
    toasts: { problem: (trouble) => world.said.push(trouble.msg), show() {} },
    asset: async () => [{ name: "cut-plan", fields: [{ key: "thickness" }, { key: "start" }] }],
    go: (path) => (world.went = path),
  };
  await new LayoutOnward(/** @type {any} */ (deps), /** @type {any} */ (declared), /** @type {any} */ (answer), { header_od: "88.9mm" })[what]();
  return world;
}

test("paper of the phone's units comes first, and each template can be had as lines", async () => {
  const words = ["pdf  a4", "pdf  letter", "dxf branch", "svg branch", "dxf hole", "svg hole"];
  assert.deepEqual((await pick("print", "")).offered, words);
  assert.deepEqual((await pick("print", "", { units: "us" })).offered.slice(0, 2), ["pdf  letter", "pdf  a4"]);
});

test("a file is asked for with what was entered, and a refusal is told", async () => {
  const { called, said } = await pick("print", "pdf  letter");
  const [[name, { date, ...asked }]] = called;
  assert.equal(name, "templates");
  assert.deepEqual(asked, { calculator: "pipe-saddle", input: { header_od: "88.9mm", units: "metric" }, as: "pdf", template: "", paper: "letter", name: "Truck 1" });
  assert.match(date, /20\d\d/);
  assert.deepEqual(said, ["too large"]);
  assert.equal((await pick("print", "dxf hole")).called[0][1].template, "hole");
});

test("a cut goes into today's plan with what a plan asks, and leaves the rest of it", async () => {
  const { today, went } = await pick("cut", "1");
  assert.deepEqual(today.plan, { metal: "stainless", thickness: "5.5mm", surface: "clean", start: "pierce" });
  assert.equal(went, "/ready");
});

test("jobs that are done are not offered", async () => assert.deepEqual((await pick("cut", "")).offered, ["0", "1", "new", "j1"]));

test("all cuts go to the end of a job's list, in the metal of the plan", async () => {
  const { tapped: [{ kind, about, body }], went } = await pick("cut", "j1");
  assert.deepEqual([kind, about, went], ["job.set", "j1", "/job/j1"]);
  const rows = Object.values(body).sort((a, b) => a.at - b.at);
  assert.deepEqual(rows.map(({ at, ...row }) => row), answer.cuts.map(({ name, fields }) => ({ name, metal: "stainless", ...fields })));
  assert.ok(rows[0].at > 1000);
});

test("a new job has a name, the rig and the site in use", async () => {
  const { tapped: [{ about, body }], went } = await pick("cut", "new");
  assert.equal(went, `/job/${about}`);
  assert.deepEqual([body.name, body.rig, body.site], ["Pipe saddle", "r", "s"]);
  assert.equal(Object.keys(body).filter((key) => key.startsWith("cut.")).length, 2);
});
