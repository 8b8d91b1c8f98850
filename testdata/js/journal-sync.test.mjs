import assert from "node:assert/strict";
import { test } from "node:test";
import { note, withMember as withPhone } from "./phone.mjs";
import { turn } from "./turn.mjs";
import { SyncLoop } from "../../pwa/worker/sync-loop.js";

/** A loop whose Go side is a script: what journal-request and journal-apply return, in turn. */
function loop(phone, { changes = [], send = async () => new Response("{}\n"), locks, random = () => 0.5 } = {}) {
  const tab = phone.tabs[0] ?? phone.tab();
  const asked = [];
  const told = [];
  const call = (name, input) => {
    asked.push({ name, input });
    if (name === "journal-request") return { body: "{}\n", sent: input.unsent.map((r) => r.id) };
    const change = changes.shift() ?? {};
    return { again: false, waitMs: 0, say: null, out: 0, in: 0, ...change, meta: { turn: input.meta.turn + 1, ...change.meta } };
  };
  const sync = new SyncLoop({ db: tab.db, call, channel: { tell: (message) => told.push(message) }, send, random, locks, now: () => phone.wall, tick: () => phone.wall - 1e12 });
  return { sync, tab, asked, told, applied: () => asked.filter(({ name }) => name === "journal-apply").map(({ input }) => input) };
}

test("a request goes out with its headers, and the reply with its times to Go", withPhone(async (phone) => {
  const sent = [];
  const { sync, applied, told } = loop(phone, { send: async (url, options) => {
    sent.push([url, options.method, options.headers, options.body]);
    phone.wall += 80;
    return new Response("line 1\nline 2\n", { status: 200 });
  } });
  const began = phone.wall;
  assert.equal(await sync.run(), 60_000);
  assert.deepEqual(sent, [["/api/journal/sync", "POST", { "Content-Type": "application/x-ndjson", "X-Kerfside": "1" }, "{}\n"]]);
  const [{ status, reply, sentAt, gotAt, timeout }] = applied();
  assert.deepEqual({ status, reply, sentAt, gotAt, timeout }, { status: 200, reply: "line 1\nline 2\n", sentAt: began, gotAt: began + 80, timeout: undefined });
  assert.deepEqual(told, [{ what: "sync", report: { reached: true, lastError: null } }]);
}));

test("no network is status 0, and a reply that does not come in time says so", withPhone(async (phone) => {
  let error = new TypeError("fetch failed");
  const { sync, applied, told } = loop(phone, { send: async () => { throw error; }, changes: [{ waitMs: 1000 }, { waitMs: 2000 }] });
  assert.equal(await sync.run(), 500);
  error = new DOMException("late", "TimeoutError");
  assert.equal(await sync.run(), 1000);
  assert.deepEqual(applied().map(({ status, reply, timeout }) => ({ status, reply, timeout })), [{ status: 0, reply: "", timeout: undefined }, { status: 0, reply: "", timeout: true }]);
  assert.deepEqual(told.map(({ report }) => report.reached), [false, false]);
}));

test("a good reply that breaks off is applied as far as it came", withPhone(async (phone) => {
  const body = () => new ReadableStream({
    start(controller) {
      controller.enqueue(new TextEncoder().encode("head\nline\nhal"));
    },
    pull(controller) {
      controller.error(new TypeError("network error"));
    },
  });
  const { sync, applied } = loop(phone, { send: async () => new Response(body()) });
  await sync.run();
  assert.deepEqual([applied()[0].status, applied()[0].reply], [200, "head\nline\nhal"]);
}));

test("the pause is a random part of what Go allows, and at least what the server asked", withPhone(async (phone) => {
  const send = async () => new Response("{}", { status: 503, headers: { "Retry-After": "30" } });
  const busy = { meta: { wait: 30 }, waitMs: 90_000, say: { kind: "busy", msg: "m" } };
  for (const [random, want] of [[0, 30_000], [0.5, 60_000], [1, 90_000]]) {
    const { sync, applied, told } = loop(phone, { send, changes: [busy], random: () => random });
    assert.equal(await sync.run(), want);
    assert.equal(applied()[0].retryAfter, 30);
    assert.deepEqual(told.at(-1).report, { reached: true, lastError: { kind: "busy", msg: "m" } });
  }
}));

