// @ts-check
/**
 * The worker's fold loop. It reads what is new in the store, hands it to the fold in the wasm, and
 * stores the views that come back. Every tab has a worker, so each may find that another was faster: a
 * view goes only over an older one.
 */

import { resultOf } from "../journal/db.js";
import { newId } from "../journal/id.js";
import { readMeta, writeMeta } from "../journal/meta.js";
import { emptyOverlay } from "../journal/overlay.js";
import { dropSnapshot } from "../journal/snapshot.js";
import { isFull } from "../journal/troubles.js";

/**
 * @typedef {import("../journal/db.js").Database} Database
 * @typedef {import("../journal/channel.js").Channel} Channel
 * @typedef {import("../calc/shapes.js").Call} Call
 * @typedef {import("../journal/shapes.js").EventRecord} EventRecord
 * @typedef {import("../types/journal.js").Folded} Folded
 * @typedef {import("../types/journal.js").Segment} Segment
 * @typedef {import("../journal/shapes.js").StoredView} StoredView
 */

/** Events in one call. */
const portion = 1000;

export class FoldLoop {
  #l = 0;
  #keptL = 0;
  #fold = 0;
  #restored = false;
  /** Names the stored snapshot that our segments stand on. Stored as meta.ladder; null: the stored one is another tab's. @type {string|null} */
  #snapshot = null;
  /** Of the latest view. @type {import("../types/journal.js").Now|undefined} */ #now;
  /** Views not yet in the store. @type {Map<string, unknown>} */ #views = new Map();
  /** Segments not yet in the store, by name. @type {Map<string, Segment>} */ #segments = new Map();
  /** @type {Promise<void>|null} */ #running = null;
  /** Records read since the last word about them that are no events to this version. */ #unread = 0;
  #again = false;
  #keep = false;

  /** @param {{db: Database, call: Call, channel: Channel}} deps */
  constructor({ db, call, channel }) {
    this.db = db;
    this.call = call;
    this.channel = channel;
  }

  /**
   * Resolves when everything that was stored before this call is in the views.
   * @param {{keep?: boolean}} [options]  keep: write the snapshot too
   * @returns {Promise<void>}
   */
  run({ keep = false } = {}) {
    this.#again = true;
    this.#keep ||= keep;
    return (this.#running ??= this.#loop());
  }

  /** Whether there is something that the snapshot has not. */
  get toKeep() {
    return this.#l > this.#keptL;
  }

  // Private

  async #loop() {
    try {
      while (this.#again) {
        this.#again = false;
        const keep = this.#keep;
        this.#keep = false;
        if (!this.#restored) await this.#restore();
        await this.#store(await this.#foldNew(keep));
        if (keep) this.#keptL = this.#l;
      }
    } catch (err) {
      this.#restored = false; // who knows how far the wasm came: begin again from the snapshot
      throw err;
    } finally {
      this.#running = null; // in the same step as the last look at again, so that no run is missed
    }
  }

  /** Hands the snapshot to the wasm. One that it cannot read is dropped: it is only a cache. */
  async #restore() {
    const [segments, name] = await this.db.run(["snapshot", "meta"], "readonly", async (tx) => {
      const { ladder } = await readMeta(tx);
      return [await resultOf(tx.objectStore("snapshot").getAll()), ladder];
    });
    const restored = this.call("journal-restore", { rungs: segments });
    this.#snapshot = restored.stale.length > 0 ? await dropSnapshot(this.db) : name;
    this.#segments.clear(); // those of an earlier start stand on another snapshot
    this.#l = this.#keptL = restored.l;
    this.#fold = restored.fold;
    this.#restored = true;
  }

