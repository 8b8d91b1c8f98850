// @ts-check
/**
 * The worker's fold loop: what is new in the store goes through the wasm, and the views that come
 * back go into the store, each only over an older one. Two tabs fold side by side without harm.
 */

import { asked } from "./db.js";
import { readMeta, writeMeta } from "./meta.js";

/**
 * @typedef {import("./db.js").Database} Database
 * @typedef {import("./channel.js").Channel} Channel
 * @typedef {import("./meta.js").EventRecord} EventRecord
 * @typedef {import("./meta.js").Arc} Arc
 * @typedef {(name: string, input: unknown) => any} Call  throws a Trouble
 * @typedef {{name: string, fold: number, l: number, data: unknown}} Kept  a view or a rung of the snapshot
 * @typedef {{fold: number, l: number, views?: Record<string, unknown>, arc?: Record<string, Arc>, rungs?: Kept[], refused?: unknown[]}} Folded
 */

/** Events in one call. */
const portion = 1000;

export class Folder {
  #l = 0;
  #fold = 0;
  #restored = false;
  /** Views not yet in the store. @type {Map<string, unknown>} */ #views = new Map();
  /** @type {Kept[]} */ #rungs = [];
  /** @type {Promise<void>|null} */ #running = null;
  #again = false;
  #keep = false;

  /** @param {{db: Database, call: Call, channel: Channel}} deps */
  constructor({ db, call, channel }) {
    this.db = db;
    this.call = call;
    this.channel = channel;
  }

  /** Version of the fold, 0 before the first run. */
  get fold() {
    return this.#fold;
  }

  /**
   * Folds what is new. Resolves when everything that was stored before this call is in the views.
   * @param {{keep?: boolean}} [options]  keep: write the snapshot too, for the page may go away
   * @returns {Promise<void>}
   */
  run({ keep = false } = {}) {
    this.#again = true;
    this.#keep ||= keep;
    return (this.#running ??= this.#loop().finally(() => (this.#running = null)));
  }

  // Private

  async #loop() {
    while (this.#again) {
      this.#again = false;
      const keep = this.#keep;
      this.#keep = false;
      if (!this.#restored) await this.#restore();
      const folded = await this.#foldNew(keep);
      await this.#store(folded);
    }
  }

  /** Hands the snapshot to the wasm. One that it cannot read is dropped: it is only a cache. */
  async #restore() {
    const rungs = await this.db.run(["snapshot"], "readonly", (tx) => asked(tx.objectStore("snapshot").getAll()));
    let restored;
    try {
      restored = this.call("journal-restore", { rungs });
    } catch {
      await this.db.run(["snapshot"], "readwrite", (tx) => asked(tx.objectStore("snapshot").clear()));
      restored = this.call("journal-restore", { rungs: [] });
    }
    const stale = restored.stale ?? [];
    if (stale.length > 0) {
      await this.db.run(["snapshot"], "readwrite", (tx) => Promise.all(stale.map((/** @type {string} */ name) => asked(tx.objectStore("snapshot").delete(name)))));
    }
    this.#l = restored.l;
    this.#fold = restored.fold;
    this.#restored = true;
  }

  /** @param {boolean} keep @returns {Promise<Folded>} */
  async #foldNew(keep) {
    for (;;) {
      const above = IDBKeyRange.lowerBound(this.#l, true);
      /** @type {EventRecord[]} */
      const events = await this.db.run(["event"], "readonly", (tx) => asked(tx.objectStore("event").index("l").getAll(above, portion)));
      const more = events.length === portion;
      /** @type {Folded} */
      const folded = this.call("journal-fold", { events: events.map(({ raw, o, n, l }) => ({ raw, o, n, l })), more, keep: keep && !more });
      this.#l = Math.max(this.#l, folded.l, events.at(-1)?.l ?? 0);
      if (more) continue;
      for (const [name, data] of Object.entries(folded.views ?? {})) this.#views.set(name, data);
      if (folded.rungs?.length) this.#rungs = folded.rungs;
      return folded;
    }
  }

  /**
   * One transaction: a view only over an older one, the snapshot only over an older one, the arcs
   * only if nothing was stored since the events were read. Views wait for the next run if it fails.
   * @param {Folded} folded
   */
  async #store(folded) {
    const l = this.#l;
    const views = [...this.#views].map(([name, data]) => ({ name, fold: this.#fold, l, data }));
    const rungs = this.#rungs;
    let changed = false;
    try {
      await this.db.run(["view", "snapshot", "meta"], "readwrite", async (tx) => {
        changed = false;
        const meta = await readMeta(tx);
        if (folded.arc && meta.nextL - 1 <= l && JSON.stringify(folded.arc) !== JSON.stringify(meta.arc)) {
          meta.arc = folded.arc;
          writeMeta(tx, meta);
          changed = true;
        }
        const store = tx.objectStore("view");
        for (const view of views) {
          if (!isOlder(await asked(store.get(view.name)), view)) continue;
          store.put(view);
          changed = true;
        }
        if (rungs.length > 0) await putRungs(tx.objectStore("snapshot"), rungs);
      });
    } catch (err) {
      if (!(err instanceof DOMException && err.name === "QuotaExceededError")) throw err;
      // No room. The snapshot is the first thing to go; the views follow at the next run.
      await this.db.run(["snapshot"], "readwrite", (tx) => asked(tx.objectStore("snapshot").clear()));
      this.#rungs = [];
      return;
    }
    this.#views.clear();
    this.#rungs = [];
    if (changed) this.channel.tell({ what: "views", l });
  }
}

/** The rungs of a snapshot belong together, so all of them give way or none. @param {IDBObjectStore} store @param {Kept[]} rungs */
async function putRungs(store, rungs) {
  /** @type {Kept[]} */
  const stored = await asked(store.getAll());
  const reach = (/** @type {Kept[]} */ list) => Math.max(0, ...list.filter((rung) => rung.fold === rungs[0].fold).map((rung) => rung.l));
  if (stored.some((rung) => rung.fold > rungs[0].fold) || reach(stored) >= reach(rungs)) return;
  store.clear();
  for (const rung of rungs) store.put(rung);
}

/** Whether stored gives way to view. @param {Kept|undefined} stored @param {Kept} view */
function isOlder(stored, view) {
  return !stored || stored.fold < view.fold || (stored.fold === view.fold && stored.l < view.l);
}
