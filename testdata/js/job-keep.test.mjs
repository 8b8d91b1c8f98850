// A job is kept as it is entered, row by row; what another phone entered comes in; and it is begun with its plan.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { turns } from "./turn.mjs";
import { ownParts } from "./own.mjs";
import { JobPage } from "../../pwa/pages/job.js";

const cuts = { key: "cuts", label: "Cuts", kind: "list", rows: { name: "Cut", shown: "{thickness}", bare: ["thickness"], most: 60, fields: [{ key: "thickness", label: "Thickness", kind: "number", chips: ["3mm", "6mm"] }, { key: "name", label: "Name", kind: "text", optional: true }] } };
const all = [{ name: "job-plan", results: [{ key: "verdict", label: "In short", kind: "text" }], fields: [cuts, { key: "window", label: "Time", kind: "number", optional: true, chips: ["2h"] }, { key: "labour", label: "Labour", kind: "number" }, { key: "mark_out", label: "Marking out", kind: "number" }] }];
const gate = { name: "Gate", rig: "r2", site: "none", "cut.a": { thickness: "6mm", at: 1000 } };

/** The page of a job of which that is kept. @param {Record<string, any>|null} kept @param {Record<string, any>} [more] */
async function open(kept, { session = null, own = {}, late = Promise.resolve(), remedies = [] } = {}) {
  const world = { tapped: [], asked: [], went: "", kept, number: /** @type {string|null} */ (null) };
  const journal = Object.assign(new EventTarget(), {
    read: async () => ({ views: { now: { session }, jobs: { jobs: [], total: 0 }, settings: { devices: { prices: { fields: { labour: "60" } } } }, rigs: { rigs: [{ id: "r1", fields: { name: "North" } }, { id: "r2", fields: { name: "South", tips: "45A" } }], sites: [] } } }),
    tap: async (entries) => (world.tapped.push(...[entries].flat()), late),
  });
  const answers = {
    "journal-job": async ({ id }) => (world.kept ? { id, fields: world.kept, cuts: [], work: [], loose: { elapsed: 0 }, waiting: null } : Promise.reject({ kind: "not-found", msg: "" })),
    "journal-taught": async () => ({ cuts: [], times: [] }),
    "journal-history": async () => ({ values: { mark_out: "3min" } }),
  };
  const life = new AbortController();
  const page = new JobPage(place(), /** @type {any} */ ({
    journal, call: (name, input) => answers[name](input), life: life.signal, title() {}, asset: async () => all, go: (path) => (world.went = path), toasts: { show() {}, problem: (trouble) => assert.fail(trouble.msg) },
    settings: Object.assign(new EventTarget(), { values: { units: "metric", rig: "r1", site: "" } }), pad: { ask: async () => world.number }, ...ownParts(own),
    calculate: async (_, values) => (world.asked.push(values), { results: { verdict: "Fits.", work: { value: 600 }, rows: [{ arc: { value: 20 } }], remedies }, cautions: [], working: [], sources: [] }),
  }));
  await page.start({ id: "job-1" });
  const main = document.querySelector("main");
  const tap = async (text) => {
    [...main.querySelectorAll("button")].find((el) => el.textContent.replaceAll("\u00a0", " ") === text).click();
    await turns(5);
  };
  return Object.assign(world, { journal, main, tap, life });
}

test("the first row of a new job keeps its name, rig and site with it", async () => {
  const { tap, tapped, life } = await open(null);
  await tap("Add a cut");
  const [{ kind, about, body }] = tapped;
  const [key] = Object.keys(body).filter((name) => name.startsWith("cut."));
  assert.deepEqual([kind, about, body], ["job.set", "job-1", { name: "Job 1", rig: "r1", site: "none", [key]: { at: body[key].at } }]);
  life.abort();
});

test("a tap writes the row that it changes, and nothing else", async () => {
  const { tap, tapped, life } = await open(gate);
  await tap("1. 6 mm");
  await tap("3 mm");
  assert.deepEqual(tapped.map(({ body }) => body), [{ "cut.a": { thickness: "3mm", at: 1000 } }]);
  life.abort();
});

