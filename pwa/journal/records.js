// @ts-check
/**
 * The one place that writes store event, and how an entry is read out of it. Each write keeps meta.count, how many entries are to be sent
 * and how many were put aside, so that a screen need not count them. The caller writes meta.
 */

import { millis } from "./clock.js";
import { resultOf } from "./db.js";
import { unsentRange } from "./meta.js";

/**
 * @typedef {import("./meta.js").Meta} Meta
 * @typedef {import("./shapes.js").EventRecord} EventRecord
 */

/**
 * Stores a record under the next change number, which it sets.
 * @param {IDBTransaction} tx
 * @param {Meta} meta
 * @param {EventRecord} record
 * @param {EventRecord} [was]  the record that it replaces
 */
export function putRecord(tx, meta, record, was) {
  record.l = meta.nextL++;
  if (meta.count.nextL === record.l) {
    note(meta, record, 1);
    if (was) note(meta, was, -1);
    meta.count.nextL = meta.nextL;
  }
  tx.objectStore("event").put(record);
}

/**
 * An entry as it was written, when what it tells of happened, and its place among those of the same ms,
 * as in calc/journal/event.md; null if it is not here.
 * @param {IDBObjectStore} events @param {string|undefined} id
 */
export async function readEvent(events, id) {
  const record = await resultOf(events.get(/** @type {string} */ (id)));
  if (!record) return null;
  const event = JSON.parse(record.raw);
  const o = record.o ?? record.t;
  return { event, at: event.at ?? millis(o), place: o + record.t + record.id };
}

/** @param {IDBTransaction} tx @param {Meta} meta @param {EventRecord} record */
export function deleteRecord(tx, meta, record) {
  if (isCounted(meta)) note(meta, record, -1);
  tx.objectStore("event").delete(record.id);
}

/** Whether the count is of now: a version of the app that does not keep it may have written meanwhile. @param {Meta} meta */
export function isCounted({ count, nextL }) {
  return count.nextL === nextL;
}

/** Counts anew, which takes long where much is unsent. @param {IDBTransaction} tx  over event at least @param {Meta} meta */
export async function recount(tx, meta) {
  const index = tx.objectStore("event").index("unsent");
  const [sends, aside] = await Promise.all([resultOf(index.count(unsentRange(1))), resultOf(index.count(unsentRange(2)))]);
  meta.count = { nextL: meta.nextL, unsent: sends, aside };
}

/** @param {Meta} meta @param {EventRecord} record @param {1|-1} by */
function note({ count }, record, by) {
  if (record.unsent === 1) count.unsent += by;
  if (record.unsent === 2) count.aside += by;
}
