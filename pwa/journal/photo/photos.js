// @ts-check
/**
 * Pictures in the phone's store, each under the hash of its bytes, and the list of those that the
 * server lacks. A picture is stored before the entry that tells of it: one without the other is then
 * only a picture that nobody asks for.
 */

import { resultOf } from "../db.js";
import { readMeta, assertAtHome } from "../meta.js";
import { draft, draftMarks, forget, forgetSeen, read, refusedOf, unsee, waitingKey } from "./waiting.js";

/**
 * @typedef {import("../db.js").Database} Database
 * @typedef {import("./waiting.js").Waiting} Waiting
 * @typedef {import("./waiting.js").Refused} Refused
 * @typedef {{sha256: string, type: string, bytes: ArrayBuffer}} Picture
 *
 * What is marked on a picture that is no entry yet, as some version kept it.
 * @typedef {{list?: {x: number, y: number, group: string}[], found?: boolean, object?: string, width?: string, tilt?: unknown}} DraftMarks
 */

/** How much room these take at most, bytes. */
const seenRoom = 50_000_000;

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

  /** How many pictures are only here, for the server may lack them, and why it would not have one for now, "" if it said nothing. @returns {Promise<{n: number, why: string}>} */
  async held() {
    const record = await this.db.run(["photo"], "readonly", (tx) => resultOf(tx.objectStore("photo").get(waitingKey)));
    const list = /** @type {Waiting[]} */ (record?.list ?? []);
    return { n: list.length, why: list.find(({ why }) => why)?.why ?? "" };
  }
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
