// @ts-check
/**
 * The journal as pages see it; README.md says what its calls and events mean. Nothing here
 * changes the page. It is long because it is one door: each call is a few lines of what other files do.
 */

import { unlessLeft } from "../browser/leaving.js";
import { bridge } from "../calc/bridge.js";
import { Channel } from "./channel.js";
import { hintedDatabaseName, databaseName, setHint } from "./crew/database-name.js";
import { Database } from "./db.js";
import { SecondCopy } from "./second-copy.js";
import { check } from "./event.js";
import { newId } from "./id.js";
import { LocalState } from "./local-state.js";
import { dropFailed, keepFailed, loadFailed } from "./failed-writes.js";
import { dropLastShown, keepLastShown, readLastShown } from "./last-shown.js";
import { readModel } from "./read-model.js";
import { storeHealth, stuckTrouble } from "./store-health.js";
import { dropSnapshot } from "./snapshot.js";
import { tap, tapArc } from "./tap.js";
import { cutOff, emptied, isFull, notStored, notTwice } from "./troubles.js";

export { newId };

/**
 * @typedef {import("../calc/trouble.js").Trouble} Trouble
 * @typedef {import("./shapes.js").Entry} Entry
 * @typedef {import("./shapes.js").Failed} Failed
 * @typedef {import("./shapes.js").Message} Message
 * @typedef {import("./shapes.js").ReadModel} Painted
 * @typedef {import("./shapes.js").Report} Report
 * @typedef {import("./shapes.js").SyncState} SyncState
 * @typedef {import("./shapes.js").Written} Written
 */

/** @type {SyncState} */
const unknownState = {
  crew: "", unsent: 0, since: 0, aside: 0, onServer: false, backedUp: false, sameDisk: false, heard: 0, stopped: null, coming: 0,
  reached: false, lastError: null, persisted: null,
};

/** How often a read or a tap follows the phone: out of a crew, and into another. */
const mostTurns = 2;

/** What is to be told once the page is loaded anew. */
const untold = "kerfside.untold";

export class Journal extends EventTarget {
  /** @type {SyncState} */ state = unknownState;
  /** @type {Failed[]} */ failed = [];
  #offset = 0;
  #isRead = false;
  #askedToPersist = false;
  #toldOnce = false;
  /** Taps that are being stored. @type {Map<Failed, Promise<unknown>>} */ #going = new Map();
  #started = false;
  #closed = false;
  /** @type {Channel} */ #channel;
  #moves = new Channel("home", () => this.#goHome());
  /** One look for the home after the other: a slow one must not undo what a later one found. */ #looking = Promise.resolve();

