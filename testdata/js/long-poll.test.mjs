import assert from "node:assert/strict";
import { test } from "node:test";
import "./phone.mjs";
import { turn } from "./turn.mjs";
import { LongPoll } from "../../pwa/worker/long-poll.js";

/** Web Locks as far as they are used: one name, granted in turn. */
function oneLock() {
  let last = Promise.resolve();
  return { request: (name, { signal }, work) => {
    const before = last;
    let free;
    last = new Promise((resolve) => (free = resolve));
    return (async () => {
      await Promise.race([before, new Promise((resolve) => signal.addEventListener("abort", resolve))]);
      try {
        if (signal.aborted) throw signal.reason;
        return await work({ name });
      } finally {
        before.then(free);
      }
    })();
  } };
}

/** A tab whose requests are held until the test answers them, under a clock that stands still. */
function tab(t, { locks, random = () => 1 } = {}) {
  const asked = [];
  const it = { asked, synced: 0, time: 0, open: () => asked.filter(({ over }) => !over) };
  const send = (url, { signal }) => new Promise((resolve, reject) => {
    const request = { url, over: false, answer: (status) => end(() => (status ? resolve(new Response(null, { status })) : reject(new TypeError("no network")))) };
    const end = (how) => {
      request.over = true;
      how();
      return turn();
    };
    signal.addEventListener("abort", () => end(() => reject(signal.reason)));
    asked.push(request);
  });
  it.news = new LongPoll({ name: "kerfside-a", onNews: () => it.synced++, send, tick: () => it.time, random, locks });
  it.pass = (ms) => {
    it.time += ms;
    t.mock.timers.tick(ms);
    return turn();
  };
  it.follow = (after) => {
    it.news.follow(after);
    return turn();
  };
  return it;
}

const clocked = (test) => async (t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  await test(t);
};

test("what others entered has a sync begin at once, and the next request names where that came to", clocked(async (t) => {
  const it = tab(t);
  await it.follow(7);
  assert.deepEqual(it.asked.map(({ url }) => url), ["/api/journal/news?after=7"]);
  await it.asked[0].answer(200);
  await it.pass(0);
  assert.equal(it.synced, 1);
  await it.follow(9);
  assert.equal(it.asked[1].url, "/api/journal/news?after=9");
}));

test("without news the request is made again at once, and no sync begins", clocked(async (t) => {
  const it = tab(t);
  await it.follow(7);
  await it.asked[0].answer(204);
  await it.asked[1].answer(204);
  assert.equal(it.asked.length, 3);
  assert.equal(it.synced, 0);
}));

test("a sync that brought nothing new leaves the request that is held", clocked(async (t) => {
  const it = tab(t);
  await it.follow(7);
  await it.follow(7);
  assert.equal(it.asked.length, 1);
  await it.follow(8); // what was entered here
  assert.deepEqual(it.asked.map(({ url, over }) => [url, over]), [["/api/journal/news?after=7", true], ["/api/journal/news?after=8", false]]);
}));

test("without a network nothing is asked but what the sync asks, until that came to its end", clocked(async (t) => {
  const it = tab(t, { random: () => 0.5 });
  await it.follow(7);
  await it.asked[0].answer(0);
  await it.pass(499);
  assert.equal(it.synced, 0);
  await it.pass(1);
  assert.equal(it.synced, 1);
  await it.pass(3_600_000);
  assert.deepEqual([it.asked.length, it.synced], [1, 1]);
}));

test("a server that refuses, or tells of news that no sync brings, is asked less and less often", clocked(async (t) => {
  for (const status of [503, 200]) {
    const it = tab(t);
    const pauses = [];
    for (let i = 0; i < 12; i++) {
      await it.follow(7);
      await it.asked.at(-1).answer(status);
      const before = it.synced;
      let ms = 0;
      for (await it.pass(0); it.synced === before; ms += 1000) await it.pass(1000);
      pauses.push(ms);
    }
    const first = status === 200 ? 0 : 1000;
    assert.deepEqual(pauses, [first, 2000, 4000, 8000, 16_000, 32_000, 64_000, 128_000, 256_000, 300_000, 300_000, 300_000]);
    await it.follow(8); // it has got further
    await it.asked.at(-1).answer(200);
    await it.pass(0);
    assert.equal(it.synced, 13);
    it.news.stop();
  }
}));

test("a request that something on the way cut is made again at once, one that hangs is given up", clocked(async (t) => {
  const it = tab(t);
  await it.follow(7);
  await it.pass(30_000);
  await it.asked[0].answer(0);
  assert.equal(it.open().length, 1);
  await it.pass(69_999);
  assert.equal(it.open().length, 1);
  await it.pass(1);
  assert.deepEqual([it.asked.length, it.open().length, it.synced], [3, 1, 0]);
}));

test("nothing is held while no page is in view, and a sync that ends then begins nothing", clocked(async (t) => {
  const it = tab(t);
  await it.follow(7);
  it.news.hidden();
  await it.follow(8);
  assert.deepEqual([it.asked.length, it.open().length, it.synced], [1, 0, 0]);
  it.news.anew();
  await it.follow(8);
  assert.equal(it.open().length, 1);
  await it.open()[0].answer(503);
  it.news.hidden(); // in the pause
  await it.pass(600_000);
  assert.equal(it.synced, 0);
}));

test("a line that died with the network it was in is let go", clocked(async (t) => {
  const it = tab(t);
  await it.follow(7);
  it.news.anew();
  assert.equal(it.open().length, 0);
  await it.follow(7);
  assert.equal(it.open().length, 1);
}));

test("an earlier server that knows no such address is not asked again until the page is seen anew", clocked(async (t) => {
  const it = tab(t);
  await it.follow(7);
  await it.asked[0].answer(404);
  await it.follow(8);
  await it.pass(600_000);
  assert.deepEqual([it.asked.length, it.synced], [1, 0]);
  it.news.anew();
  await it.follow(8);
  assert.equal(it.asked.length, 2);
}));

test("tabs of one phone hold one request, and another takes it over from one that goes out of view", clocked(async (t) => {
  const locks = oneLock();
  const [one, two] = [tab(t, { locks }), tab(t, { locks })];
  await one.follow(7);
  await two.follow(7);
  assert.deepEqual([one.open().length, two.open().length], [1, 0]);
  await two.follow(8);
  one.news.hidden();
  await turn();
  await turn();
  assert.deepEqual([one.open().length, two.open().map(({ url }) => url)], [0, ["/api/journal/news?after=8"]]);
}));
