// @ts-check
/**
 * The phone's store: one IndexedDB database for each crew. Stores and records are described in
 * calc/journal/states.md; index unsent is over [unsent, t], so that the oldest comes first.
 */

import { storeHealth } from "./store-health.js";

/** Name of each store. @typedef {"event"|"meta"|"view"|"snapshot"|"photo"} StoreName */

const version = 1;
/** How often an operation is tried on a fresh connection. Safari drops connections in the background. */
const tries = 3;
/**
 * A worker has one transaction in flight, whatever the database: one that is ended with two can leave
 * the database unable to run any, for good (Firefox, WebKit). Pages need no such line.
 */
const oneByOne = !("document" in globalThis);
/** The end of the line: settles when the last transaction that was asked for is over. */
let last = Promise.resolve();
/** The transaction in flight. @type {Promise<unknown>} */
let current = last;

/** The transactions that are not over. @type {Set<IDBTransaction>} */
const flying = new Set();
/** The connections that are open. @type {Set<IDBDatabase>} */
const connected = new Set();
/** While nothing may be begun: resolves when the page is back. @type {Promise<void>|null} */
let away = null;
let comeBack = () => {};
/** How often the page went away: a transaction may hear that it was cut off when the page is back already. */
let leaves = 0;

export class Database {
  /** @type {Promise<IDBDatabase>|null} */ #handle = null;

  /**
   * @param {string} name
   * @param {{factory?: IDBFactory, onBlocked?: () => void, onOutdated?: () => void}} [deps]
   *   onBlocked: another tab holds an older version open; onOutdated: a newer version wants the
   *   database, and this connection was closed for it
   */
  constructor(name, { factory = indexedDB, onBlocked = () => {}, onOutdated = () => {} } = {}) {
    this.name = name;
    this.factory = factory;
    this.onBlocked = onBlocked;
    this.onOutdated = onOutdated;
  }

  /** Has the database opened ahead of the first run. */
  open() {
    if (!away) this.#handle ??= this.#open();
  }

  /**
   * Runs body in one transaction and returns what it returned, once the transaction is complete;
   * strict means on disk. body awaits nothing but requests; what it throws aborts.
   * @template T
   * @param {StoreName[]} stores
   * @param {"readonly"|"readwrite"} mode
   * @param {(tx: IDBTransaction) => Promise<T>|T} body  may be run again after a lost connection
   * @param {"strict"|"relaxed"} [durability]
   * @returns {Promise<T>}
   */
  run(stores, mode, body, durability = "strict") {
    const work = () => this.#run(stores, mode, body, durability);
    return oneByOne ? inLine(work) : work();
  }

  /** Closes the connection; the next run opens it again. */
  close() {
    this.#handle?.then((handle) => {
      connected.delete(handle);
      handle.close();
    }, () => {});
    this.#handle = null;
  }

  // Private

  /**
   * @template T
   * @param {StoreName[]} stores
   * @param {"readonly"|"readwrite"} mode
   * @param {(tx: IDBTransaction) => Promise<T>|T} body
   * @param {"strict"|"relaxed"} durability
   * @returns {Promise<T>}
   */
  async #run(stores, mode, body, durability) {
    await away;
    storeHealth.began();
    try {
      for (let left = tries; ; left--) {
        const before = leaves;
        try {
          const handle = await (this.#handle ??= this.#open());
          return await transact(handle.transaction(stores, mode, { durability }), body);
        } catch (err) {
          const isCut = leaves !== before;
          if (!isCut && (left <= 1 || !isLost(err))) throw err;
          this.close();
          if (isCut) left++; // it is begun again once the page is back
          await away;
        }
      }
    } finally {
      storeHealth.ended();
    }
  }

  /** @returns {Promise<IDBDatabase>} */
  #open() {
    const opening = new Promise((resolve, reject) => {
      const request = this.factory.open(this.name, version);
      request.onupgradeneeded = (event) => upgrade(request.result, event.oldVersion);
      request.onblocked = () => this.onBlocked();
      request.onerror = () => reject(request.error);
      request.onsuccess = () => {
        const handle = request.result;
        const forget = () => {
          connected.delete(handle);
          if (this.#handle === opening) this.#handle = null;
        };
        handle.onversionchange = () => {
          handle.close();
          forget();
          this.onOutdated();
        };
        handle.onclose = forget;
        connected.add(handle);
        if (away) handle.close();
        resolve(handle);
      };
    });
    opening.catch(() => {
      if (this.#handle === opening) this.#handle = null;
    });
    return opening;
  }
}

