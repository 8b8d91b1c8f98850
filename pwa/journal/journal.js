// @ts-check
/**
 * The journal as pages see it; README.md says what its calls and events mean. Nothing here
 * changes the page.
 */

import { bridge } from "../calc/bridge.js";
import { asTrouble } from "../calc/trouble.js";
import { Channel } from "./channel.js";
import { hintedName, nameOf, setHint } from "./crew/name.js";
import { Database } from "./db.js";
import { check } from "./event.js";
import { dropSnapshot } from "./fold.js";
import { newId } from "./id.js";
import { dropFailed, keepFailed, loadFailed } from "./failed.js";
import { paint } from "./paint.js";
import { pulse, stuckTrouble } from "./pulse.js";
import { tap, tapArc } from "./tap.js";

export { newId };

/**
 * @typedef {import("../calc/trouble.js").Trouble} Trouble
 * @typedef {import("./shapes.js").Entry} Entry
 * @typedef {import("./shapes.js").Failed} Failed
 * @typedef {import("./shapes.js").Message} Message
 * @typedef {import("./shapes.js").Painted} Painted
 * @typedef {import("./shapes.js").Report} Report
 * @typedef {import("./shapes.js").SyncState} SyncState
 * @typedef {import("./shapes.js").Written} Written
 */

/** @type {SyncState} */
const unknownState = {
  crew: "", unsent: 0, since: 0, aside: 0, onServer: false, backedUp: false, sameDisk: false, heard: 0, stopped: null,
  reached: false, lastError: null, persisted: null,
};

export class Journal extends EventTarget {
  /** @type {SyncState} */ state = unknownState;
  /** @type {Failed[]} */ failed = [];
  #offset = 0;
  #askedToPersist = false;
  #started = false;
  /** @type {Channel} */ #channel;
  #moves = new Channel("home", () => this.#goHome());

