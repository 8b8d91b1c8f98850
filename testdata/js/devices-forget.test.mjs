// An owner forgets a phone that was taken off: told what goes, then part by part until nothing is left.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { turn } from "./turn.mjs";
import { DevicesPage } from "../../pwa/pages/devices.js";

/** A screen of phones whose server answers as told, one answer for each request. */
async function open(role, answers) {
  const main = place();
  const asked = [];
  const lost = { id: "lost", name: "Truck 9", role: "member", since: 1, seen: 2, revoked: 3 };
  const me = { id: "me", name: "Truck 1", role, since: 1, seen: 2, revoked: 0 };
  globalThis.fetch = /** @type {any} */ (async (path, { method }) => {
    asked.push(`${method} ${path}`);
    const answer = path === "/api/devices" ? { me: "me", crew: { name: "Osier Ford Repair" }, devices: [me, lost] } : answers.shift();
    return new Response(JSON.stringify(answer), { status: answer.error ? 503 : 200 });
  });
  const said = [];
  const page = new DevicesPage(main, /** @type {any} */ ({
    life: new AbortController().signal, toasts: { show: (text) => said.push(text) },
    journal: { read: async () => ({ crew: "crew" }), syncNow: () => asked.push("sync") },
  }));
  await page.start();
  const tap = async (action) => {
    main.querySelector(`[data-device=lost] [data-action=${action}]`).click();
    for (let i = 0; i < 5; i++) await turn();
  };
  return { main, asked, said, tap, row: () => main.querySelector("[data-device=lost]")?.textContent ?? "" };
}

test("it is told what goes, and asked for until nothing is left", async () => {
  const { asked, said, tap, row } = await open("owner", [{ entries: 1200, pictures: 3 }, { entries: 1000, left: 200 }, { entries: 200, left: 0 }]);
  await tap("weigh");
  assert.match(row(), /go: 1200\..*Pictures: 3\..*Backups.*Exported/);
  assert.deepEqual(asked.slice(1), ["GET /api/devices/lost/entries"]);
  await tap("forget");
  assert.deepEqual(asked.slice(2), ["DELETE /api/devices/lost/entries", "DELETE /api/devices/lost/entries", "sync", "GET /api/devices"]);
  assert.equal(said.length, 1);
});

test("left alone, nothing is asked for", async () => {
  const { asked, tap, row } = await open("owner", [{ entries: 4, pictures: 0 }]);
  await tap("weigh");
  await tap("spare");
  assert.doesNotMatch(row(), /go: 4/);
  assert.deepEqual(asked.slice(1), ["GET /api/devices/lost/entries"]);
});

test("broken off, it can be gone on with", async () => {
  const { main, said, tap } = await open("owner", [{ entries: 4, pictures: 0 }, { error: { kind: "busy", msg: "the disk is slow", hint: "Wait." } }]);
  await tap("weigh");
  await tap("forget");
  assert.equal(main.querySelector("[data-ref=wrong]").hidden, false);
  assert.ok(main.querySelector("[data-device=lost] [data-action=weigh]"));
  assert.deepEqual(said, []);
});

test("a member is not offered it", async () => {
  const { main } = await open("member", []);
  assert.equal(main.querySelector("[data-action=weigh]"), null);
});
