// @ts-check
/**
 * The two transactions around a sync request. See journal-apply in calc/journal/engine.md.
 */

import { settle } from "../journal/clock.js";
import { resultOf } from "../journal/db.js";
import { readMeta, unsentRange, writeMeta } from "../journal/meta.js";
import { forgetSeen } from "../journal/photo/waiting.js";
import { dropPictures } from "./photo-queue.js";
import { isCounted, putRecord, recount } from "../journal/records.js";

/**
 * @typedef {import("../journal/db.js").Database} Database
 * @typedef {import("../journal/meta.js").Meta} Meta
 * @typedef {import("../journal/shapes.js").Applied} Applied
 * @typedef {import("../journal/shapes.js").EventRecord} EventRecord
 * @typedef {import("../types/journal.js").Change} Change
 * @typedef {import("../journal/shapes.js").Exchange} Exchange
 */

/** One more than a request can carry, so that Go sees that more is waiting. */
const most = 501;
/** How many arrivals a reply brings at most: what is promised further up is not decided by it. */
const reach = 1000;

/**
 * Reads meta, the oldest entries to send, and the numbers promised above the cursor that a reply
 * can decide: those that it may reach, and the highest. A phone that has just joined holds thousands.
 * @param {Database} db
 * @param {string[]} extra  ids of further records to read
 * @returns {Promise<Exchange>}
 */
export function readExchange(db, extra = []) {
  return db.run(["event", "meta"], "readonly", async (tx) => {
    const events = tx.objectStore("event");
    const meta = await readMeta(tx);
    const [list, promised, highest, ...more] = await Promise.all([
      resultOf(events.index("unsent").getAll(unsentRange(1), most)),
      resultOf(events.index("n").getAll(IDBKeyRange.bound(meta.cursor, meta.cursor + reach, true))),
      resultOf(events.index("n").openKeyCursor(IDBKeyRange.lowerBound(meta.cursor + reach, true), "prev")),
      ...extra.map((id) => resultOf(events.get(id))),
    ]);
    const ids = new Set(list.map((record) => record.id));
    for (const record of more) if (record && !ids.has(record.id)) list.push(record);
    if (highest) promised.push({ id: highest.primaryKey, n: highest.key });
    return { meta, unsent: list, promised: promised.map(({ id, n }) => ({ id, n })) };
  });
}

/** Whether anything is to be sent. @param {Database} db @returns {Promise<boolean>} */
export async function isWaiting(db) {
  return (await db.run(["event"], "readonly", (tx) => resultOf(tx.objectStore("event").index("unsent").getKey(unsentRange(1))))) !== undefined;
}

/**
 * Writes a change, unless the replica has moved since its exchange was read.
 * @param {Database} db
 * @param {Exchange} exchange
 * @param {Change} change
 * @returns {Promise<Applied>}
 */
export function applyChange(db, exchange, change) {
  return db.run(["event", "meta", "photo"], "readwrite", async (tx) => {
    const meta = await readMeta(tx);
    const was = exchange.meta;
    if (meta.cursor !== was.cursor || meta.gen !== was.gen || meta.turn !== was.turn) return { done: false, clash: [] };
    const records = await readRecords(tx, change);
    const clash = clashes(records, exchange, change);
    if (clash.length > 0) return { done: false, clash };
    const l = writeRecords(tx, meta, records, change);
    await dropPictures(tx, change.drop ?? []);
    Object.assign(meta, change.meta);
    if (change.say?.kind === "revoked") await forgetSeen(tx); // they are the crew's
    if (!isCounted(meta)) await recount(tx, meta);
    meta.clock = settle(meta.clock, meta.maxO, meta.count.unsent > 0);
    writeMeta(tx, meta);
    return { done: true, l, unsent: meta.count.unsent };
  });
}

/** Every record that a change may touch. @param {IDBTransaction} tx @param {Change} change @returns {Promise<Map<string, EventRecord>>} */
async function readRecords(tx, { forget, put = [], ack = [], unsend = [], aside = [] }) {
  const events = tx.objectStore("event");
  const ids = new Set([...put, ...ack, ...aside].map(({ id }) => id).concat(unsend));
  const forgotten = forget === undefined ? [] : resultOf(events.index("n").getAll(IDBKeyRange.lowerBound(forget, true)));
  const found = await Promise.all([...ids].map((id) => resultOf(events.get(id))));
  return new Map([...(await forgotten), ...found].filter(Boolean).map((record) => [record.id, record]));
}

/** Ids that the store holds with other bytes than the change brings, if one is unknown to the exchange. @param {Map<string, EventRecord>} records @param {Exchange} exchange @param {Change} change */
function clashes(records, exchange, { put = [] }) {
  const known = new Set(exchange.unsent.map(({ id }) => id));
  const ids = put.filter(({ id, raw }) => records.has(id) && records.get(id)?.raw !== raw).map(({ id }) => id);
  return ids.every((id) => known.has(id)) ? [] : ids;
}

/** Changes records in the order of doc.go; returns the last l given. @param {IDBTransaction} tx @param {Meta} meta @param {Map<string, EventRecord>} records @param {Change} change */
function writeRecords(tx, meta, records, { forget, put = [], ack = [], unsend = [], aside = [] }) {
  /** The records that change, each with what it was. @type {Map<string, EventRecord|undefined>} */
  const before = new Map();
  /** @param {EventRecord|undefined} was @param {EventRecord} now */
  const set = (was, now) => {
    if (was && isSame(was, now)) return;
    if (!before.has(now.id)) before.set(now.id, was);
    records.set(now.id, now);
  };
  /** @param {string} id @param {(record: EventRecord) => EventRecord} edit */
  const edit = (id, edit) => {
    const record = records.get(id);
    if (record) set(record, edit(record));
  };
  if (forget !== undefined) for (const { id, n = 0 } of [...records.values()]) if (n > forget) edit(id, numbered);
  for (const { id, raw, t, o, n } of put) set(records.get(id), numbered({ id, raw, t, l: 0 }, n, o));
  for (const { id, n, o } of ack) edit(id, (record) => numbered(record, n, o));
  for (const id of unsend) edit(id, numbered);
  for (const { id, error } of aside) edit(id, ({ n, ...record }) => ({ ...record, unsent: 2, aside: { kind: error.kind, msg: error.msg } }));
  for (const [id, was] of before) putRecord(tx, meta, /** @type {EventRecord} */ (records.get(id)), was);
  return before.size > 0 ? meta.nextL - 1 : 0;
}

/** The record as the server holds it, or, without n, as it is to be sent. @param {EventRecord} record @param {number} [n] @param {string} [o] @returns {EventRecord} */
function numbered({ id, raw, t, l, o: had }, n, o = had) {
  /** @type {EventRecord} */
  const record = { id, raw, t, l };
  if (o !== undefined) record.o = o;
  if (n) record.n = n;
  else record.unsent = 1;
  return record;
}

/** Whether two records differ in nothing but l. @param {EventRecord} a @param {EventRecord} b */
function isSame(a, b) {
  return a.raw === b.raw && a.t === b.t && a.o === b.o && a.n === b.n && a.unsent === b.unsent && a.aside?.msg === b.aside?.msg;
}
