// @ts-check
/** The pictures on their way to the server, as the worker takes them from the phone's store. */

import { resultOf } from "../journal/db.js";
import { readMeta } from "../journal/meta.js";
import { referrersOf } from "../journal/photo/referrers.js";
import { draft, draftMarks, read, seenKey, take, unsee, waitingKey } from "../journal/photo/waiting.js";

/**
 * @typedef {import("../journal/photo/photos.js").Picture} Picture
 * @typedef {import("../journal/photo/waiting.js").Waiting} Waiting
 */

export class PhotoQueue {
  /** @param {import("../journal/db.js").Database} db */
  constructor(db) {
    this.db = db;
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
