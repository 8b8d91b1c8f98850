// @ts-check
/**
 * What is this phone's own and never goes into the journal: its settings, and what is half entered. It
 * is read from localStorage, which holds up no first paint but which browsers write up to half a
 * minute late; a database of its own, which pages alone use, has the truth, and corrects it at the next
 * start. Each value has a number; the higher is the newer.
 *
 * Event: "corrected", when values turn out to be other than get() has told.
 */

import { drop, find, keep, keysUnder } from "../browser/storage.js";
import { resultOf, Database } from "./db.js";

/** What is kept: parts/settings.js, parts/drafts.js and today.js say the names. @typedef {"settings"|`draft.${string}`} Name */
/**
 * A value that was removed has none.
 * @typedef {{value?: unknown, at: number}} Valued
 */

const prefix = "kerfside.";
/** A Name, among the keys of others. */
const names = /^(settings$|draft\.)/;
/** How long it is remembered that a value was removed, ms: far longer than localStorage is late. */
const longPast = 86_400_000;

export class LocalState extends EventTarget {
  /** What this tab set or read from the disk. @type {Map<Name, Valued>} */ #here = new Map();
  /** @type {Set<Name>} */ #unwritten = new Set();
  /** @type {Promise<void>|null} */ #writing = null;

  /** @param {{factory?: IDBFactory, copy?: import("./second-copy.js").SecondCopy, clock?: () => number}} [deps] */
  constructor({ factory, copy, clock = Date.now } = {}) {
    super();
    this.db = new Database("kerfside.own", { factory });
    this.copy = copy;
    this.clock = clock;
  }

  /** @param {Name} name @returns {any} undefined if it was never set, or removed */
  get(name) {
    return this.#newest(name)?.value;
  }

  /** Sets a value; the disk has it once settled() resolves. @param {Name} name @param {unknown} value */
  set(name, value) {
    this.#take(name, { value, at: Math.max(this.clock(), (this.#newest(name)?.at ?? 0) + 1) });
    this.#unwritten.add(name);
    this.#writing ??= this.#write();
  }

  /** @param {Name} name */
  remove(name) {
    if (this.get(name) !== undefined) this.set(name, undefined);
  }

  /** The names of what is set. @returns {Name[]} */
  names() {
    return this.#all().map(([name]) => name).filter((name) => this.get(name) !== undefined);
  }

  /** Resolves when all that was set is stored, or cannot be. */
  async settled() {
    await this.#writing;
  }

  /** Reads the truth from the disk, and brings it there where the disk is behind. */
  async start() {
    this.merge(await this.db.run(["meta"], "readonly", valued));
    const past = this.clock() - longPast;
    for (const [name, { value, at }] of this.#all()) if (value === undefined && at < past) this.#forget(name);
  }

  /** Takes over what is newer than it is here. @param {[Name, Valued][]} list */
  merge(list) {
    const theirs = new Map(list);
    const newer = list.filter(([name, { at }]) => at > (this.#newest(name)?.at ?? -1));
    for (const [name, valued] of this.#all()) if (valued.at > (theirs.get(name)?.at ?? -1)) this.#unwritten.add(name);
    for (const [name, valued] of newer) {
      this.#take(name, valued);
      this.#unwritten.add(name); // a merge from the second copy: the disk lacks it
    }
    if (this.#unwritten.size > 0) this.#writing ??= this.#write();
    if (newer.length > 0) this.dispatchEvent(new Event("corrected"));
  }

  /** Resolves when the second copy of this tab has everything. */
  async copyAll() {
    await this.settled();
    await this.copy?.keepOwn(this.#all());
  }

  // Private

  /** @param {Name} name @returns {Valued|undefined} */
  #newest(name) {
    const [here, there] = [this.#here.get(name), mirrored(name)];
    return !here || (there && there.at > here.at) ? there : here;
  }

  /** @returns {[Name, Valued][]} */
  #all() {
    const kept = /** @type {Name[]} */ (keysUnder(prefix).map((key) => key.slice(prefix.length)));
    const all = [...new Set([...kept, ...this.#here.keys()])].filter((name) => names.test(name) && this.#newest(name));
    return all.map((name) => [name, /** @type {Valued} */ (this.#newest(name))]);
  }

  /** @param {Name} name @param {Valued} valued */
  #take(name, valued) {
    this.#here.set(name, valued);
    keep(`${prefix}${name}`, JSON.stringify(valued));
  }

  /** @param {Name} name */
  #forget(name) {
    this.#here.delete(name);
    drop(`${prefix}${name}`);
    this.db.run(["meta"], "readwrite", (tx) => void tx.objectStore("meta").delete(name), "relaxed");
  }

  /** Writes what is unwritten, again and again while more comes. */
  async #write() {
    while (this.#unwritten.size > 0) {
      const list = [...this.#unwritten].map((name) => /** @type {[Name, Valued]} */ ([name, this.#newest(name)]));
      this.#unwritten.clear();
      await Promise.allSettled([this.db.run(["meta"], "readwrite", (tx) => put(tx, list)), this.copy?.keepOwn(list)]);
    }
    this.#writing = null;
  }
}

/** What localStorage holds of a name. @param {Name} name @returns {Valued|undefined} */
function mirrored(name) {
  try {
    const found = JSON.parse(find(`${prefix}${name}`) ?? "null");
    if (found === null) return undefined;
    return Number.isInteger(found.at) ? found : { value: found, at: 0 }; // of an older version
  } catch {
    return undefined; // unreadable: as if it were not there
  }
}

/** Another tab may have written a newer one. @param {IDBTransaction} tx @param {[string, Valued][]} list */
async function put(tx, list) {
  const store = tx.objectStore("meta");
  for (const [name, valued] of list) if (!((await resultOf(store.get(name)))?.at > valued.at)) store.put(valued, name);
}

/** All values of a store. @param {IDBTransaction} tx @returns {Promise<[Name, Valued][]>} */
export async function valued(tx) {
  const store = tx.objectStore("meta");
  const [keys, values] = await Promise.all([resultOf(store.getAllKeys()), resultOf(store.getAll())]);
  return /** @type {[Name, Valued][]} */ (keys.map((key, i) => [String(key), values[i]])).filter(([name]) => names.test(name));
}
