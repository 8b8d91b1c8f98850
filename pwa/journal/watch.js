// @ts-check
/**
 * What this phone remembers of fire watches between a tap and the fold, so that one that was begun,
 * ended or started anew by an arc is seen at once: the part "watch" of view now, kept in meta. The
 * fold's own word replaces it (fold.js).
 */

import { millis } from "./clock.js";
import { asked } from "./db.js";

/**
 * @typedef {import("./meta.js").Meta} Meta
 * @typedef {import("./shapes.js").Entry} Entry
 * @typedef {import("./shapes.js").Watch} Watch
 */

/** How many ended watches are remembered, for Undo. */
const remembered = 8;

/**
 * Notes what an entry changes of them.
 * @param {IDBObjectStore} events
 * @param {Meta} meta  its clock is the entry's
 * @param {Entry} entry
 */
export async function noteWatch(events, meta, { id = "", kind, in: session = "", body }) {
  const at = millis(meta.clock);
  if (kind === "watch.started") begin(meta, { id, session, body, device: meta.device, at });
  else if (kind === "watch.ended") end(meta, body.of, id);
  else if (kind === "arc.run") noteArc(meta, { rig: body.rig ?? "", session, start: body.start, stop: body.stop });
  else if (kind === "void") await noteVoid(events, meta, body.of, Boolean(body.on));
}

/**
 * An arc starts the watches of its session and its rig anew, as in calc/journal; one without a stop burns.
 * @param {Meta} meta
 * @param {{rig: string, session: string, start: number, stop?: number}} arc
 */
export function noteArc(meta, { rig, session, start, stop }) {
  if (stop !== undefined) meta.lastArc = { rig, in: session, at: stop };
  for (const watch of meta.watch ?? []) {
    const inside = session !== "" && watch.in === session;
    if (!inside && !(watch.rig === rig && start <= watch.ends)) continue;
    watch.running = stop === undefined;
    watch.from = Math.max(watch.from, stop ?? start);
    watch.ends = watch.from + watch.ms;
  }
  meta.watch?.sort((a, b) => b.ends - a.ends);
}

/** @param {Meta} meta @param {{id: string, session: string, body: any, device: string, at: number}} begun */
function begin(meta, { id, session, body, device, at }) {
  const open = (meta.watch ??= []);
  if (open.some((w) => w.id === id)) return;
  const rig = body.rig ?? "";
  open.push({ id, in: session, rig, device, ms: body.ms, from: at, ends: at + body.ms, running: Object.hasOwn(meta.arc, rig) });
  open.sort((a, b) => b.ends - a.ends);
}

/** @param {Meta} meta @param {string} id @param {string} by */
function end(meta, id, by) {
  const watch = meta.watch?.find((w) => w.id === id);
  if (!watch) return;
  meta.watch = (meta.watch ?? []).filter((w) => w !== watch);
  meta.ended = [...meta.ended, { ...watch, by }].slice(-remembered);
}

/** @param {IDBObjectStore} events @param {Meta} meta @param {string} of @param {boolean} hides */
async function noteVoid(events, meta, of, hides) {
  const back = meta.ended.find((w) => w.by === of);
  if (hides && back) { // its end is taken back
    const { by, ...watch } = back;
    meta.ended = meta.ended.filter((w) => w !== back);
    if (!meta.watch?.some((w) => w.id === watch.id)) meta.watch = [...(meta.watch ?? []), watch].sort((a, b) => b.ends - a.ends);
    return;
  }
  const record = await asked(events.get(of));
  const event = record && JSON.parse(record.raw);
  if (event?.kind === "watch.ended" && !hides) end(meta, event.body.of, of);
  if (event?.kind !== "watch.started") return;
  if (hides) meta.watch = (meta.watch ?? []).filter((w) => w.id !== of);
  else begin(meta, { id: of, session: event.in ?? "", body: event.body, device: event.device, at: event.at ?? millis(record.o ?? record.t) });
}
