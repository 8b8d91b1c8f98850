// @ts-check
/**
 * The tap: one strict transaction over event and meta that stamps an entry and stores it.
 */

import { millis, stamp } from "./clock.js";
import { resultOf } from "./db.js";
import { write } from "./event.js";
import { noteGate } from "./gate.js";
import { newId } from "./id.js";
import { readMeta, assertAtHome, writeMeta } from "./meta.js";
import { putRecord } from "./records.js";
import { noteInOverlay } from "./overlay.js";
import { noteArc, noteFireWatch } from "./fire-watch.js";

/**
 * @typedef {import("./db.js").Database} Database
 * @typedef {import("./meta.js").Meta} Meta
 * @typedef {import("./shapes.js").Entry} Entry
 * @typedef {import("./shapes.js").EventRecord} EventRecord
 * @typedef {import("./shapes.js").Written} Written
 *
 * Takes what is being stored, to store it a second time beside.
 * @typedef {(meta: Meta, records: EventRecord[]) => void} Second
 */

/** A second tap on the arc button within this many ms is the same tap, unless something else was entered between. */
const bounce = 300;

/**
 * Stores entries, all or none.
 * @param {Database} db
 * @param {Entry[]} entries  checked; each with its id
 * @param {number} wall      the phone's clock in the handler, ms since 1970
 * @param {Second} [second]
 * @returns {Promise<Written>}
 */
export function tap(db, entries, wall, second) {
  return db.run(["event", "meta"], "readwrite", async (tx) => {
    const meta = await readMeta(tx);
    assertAtHome(meta);
    const events = tx.objectStore("event");
    /** @type {EventRecord[]} */
    const records = [];
    let l = 0;
    for (const entry of entries) {
      const known = await resultOf(events.get(/** @type {string} */ (entry.id)));
      if (known) {
        l = known.l; // a first try that got through although its connection was lost
        continue;
      }
      const target = entry.kind === "amend" || entry.kind === "void" ? await resultOf(events.get(/** @type {string} */ (entry.body.of))) : undefined;
      const inside = entry.in ?? (target && JSON.parse(target.raw).in);
      records.push(put(tx, meta, { ...entry, in: inside }, wall));
      if (entry.kind === "void" && entry.body.on) forgetArc(meta, entry.body.of);
      noteSession(meta, entry);
      noteInOverlay(meta, entry, millis(meta.clock));
      await noteGate(events, meta, { ...entry, in: inside });
      await noteFireWatch(events, meta, { ...entry, in: inside });
      meta.arcAt = {};
    }
    writeMeta(tx, meta);
    second?.(meta, records);
    return written(meta, entries.map((entry) => /** @type {string} */ (entry.id)), records.at(-1)?.l ?? l);
  });
}

/**
 * Starts or stops the arc of a rig, as the screen offered.
 * @param {Database} db
 * @param {"start"|"stop"} offered
 * @param {{rig: string, in?: string, starts?: number, cut?: string}} arc  cut: the row of the job
 * @param {number} wall
 * @param {string} id  of the entry, so that a second try is the same entry
 * @param {Second} [second]
 * @returns {Promise<Written>}
 */
export function tapArc(db, offered, arc, wall, id, second) {
  const { rig, cut } = arc;
  return db.run(["event", "meta"], "readwrite", async (tx) => {
    const meta = await readMeta(tx);
    assertAtHome(meta);
    const known = await resultOf(tx.objectStore("event").get(id));
    if (known) return written(meta, [id], known.l);
    const running = Object.hasOwn(meta.arc, rig) ? meta.arc[rig] : undefined; // a rig may be called what every object has
    const tapped = Object.hasOwn(meta.arcAt, rig) ? meta.arcAt[rig] : -Infinity;
    const isSo = offered === "start" ? running !== undefined : running === undefined;
    if (isSo || Math.abs(wall - tapped) < bounce) return written(meta, [], 0);
    /** @type {EventRecord[]} */
    const records = [];
    if (offered === "start") {
      records.push(put(tx, meta, { id, kind: "arc.started", in: arc.in, body: cut ? { rig, cut } : { rig } }, wall));
      const start = millis(meta.clock);
      meta.arc = { ...meta.arc, [rig]: { id, start, in: arc.in ?? "" } };
      noteArc(meta, { rig, session: arc.in ?? "", start });
    } else if (running) {
      const body = arc.starts === undefined ? { of: running.id } : { of: running.id, starts: arc.starts };
      records.push(put(tx, meta, { id, kind: "arc.stopped", in: arc.in ?? (running.in || undefined), body }, wall));
      delete meta.arc[rig];
      noteArc(meta, { rig, session: running.in, start: running.start, stop: millis(meta.clock) });
    }
    meta.arcAt = { ...meta.arcAt, [rig]: wall };
    writeMeta(tx, meta);
    second?.(meta, records);
    return written(meta, [id], records[0].l);
  });
}

/** Stamps and stores one entry and raises meta for it. @param {IDBTransaction} tx @param {Meta} meta @param {Entry} entry @param {number} wall */
function put(tx, meta, entry, wall) {
  meta.device ||= newId();
  meta.clock = stamp(meta.clock, wall, meta.offset);
  const zone = -new Date(wall).getTimezoneOffset() || 0; // never −0
  const raw = write(entry, meta.clock, [wall, zone], meta.device);
  /** @type {EventRecord} */
  const record = { id: /** @type {string} */ (entry.id), raw, t: meta.clock, l: 0, unsent: 1 };
  putRecord(tx, meta, record);
  return record;
}

/** Which session is open is known at once. @param {Meta} meta @param {Entry} entry */
function noteSession(meta, { kind, about = "", body }) {
  if (kind === "session.opened") meta.session = { id: about, rig: body.rig ?? "", job: body.job ?? "", ms: 0, starts: 0 };
  if (kind === "session.set" && meta.session?.id === about && body.job) meta.session = { ...meta.session, job: body.job };
  if (kind === "session.closed" && meta.session?.id === about) meta.session = null;
}

/** A hidden arc does not run. @param {Meta} meta @param {string|undefined} id */
function forgetArc(meta, id) {
  for (const [rig, arc] of Object.entries(meta.arc)) if (arc.id === id) delete meta.arc[rig];
}

/** @param {Meta} meta @param {string[]} ids @param {number} l @returns {Written} */
function written(meta, ids, l) {
  return { written: ids.length > 0, id: ids.at(-1) ?? "", ids, l, arc: meta.arc };
}
