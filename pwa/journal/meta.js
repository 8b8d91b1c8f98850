// @ts-check
/**
 * The one record of store meta, and the records of store event; see "Meta" and "An entry" in
 * calc/journal/states.md. A field that is missing counts as the value in blank.
 */

import { firstStamp } from "./clock.js";
import { resultOf } from "./db.js";
import { emptyOverlay } from "./overlay.js";

/**
 * @typedef {import("../calc/trouble.js").Trouble} Trouble
 * @typedef {import("../types/journal.js").RunningArc} Arc
 */

/** What the phone itself keeps, beside the fields of the sync, which Go alone reads and writes. */
const blank = {
  crew: "",
  cursor: 0,
  gen: 0,
  turn: 0,
  maxO: "",
  offset: 0,
  max: 0,
  backedUp: 0,
  heard: 0,
  wait: 0,
  /** Older entries are still to come until the cursor is here. */
  coming: 0,
  batch: 500,
  clock: firstStamp,
  device: "",
  nextL: 1,
  /** How many entries are to be sent and were put aside, while nextL is what it is here (records.js). */
  count: { nextL: 1, unsent: 0, aside: 0 },
  /** The build of the app that last ran here. */
  build: "",
  /** Raised, as a random name, by each write to the snapshot. */
  ladder: "",
  stopped: /** @type {Trouble|null} */ (null),
  arc: /** @type {Record<string, Arc>} */ ({}),
  /** When a tap last changed the arc of a rig, by this phone's clock in ms; not there once something else was entered. */
  arcAt: /** @type {Record<string, number>} */ ({}),
  /** The open session. */
  session: /** @type {import("./shapes.js").ShownSession|null} */ (null),
  /** What may-i-cut told, as in view now; null before the first fold. */
  gate: /** @type {import("../types/journal.js").Gate|null} */ (null),
  /** Open fire watches, as in view now; null before the first fold. */
  watch: /** @type {import("../types/journal.js").FireWatch[]|null} */ (null),
  /** Watches that a tap has ended or removed, with the id of what ended them; the latest few. */
  unwatched: /** @type {(import("../types/journal.js").FireWatch & {by: string})[]} */ ([]),
  /** When an arc of this phone went off last. */
  lastArc: /** @type {{rig: string, in: string, at: number}|null} */ (null),
  /** What was entered here since the fold was last at its end. */
  since: emptyOverlay,
  // Of the local database only: the crew this phone is in, a join under way, the crews it was ever in.
  home: "",
  joining: /** @type {import("./shapes.js").Joining|null} */ (null),
  crews: /** @type {string[]} */ ([]),
  /** Of a crew's database only: this phone has left that crew. */
  left: false,
};

/** With the fields of the sync, which Go alone reads and writes. @typedef {typeof blank & Partial<import("../types/journal.js").Meta>} Meta */

const key = "meta";

/** @param {IDBTransaction} tx @returns {Promise<Meta>} */
export async function readMeta(tx) {
  return { ...structuredClone(blank), ...(await resultOf(tx.objectStore("meta").get(key))) };
}

/** @param {IDBTransaction} tx @param {Meta} meta */
export function writeMeta(tx, meta) {
  tx.objectStore("meta").put(meta, key);
}

/** The crew that this phone went to from here, "" for the local journal, null if it is at home here. @param {Meta} meta */
export function movedTo({ home, left }) {
  return home || left ? home : null;
}

/** Throws where the phone went to, if it did. @param {Meta} meta */
export function assertAtHome(meta) {
  const home = movedTo(meta);
  if (home !== null) throw { home };
}

/** Range of index unsent: what is to be sent (1) or was put aside (2). @param {1|2} which */
export function unsentRange(which) {
  return IDBKeyRange.bound([which], [which, []]);
}