  /**
   * @param {{name?: string, factory?: IDBFactory, copy?: SecondCopy, localState?: LocalState, bridge?: Pick<import("../calc/bridge.js").Bridge, "start"|"call"|"poke"|"addEventListener">, clock?: () => number}} [deps]
   */
  constructor({ name = hintedDatabaseName(), factory, copy = new SecondCopy(), localState = new LocalState({ factory, copy }), bridge: door = bridge, clock = Date.now } = {}) {
    super();
    this.bridge = door;
    this.clock = clock;
    this.factory = factory;
    this.copy = copy;
    this.localState = localState;
    this.db = this.#open(name);
    this.#channel = new Channel(name, (message) => this.#heard(message));
    storeHealth.addEventListener("stuck", () => this.#setStuck(true));
    storeHealth.addEventListener("well", () => {
      this.#setStuck(false);
      this.retry();
    });
  }

  /** Has the store opened, for a read that comes soon. */
  open() {
    this.db.open();
  }

  /**
   * Starts the worker and tells it what happens to this tab. Call it after the first paint.
   * @returns {Promise<void>}  settles when what was lost is back; never if "moved" was told meanwhile
   */
  start() {
    this.#started = true;
    this.bridge.start();
    const home = this.#goHome(true).catch((err) => void this.#troubled(err));
    const told = globalThis.sessionStorage?.getItem(untold);
    if (told) this.#tell(JSON.parse(told), false);
    globalThis.sessionStorage?.removeItem(untold);
    this.failed.push(...loadFailed());
    this.retry();
    this.bridge.addEventListener("stuck", (event) => this.#setStuck(/** @type {CustomEvent} */ (event).detail));
    addEventListener("online", () => this.bridge.poke("online"));
    addEventListener("pagehide", () => {
      for (const tap of this.#going.keys()) keepFailed(tap); // the browser may drop what it has not stored yet
      this.copy.seal();
    });
    addEventListener("pageshow", () => this.bridge.poke("pageshow"));
    document.addEventListener("visibilitychange", () => this.bridge.poke(document.visibilityState));
    if (document.visibilityState === "hidden") this.bridge.poke("hidden");
    return home;
  }

  /** Whether it tells by "moved" that the phone went to another crew; before that reads just follow it. */
  get isStarted() {
    return this.#started;
  }

  /** Resolves when what was tapped so far is stored, or is not. */
  async settled() {
    await Promise.allSettled(this.#going.values());
  }

  close() {
    this.#closed = true;
    this.db.close();
    this.#channel.close();
    this.#moves.close();
  }

  /** @param {string[]} names @returns {Promise<Painted>} */
  async read(names, turns = mostTurns) {
    const { marks, ...model } = await readModel(this.db, names);
    if (model.home !== null && turns > 0) {
      this.#move(model.home);
      return this.read(names, turns - 1);
    }
    this.#offset = model.offset;
    this.#isRead = true;
    this.#setState(marks);
    return { ...model, sync: this.state };
  }

  /** What a screen showed last, for as long as nothing is read. @param {import("./last-shown.js").Place} place */
  seen(place) {
    const seen = readLastShown(this.db.name, place, this.clock());
    if (seen && !this.#isRead) this.#offset = seen.offset ?? 0;
    return seen;
  }

  /** Keeps what a screen shows, which it has read; null for nothing. @param {import("./last-shown.js").Place} place @param {Record<string, number|undefined>|null} numbers */
  keepSeen(place, numbers) {
    keepLastShown(this.db.name, place, numbers && { ...numbers, offset: this.#offset }, this.clock());
  }

  /** The server's time as this phone knows it, ms since 1970. */
  now() {
    return this.clock() + this.#offset;
  }

  /** @param {Entry|Entry[]} entry @returns {Promise<Written>} */
  async tap(entry) {
    const wall = this.clock();
    const entries = (Array.isArray(entry) ? entry : [entry]).map((one) => ({ ...one, id: one.id ?? newId() }));
    const trouble = entries.map(check).find((found) => found !== null);
    if (trouble) throw trouble;
    return this.#keep(entries, wall);
  }

  /** @param {{rig: string, in?: string, cut?: string}} arc  cut: the row of the job @returns {Promise<Written>} */
  startArc(arc) {
    return this.#arc("start", arc);
  }

  /** @param {{rig: string, in?: string, starts?: number}} arc @returns {Promise<Written>} */
  stopArc(arc) {
    return this.#arc("stop", arc);
  }

  /** @param {string} id @param {import("./shapes.js").EntryOf<"amend">["body"]["set"]} set @param {string} [why] @param {string} [session] */
  amend(id, set, why, session) {
    return this.tap({ kind: "amend", in: session, body: { of: id, set, why } });
  }

  /** @param {string} id @param {string} [why] @param {string} [session] */
  voidEntry(id, why, session, on = true) {
    return this.tap({ kind: "void", in: session, body: { of: id, on, why } });
  }

  /** @param {string} id @param {string} [why] @param {string} [session] */
  bringBack(id, why, session) {
    return this.voidEntry(id, why, session, false);
  }

  /** @returns {Promise<number>} */
  async retry() {
    const failed = this.failed.splice(0);
    let stored = 0;
    for (const { entries, wall, offered } of failed) {
      const write = offered ? this.#keepArc(offered, entries[0], wall, true) : this.#keep(entries, wall);
      if (await write.then(() => true, () => false)) stored++; // else it is in failed again
    }
    return stored;
  }

  /** @returns {Promise<{text: string, name: string, says?: string}>} @param {string} [crew] another one this phone was in, "" for none; left out: all that is shown @param {boolean} [customers]  what they are called as well */
  exportText(crew, customers = false) {
    return this.bridge.call("export-journal", { db: crew === undefined ? undefined : databaseName(crew), customers });
  }

  /** @param {string} text @returns {Promise<{added: number, known: number, refused: {line: number, error: Trouble}[]}>} */
  async importText(text) {
    const done = await this.bridge.call("import-journal", { text });
    await this.#match();
    return done;
  }

  syncNow() {
    this.bridge.poke("now");
  }

  resumeSync() {
    return this.bridge.call("journal-resume", {});
  }

  // Private

  /** @param {string} name */
  #open(name) {
    return new Database(name, {
      factory: this.factory,
      onBlocked: () => this.#emit("trouble", { kind: "busy", msg: "Another Kerfside tab holds an older store open.", hint: "Close the other tabs of Kerfside." }),
      onOutdated: () => this.#emit("outdated", {}),
    });
  }

  /** Looks whether this phone went to another crew, or left one. @param {boolean} [first]  since the page was loaded: the store may have been emptied */
  async #goHome(first = false) {
    const look = this.#looking.then(() => this.#look(first));
    this.#looking = look.then(() => {}, () => {});
    if ((await look) && first) await new Promise(() => {}); // the page is about to be loaded anew
  }

  /** @param {boolean} first @returns {Promise<boolean>}  whether it is elsewhere */
  async #look(first) {
    const { findHome } = await unlessLeft(import("./crew/home.js"));
    let isEmptied = false;
    const before = this.db.name;
    const home = await findHome(this.factory, { whose: () => this.copy.whose(), onEmptied: () => (isEmptied = true) });
    const { back, wasBlank } = first && this.copy.buckets ? await this.#rescue(home) : { back: 0, wasBlank: false };
    const isMoved = this.db.name !== before; // a read or a tap found it out meanwhile
    const isElsewhere = isMoved || databaseName(home) !== before;
    isEmptied ||= wasBlank && back > 0;
    if (isEmptied || back > 0) this.#tell(isEmptied ? emptied(back, !!this.copy.buckets) : cutOff(back), isElsewhere && first);
    if (isElsewhere && !isMoved) this.#move(home);
    if (!isElsewhere || !first) await this.#match();
    return isElsewhere;
  }

  /** @param {Trouble} trouble @param {boolean} later  once the page is loaded anew */
  #tell(trouble, later) {
    if (later) globalThis.sessionStorage?.setItem(untold, JSON.stringify(trouble));
    else this.#emit("trouble", trouble);
  }

  /** Brings back what only the second copy has. @param {string} home */
  async #rescue(home) {
    const { recover } = await unlessLeft(import("./recovery/recover.js"));
    const done = await recover(this.copy, home, this.localState, this.factory);
    if (done.back > 0) this.#changed(0, "import");
    return done;
  }

  /** Has the second copy hold what is only on this phone. */
  async #match() {
    if (!this.copy.buckets) return;
    const { matchCopy } = await unlessLeft(import("./recovery/recover.js"));
    await matchCopy(this.copy, this.db).catch((err) => this.#notTwice(err));
  }

  /** From here on all is read and written there. @param {string} home */
  #move(home) {
    if (this.#closed) return;
    setHint(home);
    this.db.close();
    this.#channel.close();
    this.db = this.#open(databaseName(home));
    this.#channel = new Channel(this.db.name, (message) => this.#heard(message));
    if (this.#started) this.#looking.then(() => this.#emit("moved", {})); // the page is loaded anew then, which must not cut a rescue off
  }

  /** @param {"start"|"stop"} offered @param {{rig: string, in?: string, starts?: number, cut?: string}} arc @returns {Promise<Written>} */
  async #arc(offered, arc) {
    const wall = this.clock();
    /** @type {import("./shapes.js").ArcTap} */
    const entry = { kind: offered === "start" ? "arc.started" : "arc.stopped", id: newId(), in: arc.in, body: arc };
    const trouble = check(entry);
    if (trouble) throw trouble;
    return this.#keepArc(offered, entry, wall);
  }

  /** @param {"start"|"stop"} offered @param {import("./shapes.js").ArcTap} entry @param {number} wall @param {boolean} [isKept]  it failed before @returns {Promise<Written>} */
  async #keepArc(offered, entry, wall, isKept) {
    const arc = /** @type {{rig: string, in?: string, starts?: number, cut?: string}} */ (entry.body);
    /** @type {Failed} */
    const tapped = { entries: [entry], wall, offered };
    try {
      return await this.#store(tapped, (second) => tapArc(this.db, offered, arc, wall, entry.id ?? "", second));
    } catch (err) {
      // The button offers the truth of the store again; only while that is stuck nobody knows it.
      if (isKept || err === stuckTrouble) this.#fail({ ...tapped, error: notStored(err) });
      else dropFailed(tapped);
      throw this.#troubled(err);
    }
  }

  /** @param {Failed} failed */
  #fail(failed) {
    this.failed.push(failed);
    keepFailed(failed);
  }