  /** @param {boolean} keep @returns {Promise<Folded>} */
  async #foldNew(keep) {
    for (;;) {
      const above = IDBKeyRange.lowerBound(this.#l, true);
      /** @type {[EventRecord[], string]} */
      const [events, device] = await this.db.run(["event", "meta"], "readonly", async (tx) => {
        const { device } = await readMeta(tx);
        return [await resultOf(tx.objectStore("event").index("l").getAll(above, portion)), device];
      });
      const more = events.length === portion;
      const folded = this.call("journal-fold", { events: events.map(({ raw, o, n, l }) => ({ raw, o, n, l })), more, keep: keep && !more, device });
      this.#l = Math.max(this.#l, folded.l, events.at(-1)?.l ?? 0);
      this.#unread += folded.refused?.length ?? 0;
      if (more) continue;
      for (const [name, data] of Object.entries(folded.views ?? {})) this.#views.set(name, data);
      this.#now = folded.views?.now ?? this.#now;
      for (const segment of folded.rungs ?? []) this.#segments.set(segment.name, segment);
      if (this.#unread > 0) this.channel.tell({ what: "trouble", trouble: unread(this.#unread) });
      this.#unread = 0;
      return folded;
    }
  }

  /**
   * Stores what the fold gave, in one transaction. Segments are stored only while the stored snapshot
   * is ours. If it fails, the views wait for the next run.
   * @param {Folded} folded
   */
  async #store(folded) {
    const l = this.#l;
    const views = [...this.#views].map(([name, data]) => ({ name, fold: this.#fold, l, data }));
    const segments = this.#snapshot === null ? [] : [...this.#segments.values()];
    const grown = newId();
    let changed = false;
    let isOurs = true;
    try {
      await this.db.run(["view", "snapshot", "meta"], "readwrite", async (tx) => {
        const meta = await readMeta(tx);
        changed = this.#updateMeta(meta, folded, l);
        isOurs = meta.ladder === this.#snapshot;
        const grows = isOurs && segments.length > 0;
        if (grows) {
          for (const segment of segments) tx.objectStore("snapshot").put(segment);
          meta.ladder = grown;
        }
        if (changed || grows) writeMeta(tx, meta);
        const store = tx.objectStore("view");
        for (const view of views) {
          if (!isOlder(await resultOf(store.get(view.name)), view)) continue;
          store.put(view);
          changed = true;
        }
      }, "relaxed");
    } catch (err) {
      if (!isFull(err)) throw err;
      await dropSnapshot(this.db); // no room: the snapshot goes first; the views follow at the next run
      this.#snapshot = null;
      this.#segments.clear();
      return;
    }
    if (segments.length > 0) this.#snapshot = isOurs ? grown : null;
    this.#views.clear();
    this.#segments.clear();
    if (changed) this.channel.tell({ what: "views", l });
  }

  /**
   * Puts into meta what a tap reads of the fold: arcs, session, gate and watches. If something was
   * stored since, that knows better. Returns whether meta says anything else now.
   * @param {import("../journal/meta.js").Meta} meta @param {Folded} folded @param {number} l
   */
  #updateMeta(meta, folded, l) {
    if (!folded.arc || meta.nextL - 1 > l) return false;
    const read = () => JSON.stringify([meta.arc, meta.session, meta.gate, meta.watch, meta.since]);
    const before = read();
    meta.arc = folded.arc;
    meta.session = this.#now?.session ?? null;
    meta.gate = this.#now?.gate ?? null;
    meta.watch = this.#now?.watch ?? null;
    meta.since = emptyOverlay;
    return read() !== before;
  }
}

/** What is passed on by a newer server may be more than this version reads. @param {number} n @returns {import("../calc/trouble.js").Trouble} */
function unread(n) {
  return { kind: "old-app", msg: n === 1 ? "one entry cannot be read by this version" : `${n} entries cannot be read by this version`, hint: "They are kept, and shown by a newer version. Update the app." };
}

/** Whether stored gives way to view. @param {StoredView|undefined} stored @param {StoredView} view */
function isOlder(stored, view) {
  return !stored || stored.fold < view.fold || (stored.fold === view.fold && stored.l < view.l);
}