/**
 * The result of a request.
 * @template T
 * @param {IDBRequest<T>} request
 * @returns {Promise<T>}
 */
export function resultOf(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => {
      storeHealth.progressed();
      resolve(request.result);
    };
    request.onerror = () => reject(request.error);
  });
}

/** In a worker that is to be ended: begins no further transaction; resolves when none is in flight. */
export async function quiesce() {
  away ??= new Promise(() => {});
  await current;
}

/**
 * The page goes away: cuts off what is in flight and closes the connections, for a browser that does so
 * by itself can leave the database unable to run any transaction (WebKit).
 */
export function suspend() {
  leaves++;
  away ??= new Promise((resolve) => (comeBack = resolve));
  for (const tx of flying) abort(tx);
  for (const handle of connected) handle.close();
  connected.clear();
}

/** The page is back: what was cut off is begun again. */
export function resume() {
  away = null;
  comeBack();
}

globalThis.addEventListener?.("pagehide", suspend);
globalThis.addEventListener?.("pageshow", resume);

/** Steps from version to version; each falls through to the next. @param {IDBDatabase} db @param {number} from */
function upgrade(db, from) {
  switch (from) {
    case 0: {
      const event = db.createObjectStore("event", { keyPath: "id" });
      event.createIndex("unsent", ["unsent", "t"]);
      event.createIndex("n", "n");
      event.createIndex("l", "l");
      db.createObjectStore("meta");
      db.createObjectStore("view", { keyPath: "name" });
      db.createObjectStore("snapshot", { keyPath: "name" });
      db.createObjectStore("photo", { keyPath: "sha256" });
    }
  }
}

/**
 * @template T
 * @param {() => Promise<T>} work
 * @returns {Promise<T>}
 */
function inLine(work) {
  /** @type {Promise<T>} */
  const turn = last.then(() => {
    const going = work();
    current = going.catch(() => {});
    return going;
  });
  last = turn.then(() => {}, () => {});
  return turn;
}

/**
 * @template T
 * @param {IDBTransaction} tx
 * @param {(tx: IDBTransaction) => Promise<T>|T} body
 * @returns {Promise<T>}
 */
function transact(tx, body) {
  return new Promise((resolve, reject) => {
    /** @type {T} */
    let result;
    /** @type {unknown} */
    let thrown;
    flying.add(tx);
    tx.oncomplete = () => {
      flying.delete(tx);
      resolve(result);
    };
    tx.onabort = () => {
      flying.delete(tx);
      reject(thrown ?? tx.error ?? new DOMException("the page goes away", "AbortError"));
    };
    /** @param {unknown} err */
    const fail = (err) => {
      thrown ??= tx.error ?? err;
      abort(tx);
    };
    try {
      Promise.resolve(body(tx)).then((value) => (result = value), fail);
    } catch (err) {
      fail(err);
    }
  });
}

/** @param {IDBTransaction} tx */
function abort(tx) {
  try {
    tx.abort();
  } catch {
    // It is over already.
  }
}

/** Whether an error means that the connection is dead, not that the work was wrong. @param {unknown} err */
function isLost(err) {
  return err instanceof DOMException && (err.name === "InvalidStateError" || err.name === "UnknownError");
}