  /** @param {Entry[]} entries @param {number} wall @returns {Promise<Written>} */
  async #keep(entries, wall) {
    try {
      return await this.#store({ entries, wall }, (second) => tap(this.db, entries, wall, second));
    } catch (err) {
      const error = notStored(err);
      this.#fail({ entries, wall, error });
      throw this.#troubled(error);
    }
  }

  /** @param {Failed} tapped @param {(second: import("./tap.js").Second) => Promise<Written>} write @returns {Promise<Written>} */
  async #store(tapped, write) {
    const storing = this.#twice(write);
    this.#going.set(tapped, storing);
    try {
      const written = await storing;
      dropFailed(tapped); // noted when it failed before, or when the page went away meanwhile
      return this.#stored(written);
    } finally {
      this.#going.delete(tapped);
    }
  }

  /**
   * Runs a write that is stored twice at the same time; resolves when both are on the disk.
   * @template T
   * @param {(second: import("./tap.js").Second) => Promise<T>} write
   * @returns {Promise<T>}
   */
  async #twice(write) {
    /** @type {string[]} */
    let ids = [];
    let copied = Promise.resolve();
    try {
      return await this.#roomFor(() => write((meta, records) => {
        ids = records.map(({ id }) => id);
        copied = this.copy.keep(this.db.name, meta, records).catch((err) => this.#notTwice(err));
      }));
    } catch (err) {
      if (err !== stuckTrouble) copied.then(() => this.copy.drop(ids)); // what is told to be lost does not come back
      throw err;
    } finally {
      await copied;
    }
  }

  /** Says once that the second copy is not kept. @param {unknown} err */
  #notTwice(err) {
    if (this.#toldOnce) return;
    this.#toldOnce = true;
    this.#emit("trouble", notTwice(err));
  }

  /**
   * Runs a write; on a full phone again, after dropping the snapshot, which is only a cache; and again
   * where the phone is at home, if it went there meanwhile.
   * @template T
   * @param {() => Promise<T>} write
   * @returns {Promise<T>}
   */
  async #roomFor(write, turns = mostTurns) {
    try {
      return await storeHealth.orStuck(write());
    } catch (err) {
      const { home } = /** @type {{home?: unknown}} */ (err);
      if (typeof home === "string" && turns > 0) {
        this.#move(home);
        return this.#roomFor(write, turns - 1);
      }
      if (!isFull(err)) throw err;
      await dropSnapshot(this.db);
      return storeHealth.orStuck(write());
    }
  }

  /** @param {boolean} stuck */
  #setStuck(stuck) {
    this.#emit("stuck", stuck ? stuckTrouble : null);
  }

  /** @param {Written} written */
  #stored(written) {
    if (!written.written) return written;
    this.#changed(written.l, "tap");
    this.#persist();
    if (this.failed.length > 0) this.retry(); // there is room again
    return written;
  }

  /** Entries were stored by this tab. @param {number} l @param {"tap"|"import"} by */
  #changed(l, by) {
    this.#channel.tell({ what: "change", l, by });
    this.#emit("change", { l, by });
  }

  /** @param {unknown} err */
  #troubled(err) {
    const trouble = notStored(err);
    this.#emit("trouble", trouble);
    return trouble;
  }

  /** Asks the browser once in each tab's life not to evict the store. */
  async #persist() {
    const storage = globalThis.navigator?.storage;
    if (this.#askedToPersist || !storage?.persist) return;
    this.#askedToPersist = true;
    const persisted = (await storage.persisted()) || (await storage.persist());
    this.#setState({ persisted });
  }

  /** @param {Message} message */
  #heard(message) {
    switch (message.what) {
      case "change":
        if (message.by !== "tap") dropLastShown(); // what came may have erased some of it; who shows it keeps it anew
        this.#emit("change", { l: message.l, by: message.by });
        if (message.by === "sync") this.#match();
        break;
      case "views":
        this.#emit("views", { l: message.l });
        break;
      case "sync":
        this.#refresh(message.report);
        break;
      case "trouble":
        this.#emit("trouble", message.trouble);
    }
  }

  /** Reads the marks again after a try to sync. @param {Report} report */
  async #refresh(report) {
    try {
      const { marks, offset } = await readModel(this.db, []);
      this.#offset = offset;
      this.#setState({ ...marks, ...report });
    } catch {
      this.#setState(report); // the store says so itself at the next tap or paint
    }
  }

  /** @param {Partial<SyncState>} change */
  #setState(change) {
    const state = { ...this.state, ...change };
    if (JSON.stringify(state) === JSON.stringify(this.state)) return;
    this.state = state;
    this.#emit("sync", state);
  }

  /** @param {string} name @param {unknown} detail */
  #emit(name, detail) {
    this.dispatchEvent(new CustomEvent(name, { detail }));
  }
}
