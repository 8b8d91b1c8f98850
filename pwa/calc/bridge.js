// @ts-check
/**
 * The one door to the worker that holds the sums (wasm) and does the journal's work. It keeps one
 * pending entry for each call, starts the worker at the first call or at start(), and starts it
 * again if it dies. While there is no wasm, a calculator's call goes to the server; not because a page
 * that is being left had its worker cut off as it loaded.
 *
 * The worker ends before its page does, and a page that comes back starts a new one: a browser that
 * ends it by itself can leave the store unable to answer. Calls that wait are passed to the new one.
 *
 * Events: "started" with each worker; "ready" once the sums run; "dead" (detail: Trouble) when they cannot start; "stuck" (detail:
 * whether it is so now) when the worker's store does not answer.
 */

import { staying } from "../browser/leaving.js";
import { within } from "../browser/within.js";
import { waiting } from "./trouble.js";
import { scriptURL } from "../browser/trusted.js";

/** @typedef {import("./trouble.js").Trouble} Trouble */
/** @typedef {import("./shapes.js").Asked} Asked */
/** What a worker says: see its head. @typedef {{ready?: true, rested?: true, stuck?: boolean, dead?: Trouble, id: number, ok?: unknown, error?: Trouble}} Message */
/** @typedef {{name: string, input: unknown, resolve: (value: any) => void, reject: (err: unknown) => void, done: () => void}} Pending */

/** How long to leave a dead worker alone, in ms; it doubles each time. */
const firstPause = 2000;
const longestPause = 60_000;
/** How long the server may take for a sum, in ms. */
const serverPatience = 15_000;
/** How long a worker may take to finish what it writes, in ms. */
const lastPatience = 1000;

export class Bridge extends EventTarget {
  /** @type {Worker|null} */ #worker = null;
  /** @type {Map<number, Pending>} */ #pending = new Map();
  #nextId = 1;
  #ready = false;
  #pause = firstPause;
  #deadUntil = 0;
  /** The page goes away: no worker runs until it comes back. */
  #left = false;
  /** What waits for the worker to be at rest. @type {() => void} */ #rested = () => {};
  /** Why the sums do not run. */
  #trouble = waiting("they could not start");
  /** @type {unknown[]} */ #notes = [];

  /** @param {{makeWorker?: () => Worker, wasm?: () => string, db?: () => string, stays?: () => Promise<void>}} [deps] */
  constructor({ makeWorker = newWorker, wasm = wasmAddress, db = () => "", stays = staying } = {}) {
    super();
    this.makeWorker = makeWorker;
    this.wasm = wasm;
    this.db = db; // names the database that the worker opens: journal/page-journal.js tells
    this.stays = stays;
  }

  /** Whether the sums run. */
  get ready() {
    return this.#ready;
  }