test("rounds follow each other while there is more", withPhone(async (phone) => {
  const { sync, asked } = loop(phone, { changes: [{ again: true }, { again: true }, {}] });
  await sync.run();
  assert.equal(asked.filter(({ name }) => name === "journal-request").length, 3);
}));

test("a reply to a replica that moved meanwhile is dropped, and the round is repeated", withPhone(async (phone) => {
  let first = true;
  const { sync, applied } = loop(phone, { send: async () => {
    if (first) await phone.setMeta({ turn: 40 }); // another tab was quicker
    first = false;
    return new Response("{}\n");
  } });
  await sync.run();
  assert.deepEqual(applied().map(({ meta }) => meta.turn), [0, 40]);
  assert.equal((await phone.meta()).turn, 41);
}));

test("a trigger begins the back-off anew; a try by the clock does not", withPhone(async (phone) => {
  const { sync, applied, tab } = loop(phone, { changes: [{ meta: { fails: 6 }, waitMs: 10 }, { meta: { fails: 7 }, waitMs: 10 }] });
  await tab.tap(note("x"));
  await sync.run();
  await sync.run();
  sync.trigger("online");
  sync.stop();
  await sync.run();
  assert.deepEqual(applied().map(({ meta }) => meta.fails ?? 0), [0, 6, 0]);
}));

test("while another tab syncs this one stands back twice and then goes on without the lock", withPhone(async (phone) => {
  const locks = { request: async (name, options, work) => {
    assert.deepEqual([name, options], ["kerfside-sync", { ifAvailable: true }]);
    return work(null);
  } };
  const { sync, applied } = loop(phone, { locks });
  assert.deepEqual([await sync.run(), await sync.run(), await sync.run()], [5000, 5000, 60_000]);
  assert.equal(applied().length, 1);
}));

test("a stopped sync asks nothing and says why", withPhone(async (phone) => {
  const { sync, told } = loop(phone);
  const stopped = { kind: "rewound", msg: "two servers", hint: "…" };
  sync.call = () => ({ skip: stopped });
  sync.send = () => assert.fail("nothing may be sent");
  assert.equal(await sync.run(), 60_000);
  assert.deepEqual(told.at(-1).report.lastError, stopped);
}));

test("the loop tries at once, 1 s after a tap, each minute in view, and arms itself after a crash", withPhone(async (phone, t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  const { sync } = loop(phone);
  const at = [];
  let settle;
  sync.run = () => {
    at.push(phone.wall);
    return new Promise((resolve, reject) => (settle = { resolve, reject }));
  };
  const began = phone.wall;
  const pass = async (ms) => {
    phone.wall += ms;
    t.mock.timers.tick(ms);
    await turn();
  };
  const finish = async (how) => {
    how();
    await turn();
  };
  sync.trigger("start");
  await pass(0);
  await finish(() => settle.resolve(60_000));
  await pass(59_999);
  assert.equal(at.length, 1);
  await pass(1); // the minute
  sync.trigger("tap"); // while the round runs
  await finish(() => settle.reject(new Error("wasm broke")));
  await pass(999);
  assert.equal(at.length, 2);
  await pass(1);
  await finish(() => settle.resolve(60_000));
  assert.deepEqual(at.map((ms) => ms - began), [0, 60_000, 61_000]);
  sync.stop();
}));

test("out of sight only what waits to be sent is a reason to ask the server", withPhone(async (phone) => {
  const { sync, tab } = loop(phone);
  let runs = 0;
  let rested;
  sync.run = async () => {
    runs++;
    return 60_000;
  };
  const db = sync.db;
  sync.db = { run: async (...words) => {
    const count = await db.run(...words);
    setImmediate(rested);
    return count;
  } };
  const fire = () => new Promise((resolve) => {
    rested = resolve;
    sync.trigger("now");
  });
  sync.hidden();
  await fire();
  assert.equal(runs, 0);
  await tab.tap(note("x"));
  await fire();
  assert.equal(runs, 1);
  sync.stop();
}));

test("a clock that is set back does not stretch a pause", withPhone(async (phone, t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  const { sync } = loop(phone);
  let tick = 0;
  let runs = 0;
  sync.tick = () => tick;
  sync.run = async () => {
    runs++;
    return 1000;
  };
  sync.trigger("start");
  t.mock.timers.tick(0);
  await turn();
  phone.wall -= 86_400_000;
  tick += 1000;
  t.mock.timers.tick(1000);
  assert.equal(runs, 2);
  sync.stop();
}));

