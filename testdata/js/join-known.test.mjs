// A phone that the server knows goes home to its crew; a code that is typed meanwhile takes it to no other.
import assert from "node:assert/strict";
import { test } from "node:test";
import { setGlobals } from "./globals.mjs";
import { place } from "./screen.mjs";
import { turn } from "./turn.mjs";
import { JoinPage } from "../../pwa/pages/join.js";

/** The page on such a phone, whose store opens as `open` does; resolves when it is opened. */
async function known(t, open) {
  const asks = [];
  const answers = { "/api/status": { enrolled: true }, "/api/devices": { me: "phone-x", crew: { id: "N0sD1w2aRtY7uIo9PqLm3g", name: "Osier Ford Repair" } } };
  const opened = new Promise((resolve) => setGlobals(t, {
    fetch: async (path, { method }) => (asks.push(`${method} ${path}`), Response.json(answers[path] ?? {})),
    location: { hostname: "localhost" }, navigator: {},
    indexedDB: { open: () => (resolve(null), open()) },
  }));
  const main = place();
  const life = new AbortController();
  t.after(() => life.abort());
  await new JoinPage(main, /** @type {any} */ ({
    life: life.signal, journal: { read: async () => ({ crew: "" }) }, drafts: { of: () => ({ name: "Truck 1", code: "7K3Q9-M2XWD" }), keep() {}, drop() {} }, go() {},
  })).start({});
  await opened;
  return { asks, at: (name) => main.querySelector(`[data-ref=${name}]`) };
}

test("a code that is typed while it goes home opens nothing", async (t) => {
  const request = { error: new Error("the test is over"), onerror() {} };
  t.after(() => request.onerror());
  const { asks, at } = await known(t, () => request);
  at("join").click();
  await turn();
  assert.deepEqual(asks, ["GET /api/status", "GET /api/devices"]);
  assert.equal(at("join").disabled, true);
  assert.equal(at("status").textContent, "");
});

test("a store that does not let it go home is told, and a code may be typed", async (t) => {
  const { at } = await known(t, () => { throw new Error("no store"); });
  await turn();
  assert.equal(at("join").disabled, false);
  assert.equal(at("wrong").hidden, false);
});