  /** Starts the worker if it does not run. Call it right after the first paint. */
  start() {
    if (this.#worker || this.#left || Date.now() < this.#deadUntil) return;
    try {
      const worker = (this.#worker = this.makeWorker());
      worker.onmessage = (event) => this.#heard(worker, event.data);
      worker.onerror = () => this.#died(worker, waiting("the worker could not be loaded"));
      worker.postMessage({ start: { wasm: this.wasm(), db: this.db() } });
      this.dispatchEvent(new Event("started"));
      for (const note of this.#notes.splice(0)) worker.postMessage(note);
      for (const [id, { name, input }] of this.#pending) worker.postMessage({ id, name, input });
    } catch (err) {
      this.#died(this.#worker, waiting(String(err)));
    }
  }

  /**
   * Calls a name of the worker's table. See calls.js.
   * @template {keyof Asked} N
   * @param {N} name
   * @param {import("./shapes.js").Given<Asked[N]["in"]>} input
   * @param {{signal?: AbortSignal}} [options]
   * @returns {Promise<Asked[N]["out"]>}
   */
  call(name, input, { signal } = {}) {
    return new Promise((resolve, reject) => {
      if (signal?.aborted) return reject(signal.reason);
      const id = this.#nextId++;
      const abort = () => {
        this.#pending.delete(id);
        reject(signal?.reason);
      };
      signal?.addEventListener("abort", abort, { once: true });
      const entry = { name, input, resolve, reject, done: () => signal?.removeEventListener("abort", abort) };
      this.#pending.set(id, entry);
      if (this.#worker) this.#worker.postMessage({ id, name, input });
      else if (Date.now() < this.#deadUntil) this.#viaServer(id, this.#trouble);
      else this.start(); // which passes it on
    });
  }

  /**
   * Tells the worker that something happened: "visible", "hidden", "online", "pageshow", "now".
   * @param {string} what
   */
  poke(what) {
    if (what === "online") this.#deadUntil = 0;
    if (this.#worker) this.#worker.postMessage({ poke: what });
    else if (this.#notes.length < 8) this.#notes.push({ poke: what });
  }

  /** Ends the worker at once, for the page goes away; until back() no other is started. */
  end() {
    this.#left = true;
    this.#worker?.terminate();
    this.#worker = null;
    this.#ready = false;
    this.#rested();
  }

  /** Ends the worker when it has written what it was writing. Wait for it before you load a page. */
  async leave() {
    this.#left = true;
    if (this.#worker) {
      this.#worker.postMessage({ rest: true });
      await new Promise((resolve) => {
        this.#rested = () => resolve(null);
        setTimeout(resolve, lastPatience); // a worker that reckons, or whose store is stuck, does not hear
      });
    }
    this.end();
  }

  /** The page has come back. */
  back() {
    if (!this.#left) return;
    this.#left = false;
    this.start();
  }

  // Private

  /** @param {Worker} worker @param {Message} message */
  #heard(worker, message) {
    if (worker !== this.#worker) return;
    if (message.ready) {
      this.#ready = true;
      this.#pause = firstPause;
      this.dispatchEvent(new CustomEvent("ready"));
    } else if (message.rested) {
      this.#rested();
    } else if (message.stuck !== undefined) {
      this.dispatchEvent(new CustomEvent("stuck", { detail: message.stuck }));
    } else if (message.dead) {
      this.#died(worker, message.dead);
    } else if (message.error) {
      this.#settle(message.id)?.reject(message.error);
    } else {
      this.#settle(message.id)?.resolve(message.ok);
    }
  }

  /** Takes the entry of a call out, if it is still wanted. @param {number} id */
  #settle(id) {
    const entry = this.#pending.get(id);
    this.#pending.delete(id);
    entry?.done();
    return entry;
  }

  /** @param {Worker|null} worker @param {Trouble} trouble */
  #died(worker, trouble) {
    if (worker !== this.#worker) return;
    worker?.terminate();
    this.#worker = null;
    this.#trouble = trouble;
    this.#ready = false;
    this.#deadUntil = Date.now() + this.#pause;
    setTimeout(() => {
      this.#deadUntil = 0;
      this.start();
    }, this.#pause);
    this.#pause = Math.min(2 * this.#pause, longestPause);
    for (const id of [...this.#pending.keys()]) this.#viaServer(id, trouble);
    this.dispatchEvent(new CustomEvent("dead", { detail: trouble }));
  }

  /** Has the server do the sum, if it is one. @param {number} id @param {Trouble} trouble */
  async #viaServer(id, trouble) {
    await this.stays();
    const entry = this.#pending.get(id);
    if (!entry || this.#worker) return; // a new worker has it
    /** @type {{ok?: unknown, error?: Trouble}} */
    let reply = { error: trouble };
    if (!entry.name.startsWith("journal-")) {
      try {
        const body = await within(serverPatience, async (signal) => {
          const response = await fetch(`/api/calc/${encodeURIComponent(entry.name)}`, {
            method: "POST",
            headers: { "Content-Type": "application/json", "X-Kerfside": "1" },
            body: JSON.stringify(entry.input),
            signal,
          });
          return response.json();
        });
        reply = body.error ? { error: body.error } : { ok: body };
      } catch {
        // No network either: the trouble stands.
      }
    }
    const wanted = this.#settle(id);
    if (reply.error) wanted?.reject(reply.error);
    else wanted?.resolve(reply.ok);
  }
}

/** The bridge of this tab. */
export const bridge = new Bridge();
globalThis.addEventListener?.("pagehide", () => bridge.end());
globalThis.addEventListener?.("pageshow", () => bridge.back());

function newWorker() {
  return new Worker(/** @type {string} */ (scriptURL(`${document.documentElement.dataset.assets}worker/worker.js`)), { type: "module" });
}

function wasmAddress() {
  return document.documentElement.dataset.wasm ?? "";
}
