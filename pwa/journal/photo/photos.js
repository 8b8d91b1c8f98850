// @ts-check
/**
 * Pictures in the phone's store, each under the hash of its bytes, and the list of those that the
 * server lacks. A picture is stored before the entry that tells of it: one without the other is then
 * only a picture that nobody asks for.
 */

import { resultOf } from "../db.js";
import { readMeta, assertAtHome } from "../meta.js";
import { referrersOf } from "./referrers.js";

/**
 * @typedef {import("../db.js").Database} Database
 * @typedef {{sha256: string, type: string, bytes: ArrayBuffer}} Picture
 *
 * What waits for the server, oldest first. event: id of the photo.added that tells of it, "" if the
 * server holds that for certain; tried: a try broke off, so the server may have it; why: it said why not now.
 * @typedef {{sha256: string, event: string, tried?: boolean, why?: string}} Waiting
 *
 * What is marked on a picture that is no entry yet, as some version kept it.
 * @typedef {{list?: {x: number, y: number, group: string}[], found?: boolean, object?: string, width?: string, tilt?: unknown}} DraftMarks
 *
 * One that the server will never take, with its answer.
 * @typedef {{sha256: string, event: string, why: string}} Refused
 */

/** The key of the list of what waits: {sha256: the key, gen, list, refused}. */
export const waitingKey = "waiting";
/** The key of the list of other phones' pictures that were looked at, oldest first: {sha256: the key, list: {sha256, size}[]}. */
export const seenKey = "seen";
/** How much room these take at most, bytes. */
const seenRoom = 50_000_000;
/** The keys of the picture that is being marked and is no entry yet, and of its marks, {sha256: draftMarks, marks}. */
const draft = "draft";
const draftMarks = "draft-marks";

export class Photos {
  /** @param {Database} db */
  constructor(db) {
    this.db = db;
  }

  /**
   * Stores a picture; resolves when it is on the phone's disk.
   * @param {Picture} picture
   * @param {string} event  id of the photo.added that will tell of it
   */
  keep({ sha256, type, bytes }, event) {
    const put = () => this.db.run(["photo", "meta"], "readwrite", async (tx) => {
      assertAtHome(await readMeta(tx));
      const record = await read(tx);
      tx.objectStore("photo").put({ sha256, type, bytes });
      record.list.push({ sha256, event });
      tx.objectStore("photo").put(record);
      await unsee(tx, [sha256]); // it is this phone's own now
    });
    return put().catch(async (trouble) => {
      if (trouble?.name !== "QuotaExceededError") throw trouble;
      await this.forgetSeen();
      return put();
    });
  }

  /**
   * Stores a picture of another phone that was fetched from the server, while its entry stands; the
   * oldest such ones make room for it.
   * @param {Picture} picture
   * @param {string} event  id of the photo.added that tells of it
   * @param {number} [room] bytes
   */
  see({ sha256, type, bytes }, event, room = seenRoom) {
    return this.db.run(["photo", "event", "meta"], "readwrite", async (tx) => {
      const photos = tx.objectStore("photo");
      const entry = await resultOf(tx.objectStore("event").get(event));
      if (!entry || !entry.raw.includes(sha256) || (await resultOf(photos.getKey(sha256)))) return;
      photos.put({ sha256, type, bytes });
      await forget(tx, room, [{ sha256, size: bytes.byteLength }]);
    });
  }

  /** Drops the pictures of other phones, which the server has. */
  forgetSeen() {
    return this.db.run(["photo", "meta"], "readwrite", forgetSeen);
  }

  /** @param {string} sha256 @returns {Promise<Picture|null>} null if this phone has it not */
  async get(sha256) {
    const found = await this.db.run(["photo"], "readonly", (tx) => resultOf(tx.objectStore("photo").get(sha256)));
    return found?.bytes ? found : null;
  }

  /** Keeps the picture that is being marked, drawn anew, in place of the one before. @param {{type: string, bytes: ArrayBuffer}} picture @param {DraftMarks} [marks] */
  keepDraft({ type, bytes }, marks) {
    return this.db.run(["photo"], "readwrite", (tx) => {
      tx.objectStore("photo").put({ sha256: draft, type, bytes, drawn: true });
      if (marks) tx.objectStore("photo").put({ sha256: draftMarks, marks });
      else tx.objectStore("photo").delete(draftMarks);
    });
  }

  /** Keeps what is marked on it. @param {DraftMarks} marks */
  markDraft(marks) {
    return this.db.run(["photo"], "readwrite", (tx) => void tx.objectStore("photo").put({ sha256: draftMarks, marks }));
  }

  /** The picture that was being marked with its marks, or null. @returns {Promise<(Picture & {drawn?: boolean, marks?: DraftMarks})|null>} */
  async draft() {
    const picture = await this.get(draft);
    const record = await this.db.run(["photo"], "readonly", (tx) => resultOf(tx.objectStore("photo").get(draftMarks)));
    return picture && { ...picture, marks: record?.marks };
  }

  /** It became an entry. */
  dropDraft() {
    return this.db.run(["photo"], "readwrite", (tx) => {
      tx.objectStore("photo").delete(draft);
      tx.objectStore("photo").delete(draftMarks);
    });
  }

