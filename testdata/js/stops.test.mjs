// Whom a stop concerns.
import assert from "node:assert/strict";
import { test } from "node:test";
import { clearStop, stopsHere } from "../../pwa/parts/stops.js";

const rigs = [{ id: "rig-1" }, { id: "rig-2" }];
const stop = (id, rig, session = "") => ({ id, step: "wet", says: "something is wet", by: "you", rig, site: "", in: session, at: 0 });
const gate = { asked: [], stops: [stop("own", "rig-1"), stop("other", "rig-2"), stop("session", "rig-2", "s1"), stop("last week", "rig-1", "s0"), stop("nobody’s", ""), stop("new rig’s", "rig-9")] };
const ids = (here) => stopsHere(gate, { rigs, ...here }).map((s) => s.id);

test("a rig’s own, its session’s, and those whose rig nobody knows", () => {
  assert.deepEqual(ids({ rig: "rig-1" }), ["own", "last week", "nobody’s", "new rig’s"]);
  assert.deepEqual(ids({ rig: "rig-1", session: "s1" }), ["own", "session", "last week", "nobody’s", "new rig’s"]);
  assert.deepEqual(ids({ rig: "rig-2", session: "s9" }), ["other", "session", "nobody’s", "new rig’s"]);
  assert.deepEqual(ids({ rig: "rig-9", session: "" }), ["nobody’s", "new rig’s"]);
});

test("before any view none is shown, and none is missed for want of a rig", () => {
  assert.deepEqual(stopsHere(undefined, { rig: "", rigs: [] }), []);
  assert.deepEqual(stopsHere(gate, { rig: "", rigs: [] }).length, gate.stops.length);
});

test("the same stop told again on one job is one, and is cleared with the first", async () => {
  const twice = { asked: [], stops: [stop("first", "rig-1", "s1"), stop("again", "rig-1", "s1"), stop("other job", "rig-1", "s2"), { ...stop("other reason", "rig-1", "s1"), step: "gas" }] };
  const here = stopsHere(twice, { rig: "rig-1", session: "s1", rigs });
  assert.deepEqual(here.map(({ id, again }) => [id, again]), [["first", ["again"]], ["other job", []], ["other reason", []]]);
  const tapped = [];
  const deps = /** @type {any} */ ({ asset: async () => [{ key: "wet", ways: ["Dried"] }], chooser: { ask: async () => "0" }, toasts: { show() {} },
    journal: { tap: async (entries) => (tapped.push(...entries), { ids: [] }) } });
  await clearStop(deps, here[0], "s1");
  assert.deepEqual(tapped.map(({ kind, body }) => [kind, body.of, body.why]), [["check.cleared", "first", "Dried"], ["check.cleared", "again", "Dried"]]);
});
