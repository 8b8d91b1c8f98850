import assert from "node:assert/strict";
import { test } from "node:test";
import { Bridge } from "../../pwa/calc/bridge.js";
import { turn } from "./turn.mjs";

/** A bridge over workers that only note what is posted; say() answers as a worker would. */
function stand(deps = {}) {
  const workers = [];
  const makeWorker = () => {
    const worker = { posted: [], ended: false, postMessage: (m) => worker.posted.push(m), terminate: () => (worker.ended = true) };
    worker.say = (data) => worker.onmessage({ data });
    workers.push(worker);
    return worker;
  };
  return { workers, bridge: new Bridge({ makeWorker, wasm: () => "/w/1/calc.wasm", db: () => "kerfside-local", ...deps }) };
}

/** Has the server answer sums with reply(name, input), or be out of reach. */
function serve(t, reply) {
  const asked = [];
  t.mock.method(globalThis, "fetch", async (url, { body, headers }) => {
    asked.push(url);
    assert.equal(headers["X-Kerfside"], "1");
    if (!reply) throw new TypeError("fetch failed");
    return Response.json(reply(JSON.parse(body)));
  });
  return asked;
}

test("the worker starts at the first call and is told where things are", async () => {
  const { workers, bridge } = stand();
  assert.equal(workers.length, 0);
  const answer = bridge.call("travel-pace", { speed: "1 m/min" });
  assert.deepEqual(workers[0].posted, [{ start: { wasm: "/w/1/calc.wasm", db: "kerfside-local" } }, { id: 1, name: "travel-pace", input: { speed: "1 m/min" } }]);
  workers[0].say({ ready: true });
  workers[0].say({ id: 1, ok: { results: {} } });
  assert.deepEqual(await answer, { results: {} });
  bridge.start();
  assert.equal(workers.length, 1);
});

test("answers find their calls in any order, and errors arrive in their shape", async () => {
  const { workers, bridge } = stand();
  const [a, b] = [bridge.call("a", {}), bridge.call("b", {})];
  workers[0].say({ id: 2, error: { kind: "range", field: "speed", msg: "too fast", hint: "slower" } });
  workers[0].say({ id: 1, ok: 7 });
  assert.equal(await a, 7);
  await assert.rejects(b, { kind: "range", field: "speed", msg: "too fast", hint: "slower" });
});

test("an aborted call rejects with the reason, and its late answer is dropped", async () => {
  const { workers, bridge } = stand();
  const stop = new AbortController();
  const call = bridge.call("a", {}, { signal: stop.signal });
  stop.abort();
  await assert.rejects(call, { name: "AbortError" });
  workers[0].say({ id: 1, ok: 7 });
  await assert.rejects(bridge.call("a", {}, { signal: stop.signal }), { name: "AbortError" });
  assert.equal(workers[0].posted.length, 2, "a call aborted before it began is not posted");
});

test("without wasm the server does the sum, and its errors are passed on", async (t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  const asked = serve(t, (input) => (input.bad ? { error: { kind: "missing", field: "speed", msg: "m" } } : { results: { x: 1 } }));
  const { workers, bridge } = stand();
  const dead = new Promise((resolve) => bridge.addEventListener("dead", (event) => resolve(event.detail)));
  const [good, bad] = [bridge.call("travel-pace", {}), bridge.call("travel-pace", { bad: true })];
  workers[0].say({ dead: { kind: "busy", msg: "The sums are waiting: no room." } });
  assert.deepEqual(await good, { results: { x: 1 } });
  await assert.rejects(bad, { kind: "missing", field: "speed" });
  assert.equal((await dead).kind, "busy");
  assert.equal(workers[0].ended, true);
  assert.deepEqual(asked, ["/api/calc/travel-pace", "/api/calc/travel-pace"]);
});

test("without wasm and without network a call says that the sums are waiting", async (t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  serve(t, null);
  const { workers, bridge } = stand();
  bridge.start();
  workers[0].onerror(new Event("error"));
  await assert.rejects(bridge.call("travel-pace", {}), (err) => err.kind === "busy" && /calculators are waiting/.test(err.msg) && err.hint !== "");
});

test("a page that is being left asks the server nothing because its worker was cut off; the next worker answers if it stays", async (t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  const asked = serve(t, () => ({ error: { kind: "missing", field: "speed", msg: "m" } }));
  let stay;
  const stays = new Promise((resolve) => (stay = resolve));
  const { workers, bridge } = stand({ stays: () => stays });
  let told = 0;
  const calls = [bridge.call("fire-watch", {})];
  workers[0].onerror(new Event("error"));
  calls.push(bridge.call("fire-watch", { late: true }));
  for (const call of calls) call.catch(() => told++);
  await turn();
  assert.deepEqual([asked, told], [[], 0]);
  t.mock.timers.tick(2000);
  stay();
  await turn();
  assert.deepEqual(asked, []);
  workers[1].say({ id: 1, ok: 1 });
  workers[1].say({ id: 2, ok: 2 });
  assert.deepEqual(await Promise.all(calls), [1, 2]);
});

test("the journal never asks the server for what only this phone holds", async (t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  const asked = serve(t, () => ({ results: {} }));
  const { workers, bridge } = stand();
  const session = bridge.call("journal-session", { id: "s" });
  workers[0].say({ dead: { kind: "busy", msg: "The sums are waiting." } });
  await assert.rejects(session, { kind: "busy" });
  assert.deepEqual(asked, []);
});

test("the worker ends as the page goes, and what it had not answered is asked of the next", async () => {
  const { workers, bridge } = stand();
  const [first, second] = [bridge.call("a", { x: 1 }), bridge.call("b", {})];
  workers[0].say({ id: 1, ok: 1 });
  bridge.end();
  assert.equal(workers[0].ended, true);
  const third = bridge.call("c", {});
  bridge.start();
  assert.equal(workers.length, 1, "no worker while the page is away");
  bridge.back();
  assert.deepEqual(workers[1].posted.slice(1), [{ id: 2, name: "b", input: {} }, { id: 3, name: "c", input: {} }]);
  workers[0].say({ id: 2, ok: "late" });
  workers[1].say({ id: 2, ok: 2 });
  workers[1].say({ id: 3, ok: 3 });
  assert.deepEqual(await Promise.all([first, second, third]), [1, 2, 3]);
  bridge.back();
  assert.equal(workers.length, 2, "a page that was not away has its worker");
});

test("a page is left when the worker has written, or after a second", async (t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  for (const answers of [true, false]) {
    const { workers, bridge } = stand();
    bridge.start();
    let left = false;
    const leaving = bridge.leave().then(() => (left = true));
    assert.deepEqual(workers[0].posted.at(-1), { rest: true });
    await Promise.resolve();
    assert.deepEqual([left, workers[0].ended], [false, false]);
    if (answers) workers[0].say({ rested: true });
    else t.mock.timers.tick(1000);
    await leaving;
    assert.equal(workers[0].ended, true);
  }
});

test("a dead worker is replaced after a pause, and hears what happened meanwhile", async (t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  const { workers, bridge } = stand();
  bridge.start();
  workers[0].say({ dead: { kind: "busy", msg: "m" } });
  bridge.poke("visible");
  t.mock.timers.tick(1999);
  assert.equal(workers.length, 1);
  t.mock.timers.tick(1);
  assert.equal(workers.length, 2);
  assert.deepEqual(workers[1].posted[1], { poke: "visible" });
  workers[0].say({ ready: true });
  assert.equal(bridge.ready, false, "a word of the dead one counts no more");
  workers[1].say({ ready: true });
  assert.equal(bridge.ready, true);
});
