// @ts-check
/** The lists beside the pictures in the phone's store: what waits for the server, and other phones' pictures that were looked at. */

import { resultOf } from "../db.js";
import { readMeta } from "../meta.js";

/**
 * What waits for the server, oldest first. event: id of the photo.added that tells of it, "" if the
 * server holds that for certain; tried: a try broke off, so the server may have it; why: it said why not now.
 * @typedef {{sha256: string, event: string, tried?: boolean, why?: string}} Waiting
 *
 * One that the server will never take, with its answer.
 * @typedef {{sha256: string, event: string, why: string}} Refused
 */

/** The key of the list of what waits: {sha256: the key, gen, list, refused}. */
export const waitingKey = "waiting";
/** The key of the list of other phones' pictures that were looked at, oldest first: {sha256: the key, list: {sha256, size}[]}. */
export const seenKey = "seen";
/** The keys of the picture that is being marked and is no entry yet, and of its marks, {sha256: draftMarks, marks}. */
export const draft = "draft";
export const draftMarks = "draft-marks";

/** What was refused; earlier versions noted nothing but the hash. @param {{refused: (Refused|string)[]}|undefined} record @returns {Refused[]} */
export function refusedOf(record) {
  return (record?.refused ?? []).map((one) => (typeof one === "string" ? { sha256: one, event: "", why: "" } : one));
}

/** @param {IDBTransaction} tx @returns {Promise<{sha256: string, gen: number, list: Waiting[], refused: Refused[]}>} */
export async function read(tx) {
  const record = await resultOf(tx.objectStore("photo").get(waitingKey));
  return record ? { ...record, refused: refusedOf(record) } : { sha256: waitingKey, gen: (await readMeta(tx)).gen, list: [], refused: [] };
}

/** Takes a picture out of what waits, and returns what stood there. @param {{list: Waiting[]}} record @param {string} sha256 */
export function take(record, sha256) {
  const taken = record.list.filter((waiting) => waiting.sha256 === sha256);
  record.list = record.list.filter((waiting) => waiting.sha256 !== sha256);
  return taken;
}

/** @param {IDBTransaction} tx @returns {Promise<{sha256: string, list: {sha256: string, size: number}[]}>} */
async function readSeen(tx) {
  return (await resultOf(tx.objectStore("photo").get(seenKey))) ?? { sha256: seenKey, list: [] };
}

/** Drops the pictures of other phones, which the server has. @param {IDBTransaction} tx  over photo and meta */
export function forgetSeen(tx) {
  return forget(tx, 0);
}

/** Drops seen pictures, oldest first, until they fit, but none that the server may lack. @param {IDBTransaction} tx @param {number} room bytes @param {{sha256: string, size: number}[]} [more] seen now */
export async function forget(tx, room, more = []) {
  const seen = await readSeen(tx);
  const record = await read(tx);
  tx.objectStore("photo").put(record); // from now on it shows when the server's history is another one
  const lacking = new Set(record.list.map(({ sha256 }) => sha256));
  seen.list.push(...more);
  let size = seen.list.reduce((sum, one) => sum + one.size, 0);
  seen.list = seen.list.filter((one) => {
    if (size <= room || lacking.has(one.sha256)) return true;
    size -= one.size;
    tx.objectStore("photo").delete(one.sha256);
    return false;
  });
  tx.objectStore("photo").put(seen);
}

/** @param {IDBTransaction} tx @param {string[]} sums */
export async function unsee(tx, sums) {
  const { list, ...seen } = await readSeen(tx);
  const left = list.filter(({ sha256 }) => !sums.includes(sha256));
  if (left.length < list.length) tx.objectStore("photo").put({ ...seen, list: left });
}