test("the sum is asked with the job’s own rig", async () => {
  const { asked, life } = await open(gate);
  assert.deepEqual(asked[0].rig, { name: "South", tips: "45A" });
  assert.deepEqual(JSON.parse(asked[0].cuts).map(({ thickness }) => thickness), ["6mm"]);
  assert.equal("name" in asked[0], false);
  assert.deepEqual(asked[1].rig, { name: "North" }, "and with the other, to stand beside it");
  assert.deepEqual([asked[0].labour, asked[0].mark_out], ["60", "3min"]);
  life.abort();
});

test("a row of another phone comes in; one that is not stored yet is not taken back", async () => {
  let stored = () => {};
  const world = await open(gate, { late: new Promise((resolve) => (stored = () => resolve(undefined))) });
  world.kept = { ...gate, "cut.b": { thickness: "3mm", at: 2000 } };
  world.journal.dispatchEvent(new Event("views"));
  await turns();
  const rows = () => [...world.main.querySelectorAll("ol > li b")].map((b) => b.textContent.replaceAll("\u00a0", " "));
  assert.deepEqual(rows(), ["1. 6 mm", "2. 3 mm"]);
  await world.tap("Next cut");
  world.journal.dispatchEvent(new Event("views")); // of before the tap
  await turns();
  assert.equal(rows().length, 3);
  stored();
  world.life.abort();
});

test("it is begun with its plan, by the keys of its rows", async () => {
  const world = await open(gate);
  await world.tap("Begin the job");
  const [{ kind, body }] = world.tapped;
  assert.deepEqual([kind, body], ["session.opened", { rig: "r2", title: "Gate", job: "job-1", planned: { elapsed: 600, cuts: { a: { n: 1, arc: 20 } } } }]);
  assert.equal(world.went, "/cut");
  world.life.abort();
});

test("an open session of the rig becomes the job’s, one of another job ends, and its own goes on", async () => {
  const begin = async (session) => {
    const world = await open(gate, { session });
    await world.tap(session.job === "job-1" ? "Go on with the job" : "Begin the job");
    world.life.abort();
    return world.tapped.map(({ kind, about, body }) => [kind, about, body.job].filter(Boolean).join(" "));
  };
  assert.deepEqual(await begin({ id: "s", rig: "r2", job: "" }), ["session.set s job-1"]);
  const [ended, opened] = await begin({ id: "s", rig: "r2", job: "job-2" });
  assert.equal(ended, "session.closed s");
  assert.match(opened, /^session\.opened \S+ job-1$/);
  assert.deepEqual(await begin({ id: "s", rig: "r2", job: "job-1" }), []);
});

test("words that were being typed when the page was left are kept", async () => {
  const rows = JSON.stringify([{ thickness: "6mm", name: "hinge", _key: "a", _at: 1000 }]);
  const { tapped, life } = await open(gate, { own: { "job.job-1": { key: "cuts", value: rows } } });
  assert.deepEqual(tapped.map(({ body }) => body), [{ "cut.a": { name: "hinge", thickness: "6mm", at: 1000 } }]);
  life.abort();
});

test("a price is the crew’s: it is kept for all jobs, and stands in the next", async () => {
  const world = await open(gate);
  world.number = "75";
  world.main.querySelector("[data-action=price]").click(); // nobody has said one
  await turns(5);
  assert.deepEqual(world.tapped, [{ kind: "setting.set", about: "prices", body: { labour: "75" } }]);
  assert.equal(world.asked.filter(({ labour }) => labour === "75").length, 2, "of both rigs");
  world.life.abort();
});

test("what would help takes one tap where it is entered here", async () => {
  const world = await open({ ...gate, "cut.b": { thickness: "3mm", at: 2000 } }, { remedies: [{ do: "Thin ones first", saves: { text: "9 min" }, field: "cuts", value: JSON.stringify([{ _key: "b", _at: 2000, thickness: "3mm" }, { _key: "a", _at: 1000, thickness: "6mm" }]) }, { do: "A larger tank", saves: { text: "5 min" }, field: "tank" }] });
  const helps = [...world.main.querySelectorAll("[data-ref=remedies] > li")].map((li) => [li.textContent, Boolean(li.querySelector("button"))]);
  assert.deepEqual(helps, [["Thin ones firstTap to do it.", true], ["A larger tank", false]]);
  world.main.querySelector("[data-action=remedy]").click();
  await turns(5);
  assert.equal(Object.keys(world.tapped[0].body).join(), "cut.b", "the one that moves");
  assert.ok(world.tapped[0].body["cut.b"].at < 1000);
  world.life.abort();
});
