// @ts-check
/**
 * What this phone remembers of may-i-cut between a tap and the fold, so that a stop stands on Cut at
 * once: the part "gate" of view now, kept in meta. The fold's own word replaces it (fold-loop.js).
 */

import { millis } from "./clock.js";
import { readEvent } from "./records.js";

/**
 * @typedef {import("./meta.js").Meta} Meta
 * @typedef {import("./shapes.js").Entry} Entry
 */

/** The guide of its answers, as in calc/journal. */
const guide = "may-i-cut";

/**
 * Notes what an entry changes of it.
 * @param {IDBObjectStore} events
 * @param {Meta} meta  its clock is the entry's
 * @param {Entry} entry
 */
export async function noteGate(events, meta, entry) {
  const { kind, body } = entry;
  if (kind === "check.answered") await stand(events, meta, entry, millis(meta.clock));
  else if (kind === "check.cleared") lift(meta, body.of);
  else if (kind === "void") await noteVoid(events, meta, body.of, Boolean(body.on));
}

/** @param {IDBObjectStore} events @param {Meta} meta @param {string|undefined} id @param {boolean} hides */
async function noteVoid(events, meta, id, hides) {
  const target = await readEvent(events, id);
  if (target?.event.kind === "check.answered") hides ? lift(meta, id, true) : await stand(events, meta, target.event, target.at);
  if (target?.event.kind !== "check.cleared") return;
  const of = target.event.body.of;
  const answer = await readEvent(events, of);
  if (hides && answer) await stand(events, meta, answer.event, answer.at);
  else lift(meta, of);
}

/**
 * A stop stands, where the fold will have it: those of one tap have one ms, and a row that changes places a
 * moment later goes away from under the finger. A later answer is the last one of its rig.
 * @param {IDBObjectStore} events @param {Meta} meta @param {import("./shapes.js").EntryOf<"check.answered">} entry @param {number} at
 */
async function stand(events, meta, { id = "", in: session = "", body }, at) {
  if (body.guide !== guide) return;
  const { stops, asked } = (meta.gate ??= { stops: [], asked: [] });
  const rig = body.rig ?? "";
  const { step = "", result = "" } = body;
  const isStop = result === "fail";
  if (isStop && !stops.some((s) => s.id === id)) stops.push({ id, step, says: body.says ?? step, by: body.by ?? "", rig, site: body.site ?? "", in: session, at });
  const places = new Map(await Promise.all(stops.map(async (s) => /** @type {const} */ ([s.id, (await readEvent(events, s.id))?.place ?? ""]))));
  stops.sort((a, b) => a.at - b.at || (String(places.get(a.id)) < String(places.get(b.id)) ? -1 : 1));
  if (asked.some((a) => a.rig === rig && a.at > at)) return;
  meta.gate.asked = [...asked.filter((a) => a.rig !== rig), { rig, verdict: isStop ? "stop" : result, id, in: session, at }];
}

/** @param {Meta} meta @param {string|undefined} id @param {boolean} [hidden]  it was taken back, not cleared */
function lift(meta, id, hidden = false) {
  if (!meta.gate) return;
  meta.gate.stops = meta.gate.stops.filter((s) => s.id !== id);
  if (hidden) meta.gate.asked = meta.gate.asked.filter((a) => a.id !== id);
}
