// @ts-check
/**
 * The second copy of what is only on this phone. README.md says why there is one, and why each tab
 * writes into a storage bucket of its own that nobody writes into again once the tab is gone. Browsers
 * without buckets do not have the fault, and here nothing is kept.
 */

import { resultOf, Database } from "./db.js";
import { newId } from "./id.js";
import { valued } from "./local-state.js";

/**
 * What a bucket says of the phone that wrote it.
 * @typedef {{crew: string, device: string}} Whose
 * @typedef {Pick<import("./shapes.js").EventRecord, "id"|"raw"|"t"|"o">} Entry
 * @typedef {Entry & {db: string}} Copied  db: name of the database that it is a copy of
 * @typedef {{open: (name: string, options?: object) => Promise<{indexedDB: IDBFactory}>, keys: () => Promise<string[]>, delete: (name: string) => Promise<void>}} Buckets
 */

const prefix = "unsent-";
/** The key, in store meta of a bucket, of whose it is. */
const whoseKey = "whose";

export class SecondCopy {
  /** The entries that are in a bucket, and of which database. @type {Map<string, {db: string, o?: string}>} */
  held = new Map();
  /** @type {Promise<Database>|null} */ #own = null;
  /** The crew that this tab's bucket names. @type {string|undefined} */ crew;
  #name = "";
  #release = () => {};

  /** @param {{buckets?: Buckets, locks?: Pick<LockManager, "request">}} [deps] */
  constructor({ buckets = /** @type {Navigator & {storageBuckets: Buckets}} */ (globalThis.navigator)?.storageBuckets, locks = globalThis.navigator?.locks } = {}) {
    this.buckets = locks && buckets;
    this.locks = locks;
  }

  /**
   * Resolves when the entries are stored a second time. The disk may write them a little later (relaxed):
   * a killed browser loses nothing of what it handed to the system, and from a phone without battery
   * the store itself comes back once more, which the next start copies again.
   * @param {string} db  name of the database that has them
   * @param {Whose} whose
   * @param {Entry[]} entries
   */
  async keep(db, { crew, device }, entries) {
    if (!this.buckets) return;
    const own = await this.#open();
    await own.run(["event", "meta"], "readwrite", (tx) => {
      for (const { id, raw, t, o } of entries) tx.objectStore("event").put({ id, raw, t, o, db });
      tx.objectStore("meta").put({ crew, device }, whoseKey);
    }, "relaxed");
    this.crew = crew;
    for (const { id, o } of entries) this.held.set(id, { db, o });
  }

  /** Keeps what is this phone's own a second time too. @param {[import("./local-state.js").Name, import("./local-state.js").Valued][]} list */
  async keepOwn(list) {
    if (!this.buckets) return;
    const own = await this.#open();
    await own.run(["meta"], "readwrite", (tx) => {
      for (const [name, one] of list) tx.objectStore("meta").put(one, name);
    }, "relaxed");
  }

  /** The server has them now, or they were not stored after all. @param {string[]} ids */
  async drop(ids) {
    if (ids.length === 0 || !this.#own) return;
    const own = await this.#own;
    await own.run(["event"], "readwrite", (tx) => {
      for (const id of ids) tx.objectStore("event").delete(id);
    }, "relaxed");
    for (const id of ids) this.held.delete(id);
  }

  /** The page goes away: another may take what is here. */
  seal() {
    this.#own?.then((db) => db.close(), () => {});
    this.#own = null;
    this.crew = undefined;
    this.#release();
  }

  /** Whose the copies are that closed tabs left. @returns {Promise<Whose|undefined>} */
  async whose() {
    /** @type {Whose|undefined} */
    let found;
    await this.eachLeft(async (_, whose) => {
      if (!found?.crew && whose.device) found = whose;
      return false;
    });
    return found;
  }

  /**
   * Hands each bucket that a tab left to body, with whose it is and what was the phone's own; body says
   * whether it is done with, and if so it goes away.
   * @param {(bucket: Database, whose: Whose, own: [import("./local-state.js").Name, import("./local-state.js").Valued][]) => Promise<boolean>} body
   */
  async eachLeft(body) {
    for (const name of (await this.buckets?.keys().catch(() => [])) ?? []) { // none, where the browser shuts them
      if (!name.startsWith(prefix) || name === this.#name) continue;
      await this.locks?.request(name, { ifAvailable: true }, async (lock) => {
        if (!lock || !(await this.buckets.keys()).includes(name)) return; // its tab lives, or another tab was quicker
        const db = new Database("kerfside", { factory: (await this.buckets.open(name)).indexedDB });
        let isDone = false;
        try {
          const [whose, own] = await db.run(["meta"], "readonly", (tx) => Promise.all([resultOf(tx.objectStore("meta").get(whoseKey)), valued(tx)]));
          isDone = await body(db, whose ?? { crew: "", device: "" }, own);
        } catch {
          // It stays, and is tried again at the next start; the others are not to suffer.
        }
        db.close();
        if (isDone) await this.buckets.delete(name);
      });
    }
  }

  // Private

  /** @returns {Promise<Database>} */
  #open() {
    const opening = (this.#own ??= this.#make());
    opening.catch(() => {
      if (this.#own === opening) this.#own = null;
    });
    return opening;
  }

  async #make() {
    const name = (this.#name = prefix + newId().toLowerCase());
    await new Promise((held, failed) => {
      this.locks?.request(name, () => new Promise((release) => {
        this.#release = () => release(null);
        held(null);
      })).catch(failed);
    });
    const { indexedDB } = await this.buckets.open(name, { persisted: true });
    return new Database("kerfside", { factory: indexedDB });
  }
}
