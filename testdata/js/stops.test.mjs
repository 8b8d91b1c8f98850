// Whom a stop concerns.
import assert from "node:assert/strict";
import { test } from "node:test";
import { stopsHere } from "../../pwa/parts/stops.js";

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
