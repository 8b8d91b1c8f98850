// What the unit tests of pwa/journal share: a phone with a store of its own. The IndexedDB is
// fake-indexeddb, a general-purpose implementation of the standard that runs in Node.

import { createRequire } from "node:module";
import { setGlobals, storage } from "./globals.mjs";

const require = createRequire(new URL("../../cmd/dev/npm/package.json", import.meta.url));
require("fake-indexeddb/auto"); // the classes as globals, as in a browser
const { IDBFactory } = require("fake-indexeddb");

const { Journal } = await import("../../pwa/journal/journal.js");
const { SecondCopy } = await import("../../pwa/journal/second-copy.js");
const { resultOf } = await import("../../pwa/journal/db.js");
const { storeHealth } = await import("../../pwa/journal/store-health.js");

/** A phone: tabs share its store, and its clock is ours. */
export class Phone {
  static #count = 0;

  constructor() {
    this.factory = new IDBFactory();
    this.name = `phone-${++Phone.#count}`;
    this.wall = 1_760_731_116_544;
    this.tabs = [];
  }

  /** A tab of the app. Its worker is a list of what it was told. */
  tab() {
    const told = [];
    const bridge = { start() {}, addEventListener() {}, poke: (what) => told.push(what), call: async (name, input) => told.push({ name, input }) };
    const copy = this.buckets && new SecondCopy({ buckets: this.buckets, locks: this.buckets.locks });
    const journal = new Journal({ name: this.name, factory: this.factory, copy, bridge, clock: () => this.wall });
    this.tabs.push(journal);
    return Object.assign(journal, { told });
  }

  /** All records of a store. */
  all(store) {
    return this.tabs[0].db.run([store], "readonly", (tx) => resultOf(tx.objectStore(store).getAll()));
  }

  async meta() {
    return (await this.all("meta"))[0];
  }

  /** Overwrites fields of meta. */
  setMeta(fields) {
    return this.tabs[0].db.run(["meta"], "readwrite", async (tx) => {
      const store = tx.objectStore("meta");
      store.put({ ...(await resultOf(store.get("meta"))), ...fields }, "meta");
    });
  }

  off() {
    for (const tab of this.tabs) {
      tab.localState.db.close();
      tab.close();
    }
  }
}

/** As much of a page as Journal.start listens to, while a test runs; another each time it is called. */
export function page(t) {
  const view = new EventTarget();
  const made = { localStorage: storage(), addEventListener: view.addEventListener.bind(view), document: new EventTarget(), view };
  setGlobals(t, made);
  return made;
}

/** Has a tab's store keep every transaction waiting until let go. */
export function hold(tab) {
  const run = tab.db.run.bind(tab.db);
  let letGo = () => {};
  const gate = new Promise((resolve) => (letGo = () => resolve(null)));
  tab.db.run = async (...words) => {
    storeHealth.began();
    await gate;
    storeHealth.ended();
    return run(...words);
  };
  return letGo;
}

/** Gives a test its phone and switches it off afterwards. */
export function withPhone(test) {
  return async (t) => {
    const phone = new Phone();
    try {
      await test(phone, t);
    } finally {
      phone.off();
    }
  };
}

/** The same with a phone that is in a crew. */
export function withMember(test) {
  return withPhone(async (phone, t) => {
    phone.tab();
    await phone.setMeta({ crew: "N0sD1w2aRtY7uIo9PqLm3g" });
    await test(phone, t);
  });
}

/** Has the next writing transaction of a tab abort after its work is done. */
export function abortNext(tab, error) {
  const run = tab.db.run.bind(tab.db);
  tab.db.run = (stores, mode, body, durability) => {
    if (mode !== "readwrite") return run(stores, mode, body, durability);
    tab.db.run = run;
    return run(stores, mode, async (tx) => {
      await body(tx);
      throw error;
    });
  };
}

export const quota = () => new DOMException("no room", "QuotaExceededError");
export const note = (text) => ({ kind: "note.added", body: { text } });
export { resultOf };
