// @ts-check
/**
 * Pictures in the phone's store, each under the hash of its bytes, and the list of those that the
 * server lacks. A picture is stored before the entry that tells of it: one without the other is then
 * only a picture that nobody asks for.
 */

import { asked } from "../db.js";
import { readMeta, stay } from "../meta.js";

/**
 * @typedef {import("../db.js").Database} Database
 * @typedef {{sha256: string, type: string, bytes: ArrayBuffer}} Picture
 *
 * What waits for the server, oldest first. event: id of the photo.added that tells of it, "" if the
 * server holds that for certain; tried: a try broke off, so the server may have it.
 * @typedef {{sha256: string, event: string, tried?: boolean}} Waiting
 */

/** The key of the one record that is no picture: {sha256: the key, gen, list, refused}. */
export const waitingKey = "waiting";
/** The keys of the picture that is being marked and is no entry yet, and of its marks, {sha256: draftMarks, marks: any}. */
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
    return this.db.run(["photo", "meta"], "readwrite", async (tx) => {
      stay(await readMeta(tx));
      const record = await read(tx);
      tx.objectStore("photo").put({ sha256, type, bytes });
      record.list.push({ sha256, event });
      tx.objectStore("photo").put(record);
    });
  }

  /** @param {string} sha256 @returns {Promise<Picture|null>} null if this phone has it not */
  async get(sha256) {
    const found = await this.db.run(["photo"], "readonly", (tx) => asked(tx.objectStore("photo").get(sha256)));
    return found?.bytes ? found : null;
  }

  /** Keeps the picture that is being marked, drawn anew, in place of the one before. @param {{type: string, bytes: ArrayBuffer}} picture @param {any} [marks] */
  keepDraft({ type, bytes }, marks) {
    return this.db.run(["photo"], "readwrite", (tx) => {
      tx.objectStore("photo").put({ sha256: draft, type, bytes, drawn: true });
      if (marks) tx.objectStore("photo").put({ sha256: draftMarks, marks });
      else tx.objectStore("photo").delete(draftMarks);
    });
  }

  /** Keeps what is marked on it. @param {any} marks */
  markDraft(marks) {
    return this.db.run(["photo"], "readwrite", (tx) => void tx.objectStore("photo").put({ sha256: draftMarks, marks }));
  }

  /** The picture that was being marked with its marks, or null. @returns {Promise<(Picture & {drawn?: boolean, marks?: any})|null>} */
  async draft() {
    const picture = await this.get(draft);
    const record = await this.db.run(["photo"], "readonly", (tx) => asked(tx.objectStore("photo").get(draftMarks)));
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
        if (waiting.event && !(await asked(tx.objectStore("event").get(waiting.event)))?.n) continue;
        const picture = await asked(tx.objectStore("photo").get(waiting.sha256));
        if (picture) return { ...picture, ...waiting };
        record.list = record.list.filter((other) => other !== waiting); // erased: there is nothing to send
        tx.objectStore("photo").put(record);
      }
      return null;
    });
  }

  /** How many pictures are only here, for the server may lack them. @returns {Promise<number>} */
  waiting() {
    return this.db.run(["photo"], "readonly", async (tx) => (await asked(tx.objectStore("photo").get(waitingKey)))?.list.length ?? 0);
  }

  /** The server has it, or will never take it. @param {string} sha256 @param {boolean} [refused] */
  done(sha256, refused = false) {
    return this.#edit((record) => {
      record.list = record.list.filter((waiting) => waiting.sha256 !== sha256);
      if (refused) record.refused.push(sha256);
    });
  }

  /** A try broke off. @param {string} sha256 */
  tried(sha256) {
    return this.#edit((record) => {
      for (const waiting of record.list) if (waiting.sha256 === sha256) waiting.tried = true;
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

/** Adds what waits in another database, once. @param {IDBTransaction} tx @param {{list: Waiting[], refused: string[]}} other */
export async function mergeWaiting(tx, { list, refused }) {
  const record = await read(tx);
  const known = new Set(record.list.map(({ sha256, event }) => sha256 + event));
  record.list.push(...list.filter(({ sha256, event }) => !known.has(sha256 + event)));
  record.refused = [...new Set([...record.refused, ...refused])];
  tx.objectStore("photo").put(record);
}

/** @param {IDBTransaction} tx @returns {Promise<{sha256: string, gen: number, list: Waiting[], refused: string[]}>} */
async function read(tx) {
  return (await asked(tx.objectStore("photo").get(waitingKey))) ?? { sha256: waitingKey, gen: (await readMeta(tx)).gen, list: [], refused: [] };
}

/** The server's history is another one: it may lack any picture. @param {IDBTransaction} tx @param {{gen: number, list: Waiting[]}} record @param {number} gen */
async function askAgain(tx, record, gen) {
  const waiting = new Set([waitingKey, draft, draftMarks, ...record.list.map(({ sha256 }) => sha256)]);
  const all = /** @type {string[]} */ (await asked(tx.objectStore("photo").getAllKeys()));
  record.list.push(...all.filter((sha256) => !waiting.has(sha256)).map((sha256) => ({ sha256, event: "", tried: true })));
  record.gen = gen;
  tx.objectStore("photo").put(record);
}