test("a server that asked for a pause gets it, whatever happens meanwhile", withPhone(async (phone, t) => {
  const { sync, applied } = loop(phone, { changes: [{ meta: { wait: 30 }, waitMs: 30_000 }] });
  await sync.run();
  t.mock.timers.enable({ apis: ["setTimeout"] });
  let runs = 0;
  sync.run = async () => {
    runs++;
    return 60_000;
  };
  sync.trigger("online");
  for (const [ms, want] of [[29_999, 0], [1, 1]]) {
    phone.wall += ms;
    t.mock.timers.tick(ms);
    await turn();
    assert.equal(runs, want);
  }
  assert.equal(applied().length, 1);
  sync.stop();
}));

test("where the sync came to its end is told once it rests, and only then", withPhone(async (phone, t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  const { sync } = loop(phone, { changes: [{ meta: { cursor: 7 }, again: true }, { meta: { cursor: 9 } }, { meta: { fails: 1 }, waitMs: 60_000 }, {}] });
  const ends = [];
  let rested;
  const rests = () => new Promise((resolve) => (rested = resolve));
  const fire = async (why) => {
    const rest = rests();
    const run = sync.run.bind(sync);
    sync.run = async () => {
      const pause = await run();
      setImmediate(rested);
      return pause;
    };
    sync.trigger(why);
    t.mock.timers.tick(0);
    await rest;
    delete sync.run;
  };
  sync.onEnd = (cursor) => {
    ends.push(cursor);
    sync.trigger("news"); // at rest: this counts
  };
  await fire("start");
  assert.deepEqual(ends, [9]);
  await fire("now");
  assert.deepEqual(ends, [9], "a failure is no end");
  await fire("now");
  assert.deepEqual(ends, [9, 9]);
  sync.stop();
}));

test("news neither begins the back-off anew nor has a second sync follow one that runs", withPhone(async (phone, t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  const { sync } = loop(phone);
  let runs = 0;
  let settle;
  sync.run = () => {
    runs++;
    return new Promise((resolve) => (settle = resolve));
  };
  const pass = async (ms) => {
    phone.wall += ms;
    t.mock.timers.tick(ms);
    await turn();
  };
  sync.trigger("news");
  await pass(0);
  sync.trigger("news");
  settle(60_000);
  await pass(59_999);
  assert.equal(runs, 1);
  sync.trigger("news");
  await pass(0);
  assert.equal(runs, 2);
  sync.stop();
}));

test("while older entries come they are folded the more seldom the longer it takes, and all at the end", withPhone(async (phone) => {
  const put = (n) => [{ id: String(n).padStart(22, "n"), raw: `{"n":${n}}`, t: "0199f3c0b4000000", o: "0199f3c0b4000000", n }];
  const page = (n, coming) => ({ again: n < 9, meta: { coming, cursor: n }, put: put(n) });
  const { sync, told } = loop(phone, {
    changes: [1, 2, 3, 4, 5, 6, 7, 8, 9].map((n) => page(n, 100)),
    send: async () => {
      phone.wall += 100;
      return new Response("{}\n");
    },
  });
  let folds = 0;
  sync.onApplied = () => {
    folds++;
    phone.wall += 100;
    return Promise.resolve();
  };
  await sync.run();
  const changes = told.filter(({ what }) => what === "change").map(({ l }) => l);
  assert.equal(folds, changes.length);
  assert.ok(folds >= 3 && folds < 6, `folded ${folds} times in nine pages`);
  assert.deepEqual([changes[0], changes.at(-1)], [1, 9], "the first page at once, and nothing is left out");
}));

test("once nothing older is to come each page is folded", withPhone(async (phone) => {
  const put = (n) => [{ id: String(n).padStart(22, "n"), raw: `{"n":${n}}`, t: "0199f3c0b4000000", o: "0199f3c0b4000000", n }];
  const { sync, told } = loop(phone, { changes: [1, 2, 3].map((n) => ({ again: n < 3, meta: { coming: 0, cursor: n }, put: put(n) })) });
  sync.onApplied = () => {
    phone.wall += 100;
    return Promise.resolve();
  };
  await sync.run();
  assert.deepEqual(told.filter(({ what }) => what === "change").map(({ l }) => l), [1, 2, 3]);
}));