  /**
   * @param {{name?: string, factory?: IDBFactory, bridge?: Pick<import("../calc/bridge.js").Bridge, "start"|"call"|"poke"|"addEventListener">, clock?: () => number}} [deps]
   */
  constructor({ name = hintedName(), factory, bridge: door = bridge, clock = Date.now } = {}) {
    super();
    this.bridge = door;
    this.clock = clock;
    this.factory = factory;
    this.db = this.#open(name);
    this.#channel = new Channel(name, (message) => this.#heard(message));
    pulse.addEventListener("stuck", () => this.#setStuck(true));
    pulse.addEventListener("well", () => {
      this.#setStuck(false);
      this.retry();
    });
  }

  /** Starts the worker and tells it what happens to this tab. Call it after the first paint. */
  start() {
    this.#started = true;
    this.bridge.start();
    this.#goHome();
    this.failed.push(...loadFailed());
    this.retry();
    this.bridge.addEventListener("stuck", (event) => this.#setStuck(/** @type {CustomEvent} */ (event).detail));
    addEventListener("online", () => this.bridge.poke("online"));
    addEventListener("pageshow", () => this.bridge.poke("pageshow"));
    document.addEventListener("visibilitychange", () => this.bridge.poke(document.visibilityState));
    if (document.visibilityState === "hidden") this.bridge.poke("hidden");
  }

  close() {
    this.db.close();
    this.#channel.close();
    this.#moves.close();
  }

  /** @param {string[]} names @returns {Promise<Painted>} */
  async paint(names) {
    const { marks, ...painted } = await paint(this.db, names);
    if (painted.home) {
      this.#move(painted.home);
      return this.paint(names);
    }
    this.#offset = painted.offset;
    this.#setState(marks);
    return { ...painted, sync: this.state };
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

  /** @param {{rig: string, in?: string}} arc @returns {Promise<Written>} */
  startArc(arc) {
    return this.#arc("start", arc);
  }

  /** @param {{rig: string, in?: string, starts?: number}} arc @returns {Promise<Written>} */
  stopArc(arc) {
    return this.#arc("stop", arc);
  }

  /** @param {string} id @param {Record<string, any>} set @param {string} [why] @param {string} [session] */
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
    for (const one of failed) {
      const { entries, wall, offered } = one;
      const write = offered ? this.#keepArc(offered, entries[0], wall) : this.#keep(entries, wall);
      if (!(await write.then(() => true, () => false))) continue; // it is in failed again
      dropFailed(one);
      stored++;
    }
    return stored;
  }

  /** @param {string} id */
  session(id) {
    return this.bridge.call("journal-session", { id });
  }

  /** @param {string} [before] id of a session @param {number} [limit] */
  book(before, limit) {
    return this.bridge.call("journal-book", { before, limit });
  }

  /** @param {string} id */
  part(id) {
    return this.bridge.call("journal-part", { id });
  }

  parts() {
    return this.bridge.call("journal-parts", {});
  }

  /** @returns {Promise<{hash: string, events: number}>} */
  stateHash() {
    return this.bridge.call("journal-hash", {});
  }

  /** @returns {Promise<{text: string, name: string}>} @param {string} [crew] another one this phone was in, "" for none; left out: all that is shown */
  exportText(crew) {
    return this.bridge.call("journal-carry-out", { db: crew === undefined ? undefined : nameOf(crew) });
  }

  /** @param {string} text @returns {Promise<{added: number, known: number, refused: {line: number, error: Trouble}[]}>} */
  importText(text) {
    return this.bridge.call("journal-carry-in", { text });
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

  /** Looks whether this phone went to another crew, or left one. */
  async #goHome() {
    const { findHome } = await import("./crew/home.js");
    const home = await findHome(this.factory, this);
    if (nameOf(home) !== this.db.name) this.#move(home);
  }

  /** From here on all is read and written there. @param {string} home */
  #move(home) {
    setHint(home);
    this.db.close();
    this.#channel.close();
    this.db = this.#open(nameOf(home));
    this.#channel = new Channel(this.db.name, (message) => this.#heard(message));
    if (this.#started) this.#emit("moved", {});
  }

  /** @param {"start"|"stop"} offered @param {{rig: string, in?: string, starts?: number}} arc @returns {Promise<Written>} */
  async #arc(offered, arc) {
    const wall = this.clock();
    /** @type {Entry} */
    const entry = { kind: offered === "start" ? "arc.started" : "arc.stopped", id: newId(), in: arc.in, body: arc };
    const trouble = check(entry);
    if (trouble) throw trouble;
    return this.#keepArc(offered, entry, wall);
  }

  /** @param {"start"|"stop"} offered @param {Entry} entry @param {number} wall @returns {Promise<Written>} */
  async #keepArc(offered, entry, wall) {
    const arc = /** @type {{rig: string, in?: string, starts?: number}} */ (entry.body);
    try {
      return this.#stored(await this.#roomFor(() => tapArc(this.db, offered, arc, wall, entry.id ?? "")));
    } catch (err) {
      // The button offers the truth of the store again; only while that is stuck nobody knows it.
      if (err === stuckTrouble) this.#fail({ entries: [entry], wall, offered, error: stuckTrouble });
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
      return this.#stored(await this.#roomFor(() => tap(this.db, entries, wall)));
    } catch (err) {
      const error = notStored(err);
      this.#fail({ entries, wall, error });
      throw this.#troubled(error);
    }
  }

  /**
   * Runs a write; on a full phone again, after dropping the snapshot, which is only a cache; and again
   * where the phone is at home, if it went there meanwhile.
   * @template T
   * @param {() => Promise<T>} write
   * @returns {Promise<T>}
   */
  async #roomFor(write) {
    try {
      return await pulse.orStuck(write());
    } catch (err) {
      const { home } = /** @type {any} */ (err);
      if (home) this.#move(home);
      else if (isFull(err)) await dropSnapshot(this.db);
      else throw err;
      return pulse.orStuck(write());
    }
  }

  /** @param {boolean} stuck */
  #setStuck(stuck) {
    this.#emit("stuck", stuck ? stuckTrouble : null);
  }

  /** @param {Written} written */
  #stored(written) {
    if (!written.written) return written;
    this.#channel.tell({ what: "change", l: written.l, by: "tap" });
    this.#emit("change", { l: written.l, by: "tap" });
    this.#persist();
    if (this.failed.length > 0) this.retry(); // there is room again
    return written;
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
        this.#emit("change", { l: message.l, by: message.by });
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
      const { marks, offset } = await paint(this.db, []);
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

/** @param {unknown} err */
function isFull(err) {
  return err instanceof DOMException && err.name === "QuotaExceededError";
}

/** @param {unknown} err @returns {Trouble} */
function notStored(err) {
  if (isFull(err)) return { kind: "disk-full", msg: "This phone has no room left: the entry is not stored.", hint: "Free some space, then keep it again. Until then it is only in this open page." };
  return asTrouble(err, "The phone's store did not take the entry", "Keep it again. If that fails, write the entry down and reload the page.");
}
