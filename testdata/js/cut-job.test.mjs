// The job on Cut: which row is next, what a tap of it stores, what is waited for, and when the rest is done.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { turns } from "./turn.mjs";
import { clone, refs } from "../../pwa/parts/dom.js";
import { clockTime } from "../../pwa/parts/times.js";
import { CutJob } from "../../pwa/pages/cut-job.js";

const row = (thickness, count, at) => ({ metal: "mild-steel", thickness, length: "400mm", count, at });
const fields = { name: "Gate", "cut.a": row("6mm", "2", 1000), "cut.b": row("3mm", "1", 2000) };
const now = Date.UTC(2026, 10, 30, 12);

/** A session of that job, with what was done of it. @param {Record<string, any>} more */
function cutting({ done = {}, waiting = null, results, chosen } = {}) {
  const at = refs(place().appendChild(clone("page-cut")));
  const asked = [];
  const told = { tapped: [], asked, waiting };
  const cuts = () => ["a", "b"].map((cut) => ({ cut, done: done[cut] ?? 0, ms: (done[cut] ?? 0) * 20_000, elapsed: (done[cut] ?? 0) * 90_000, waits: [{ why: "air", ms: 30_000 }, { why: "marking", ms: 9000 }] }));
  const put = async (entry) => (told.tapped.push(...[entry].flat()), { ids: [] });
  const deps = /** @type {any} */ ({
    life: new AbortController().signal, settings: { values: { units: "metric", site: "" } }, chooser: { ask: async () => chosen },
    journal: { now: () => now, tap: put, read: async () => ({ views: { settings: { devices: { prices: { fields: { labour: "60", gone: "1" } } } } } }) },
    call: async (name) => (name === "journal-job" ? { fields, cuts: cuts(), waiting } : { values: { tip_minutes: "12min", diffuser_lives: "[]" } }),
    asset: async () => [{ name: "job-plan", fields: [{ key: "labour" }, { key: "tip_minutes" }] }],
    calculate: async (_, values) => (asked.push(values), results ? { results } : Promise.reject({ kind: "missing", msg: "" })),
  });
  const job = new CutJob(deps, at, { entries: /** @type {any} */ ({ put }), context: () => ({ session: "s", rig: "r", parts: [] }), rigs: () => ({ rig: null, sites: [] }) });
  return { job, at, told, done };
}

/** A range of times of day, the half of the day said once. @param {string} low @param {string} high */
function between(low, high) {
  const half = /\D*$/.exec(high)?.[0] ?? "";
  return `(${half && low.endsWith(half) ? low.slice(0, -half.length) : low} to ${high})`;
}

test("the first row that is not done is next, and an arc is of it", async () => {
  const { job, at } = cutting({ done: { a: 1 } });
  await job.read("job-1");
  assert.match(at.plan.textContent, /^Cut 1 of 2 · 2 × 400.mm · 6.mm mild steel$/);
  assert.equal(at.done.textContent, "Cut done: 2 of 2");
  assert.deepEqual(job.ofRow, { cut: "a" });
});

test("a piece that is done is stored of its row, and the next row follows at once", async () => {
  const { job, at, told } = cutting({ done: { a: 1 } });
  await job.read("job-1");
  await job.done();
  assert.deepEqual(told.tapped, [{ kind: "cut.done", about: "job-1", in: "s", body: { cut: "a", n: 1 } }]);
  assert.match(at.plan.textContent, /^Cut 2 of 2 · 400.mm · 3.mm/);
  assert.deepEqual(job.ofRow, { cut: "b" });
});

test("with all done nothing is left to tap, and an arc is of no row", async () => {
  const { job, at, told } = cutting({ done: { a: 2, b: 1 } });
  await job.read("job-1");
  assert.equal(at.done.hidden, true);
  assert.deepEqual(job.ofRow, {});
  await job.done();
  assert.deepEqual(told.tapped, []);
});

test("a row that was picked is next until it is done", async () => {
  const { job } = cutting({ chosen: "b" });
  await job.read("job-1");
  await job.pick();
  assert.deepEqual(job.ofRow, { cut: "b" });
  await job.done();
  assert.deepEqual(job.ofRow, { cut: "a" });
});

test("a view that was asked for before a tap does not take it back", async () => {
  const { job, at } = cutting({ done: { a: 1 } });
  await job.read("job-1");
  const late = job.read("job-1");
  await job.done();
  await late;
  assert.match(at.plan.textContent, /^Cut 2 of 2/);
});

test("what is waited for is one tap, another ends it, and the same goes on", async () => {
  const { job, at, told } = cutting();
  await job.read("job-1");
  await job.wait("air");
  const [began] = told.tapped;
  assert.deepEqual([began.kind, began.in, began.body], ["pause.started", "s", { rig: "r", why: "air" }]);
  assert.equal(at.waits.querySelector("[data-why=air]").getAttribute("aria-pressed"), "true");
  await job.wait("cooling");
  assert.deepEqual(told.tapped.slice(1).map(({ kind, body }) => [kind, body.of ?? body.why]), [["pause.ended", began.id], ["pause.started", "cooling"]]);
  await job.wait("cooling");
  assert.deepEqual(told.tapped.at(-1).body, { of: told.tapped[2].id });
  assert.equal(at.waits.querySelector("[aria-pressed=true]"), null);
});

test("an arc ends what was waited for", async () => {
  const { job, at } = cutting({ waiting: { id: "p", why: "moving", at: now - 180_000 } });
  await job.read("job-1");
  assert.match(at.waits.querySelector("[data-why=other]").textContent, /Moving: 3 min/);
  job.arcBegins();
  job.paint();
  assert.equal(at.waits.querySelector("[aria-pressed=true]"), null);
});

test("when the rest is done is told from now on, with its range, of what really happened", async () => {
  const { job, at, told } = cutting({ done: { a: 1 }, results: { work: { value: 3600, low: 1800, high: 7200 }, lasts: "Tip about 7 in 10" } });
  await job.read("job-1");
  await turns(5);
  const by = (minutes) => clockTime(now + minutes * 60_000).replace(/^0/, "");
  assert.deepEqual([at.by.textContent, at.between.textContent], [`Done by about ${by(60)}`, between(by(30), by(120))]);
  assert.deepEqual(JSON.parse(told.asked[0].done), [{ cut: 1, pieces: 1, arc: "20s", elapsed: "90s", waited: "30s" }]);
  assert.deepEqual([told.asked[0].labour, told.asked[0].tip_minutes, "gone" in told.asked[0], "diffuser_lives" in told.asked[0]], ["60", "12min", false, false]);
  assert.equal(JSON.parse(told.asked[0].cuts).length, 2);
});

test("a time of day is told no finer than its doubt, and its range outward", async () => {
  const { job, at } = cutting({ results: { work: { value: 3660, low: 2460, high: 6520 } } });
  await job.read("job-1");
  await turns(5);
  const by = (minutes) => clockTime(now + minutes * 60_000).replace(/^0/, "");
  assert.deepEqual([at.by.textContent, at.between.textContent], [`Done by about ${by(60)}`, between(by(40), by(110))]);
});

test("a view that was asked for before a wait began does not end it", async () => {
  const { job, at } = cutting();
  await job.read("job-1");
  const late = job.read("job-1");
  await job.wait("air");
  await late;
  assert.equal(at.waits.querySelector("[data-why=air]").getAttribute("aria-pressed"), "true");
});
