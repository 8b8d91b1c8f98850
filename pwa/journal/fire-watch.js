// @ts-check
/**
 * What this phone remembers of fire watches between a tap and the fold, so that one that was begun,
 * ended or started anew by an arc is seen at once: the part "watch" of view now, kept in meta. The
 * fold's own word replaces it (fold-loop.js). Watches that were ended or removed are kept beside it for a
 * while, and moved by arcs as the open ones are, so that Undo brings back the right end.
 */

import { millis } from "./clock.js";
import { readEvent } from "./records.js";

/**
 * @typedef {import("./meta.js").Meta} Meta
 * @typedef {import("./shapes.js").Entry} Entry
 * @typedef {import("../types/journal.js").FireWatch} Watch
 */

/** How many watches that are open no more are remembered. */
const remembered = 8;
/** An arc that burns since longer before the watch counts from was forgotten, ms; as in calc/journal. */
const longest = 12 * 3600 * 1000;

/**
 * Notes what an entry changes of them.
 * @param {IDBObjectStore} events
 * @param {Meta} meta  its clock is the entry's; its arcs and its session are those after the entry
 * @param {Entry} entry
 */
export async function noteFireWatch(events, meta, { id = "", kind, in: session = "", body }) {
  if (kind === "watch.started") begin(meta, { id, session, body, device: meta.device, at: millis(meta.clock) });
  else if (kind === "watch.ended") putAside(meta, body.of, id);
  else if (kind === "arc.run") noteArc(meta, { rig: body.rig ?? "", session, start: body.start ?? 0, stop: body.stop });
  else if (kind === "amend" && body.set?.ms) lengthen(meta, body.of, body.set.ms);
  else if (kind === "void") await noteVoid(events, meta, body.of ?? "", Boolean(body.on));
  settle(meta);
}

/**
 * An arc starts the watches of its session and its rig anew, as in calc/journal; one without a stop burns.
 * @param {Meta} meta
 * @param {{rig: string, session: string, start: number, stop?: number}} arc
 */
export function noteArc(meta, { rig, session, start, stop }) {
  const { at = 0 } = meta.lastArc ?? {};
  if (stop !== undefined && (stop > at || at > millis(meta.clock))) meta.lastArc = { rig, in: session, at: stop };
  for (const watch of [...(meta.watch ?? []), ...meta.unwatched]) {
    const isInside = session !== "" && watch.in === session;
    if (isInside || (watch.rig === rig && start <= watch.ends)) watch.from = Math.max(watch.from, stop ?? start);
  }
  settle(meta);
}

/** Reckons the ends anew, and what burns. @param {Meta} meta */
function settle(meta) {
  for (const watch of [...(meta.watch ?? []), ...meta.unwatched]) {
    watch.ends = watch.from + watch.ms;
    watch.running = Object.entries(meta.arc).some(([rig, arc]) => (rig === watch.rig || (watch.in !== "" && arc.in === watch.in)) && arc.start >= watch.from - longest);
  }
  meta.watch?.sort((a, b) => b.ends - a.ends || (a.id < b.id ? -1 : 1)); // as the fold has them: no row changes places a moment later
}

/** @param {Meta} meta @param {{id: string, session: string, body: import("./shapes.js").EntryOf<"watch.started">["body"], device: string, at: number}} begun */
function begin(meta, { id, session, body, device, at }) {
  const open = (meta.watch ??= []);
  const { ms = 0 } = body;
  if (open.some((w) => w.id === id) || !Number.isInteger(ms) || ms < 1) return;
  const rig = body.rig ?? (meta.session?.id === session ? meta.session.rig : "");
  open.push({ id, in: session, rig, device, ms, from: at, ends: at + ms, running: false });
}

/** @param {Meta} meta @param {string|undefined} id @param {string} by  what ended it, "" if it was removed */
function putAside(meta, id, by) {
  const watch = meta.watch?.find((w) => w.id === id);
  if (!watch) return;
  meta.watch = (meta.watch ?? []).filter((w) => w !== watch);
  meta.unwatched = [...meta.unwatched, { ...watch, by }].slice(-remembered);
}

/** @param {Meta} meta @param {(watch: Watch & {by: string}) => boolean} which @returns {boolean} whether there was one */
function bringBack(meta, which) {
  const back = meta.unwatched.find(which);
  if (!back) return false;
  const { by, ...watch } = back;
  meta.unwatched = meta.unwatched.filter((w) => w !== back);
  if (!meta.watch?.some((w) => w.id === watch.id)) meta.watch = [...(meta.watch ?? []), watch];
  return true;
}

/** @param {Meta} meta @param {string|undefined} id @param {number} ms */
function lengthen(meta, id, ms) {
  for (const watch of [...(meta.watch ?? []), ...meta.unwatched]) if (watch.id === id) watch.ms = ms;
}

/** @param {IDBObjectStore} events @param {Meta} meta @param {string} of @param {boolean} hides */
async function noteVoid(events, meta, of, hides) {
  if (hides && bringBack(meta, (w) => w.by === of)) return; // its end is taken back
  if (!hides && bringBack(meta, (w) => w.id === of && w.by === "")) return;
  const { event, at } = (await readEvent(events, of)) ?? {};
  if (event?.kind === "watch.ended" && !hides) putAside(meta, event.body.of, of);
  if (event?.kind !== "watch.started") return;
  if (hides) putAside(meta, of, "");
  else begin(meta, { id: of, session: event.in ?? "", body: event.body, device: event.device, at });
}
