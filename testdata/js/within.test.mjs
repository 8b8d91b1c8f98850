// What takes too long is cut off, also where AbortSignal.timeout is unknown, as it is before Safari 16.

import assert from "node:assert/strict";
import { test } from "node:test";
import { within } from "../../pwa/browser/within.js";
import { request } from "../../pwa/journal/crew/request.js";

/** A request that only its signal ends, as fetch does it. */
const endless = (signal) => new Promise((_, reject) => signal.addEventListener("abort", () => reject(signal.reason)));

test("what is there in time is handed on, and its timer is gone", async (t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  let given;
  assert.equal(await within(100, async (signal) => ((given = signal), "here")), "here");
  t.mock.timers.tick(200);
  assert.equal(given.aborted, false);
});

test("what is late fails by a TimeoutError, also where the browser knows no reasons", async (t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  for (const ask of [endless, (signal) => endless(signal).catch(() => Promise.reject(new DOMException("", "AbortError")))]) {
    const late = within(100, ask);
    t.mock.timers.tick(99);
    const failed = assert.rejects(late, { name: "TimeoutError" });
    t.mock.timers.tick(1);
    await failed;
  }
});

test("what fails by itself says why", () => assert.rejects(within(100, () => Promise.reject(new TypeError("no network"))), /no network/));

test("a life that ends takes it along", async () => {
  const life = new AbortController();
  const cut = within(1_000_000, endless, life.signal);
  life.abort();
  await assert.rejects(cut);
});

test("a browser without AbortSignal.timeout reaches the server", async (t) => {
  const { timeout } = AbortSignal;
  t.after(() => (AbortSignal.timeout = timeout));
  delete AbortSignal.timeout;
  assert.deepEqual(await request("GET", "/api/devices", undefined, async () => new Response('{"devices":[]}')), { devices: [] });
});