  /**
   * The oldest picture whose entry the server has, or null.
   * @returns {Promise<(Picture & Waiting)|null>}
   */
  next() {
    return this.db.run(["photo", "event", "meta"], "readwrite", async (tx) => {
      const meta = await readMeta(tx);
      const record = await read(tx);
      if (record.gen !== meta.gen) await askAgain(tx, record, meta.gen);
      for (const waiting of record.list) {
        if (waiting.event && !(await resultOf(tx.objectStore("event").get(waiting.event)))?.n) continue;
        const picture = await resultOf(tx.objectStore("photo").get(waiting.sha256));
        if (picture) return { ...picture, ...waiting };
        record.list = record.list.filter((other) => other !== waiting); // erased: there is nothing to send
        tx.objectStore("photo").put(record);
      }
      return null;
    });
  }

  /** How many pictures are only here, for the server may lack them. @returns {Promise<number>} */
  async waiting() {
    return (await this.held()).n;
  }

  /** The same, with why the server would not have one for now, "" if it said nothing. @returns {Promise<{n: number, why: string}>} */
  async held() {
    const record = await this.db.run(["photo"], "readonly", (tx) => resultOf(tx.objectStore("photo").get(waitingKey)));
    const list = /** @type {Waiting[]} */ (record?.list ?? []);
    return { n: list.length, why: list.find(({ why }) => why)?.why ?? "" };
  }

  /** The server has it. @param {string} sha256 */
  done(sha256) {
    return this.#edit((record) => take(record, sha256));
  }

  /** The server will never take it. @param {string} sha256 @param {string} why */
  refused(sha256, why) {
    return this.#edit((record) => {
      const [one] = take(record, sha256);
      record.refused = [...record.refused.filter((other) => other.sha256 !== sha256), { sha256, event: one?.event ?? "", why }];
    });
  }

  /** A try broke off (status 0), or was refused for now. @param {string} sha256 @param {{status: number, why: string}} reply */
  tried(sha256, { status, why }) {
    return this.#edit((record) => {
      for (const waiting of record.list) if (waiting.sha256 === sha256) Object.assign(waiting, { why }, status === 0 && { tried: true });
    });
  }

  // Private

  /** @param {(record: Awaited<ReturnType<typeof read>>) => void} edit */
  #edit(edit) {
    return this.db.run(["photo", "meta"], "readwrite", async (tx) => {
      const record = await read(tx);
      edit(record);
      tx.objectStore("photo").put(record);
    });
  }
}

/**
 * Drops pictures that were erased, unless an entry that is left tells of them.
 * @param {IDBTransaction} tx  over event, photo and meta
 * @param {string[]} sums
 */
export async function dropPictures(tx, sums) {
  const photos = tx.objectStore("photo");
  const keys = await Promise.all(sums.map((sha256) => resultOf(photos.getKey(sha256))));
  const here = new Set(sums.filter((_, i) => keys[i] !== undefined));
  if (here.size === 0) return;
  const told = await referrersOf(tx, here);
  const gone = [...here].filter((sha256) => !told.has(sha256));
  const record = await read(tx);
  for (const sha256 of gone) {
    photos.delete(sha256);
    take(record, sha256);
  }
  record.refused = record.refused.filter(({ sha256 }) => !gone.includes(sha256));
  photos.put(record);
  await unsee(tx, gone);
}

/** Adds what waits in another database, once. @param {IDBTransaction} tx @param {{list: Waiting[], refused: (Refused|string)[]}} other */
export async function mergeWaiting(tx, other) {
  const record = await read(tx);
  const known = new Set(record.list.map(({ sha256, event }) => sha256 + event));
  record.list.push(...other.list.filter(({ sha256, event }) => !known.has(sha256 + event)));
  const all = [...record.refused, ...refusedOf(other)];
  record.refused = [...new Map(all.map((one) => [one.sha256, one])).values()];
  tx.objectStore("photo").put(record);
}

/** What was refused; earlier versions noted nothing but the hash. @param {{refused: (Refused|string)[]}|undefined} record @returns {Refused[]} */
export function refusedOf(record) {
  return (record?.refused ?? []).map((one) => (typeof one === "string" ? { sha256: one, event: "", why: "" } : one));
}

/** @param {IDBTransaction} tx @returns {Promise<{sha256: string, gen: number, list: Waiting[], refused: Refused[]}>} */
async function read(tx) {
  const record = await resultOf(tx.objectStore("photo").get(waitingKey));
  return record ? { ...record, refused: refusedOf(record) } : { sha256: waitingKey, gen: (await readMeta(tx)).gen, list: [], refused: [] };
}

/** Takes a picture out of what waits, and returns what stood there. @param {{list: Waiting[]}} record @param {string} sha256 */
function take(record, sha256) {
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
async function forget(tx, room, more = []) {
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
async function unsee(tx, sums) {
  const { list, ...seen } = await readSeen(tx);
  const left = list.filter(({ sha256 }) => !sums.includes(sha256));
  if (left.length < list.length) tx.objectStore("photo").put({ ...seen, list: left });
}

/** The server's history is another one: it may lack any picture. Each follows an entry that the server has again. @param {IDBTransaction} tx @param {{gen: number, list: Waiting[]}} record @param {number} gen */
async function askAgain(tx, record, gen) {
  const waiting = new Set([waitingKey, seenKey, draft, draftMarks, ...record.list.map(({ sha256 }) => sha256)]);
  const all = /** @type {string[]} */ (await resultOf(tx.objectStore("photo").getAllKeys()));
  const more = all.filter((sha256) => !waiting.has(sha256));
  const told = await referrersOf(tx, new Set(more));
  record.list.push(...more.map((sha256) => ({ sha256, event: told.get(sha256)?.[0].id ?? "", tried: true })));
  record.gen = gen;
  tx.objectStore("photo").put(record);
}
