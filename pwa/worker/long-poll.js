// @ts-check
/**
 * The request that the server holds until others have entered something, so that it shows here at
 * once. It begins after a sync that came to its end, while a page is in view; what comes of it, and
 * when to try again without a network, is the sync's.
 */

import { within } from "../browser/within.js";

/** @typedef {import("./sync-loop.js").Locks} Locks */

const address = "/api/journal/news?after=";
/** The server answers within 55 s. */
const patience = 70_000;
/** A request that was held so long, ms, was cut on its way: that is no refusal. */
const lasting = 10_000;
/** The longest pause after failures, ms. */
const longest = 300_000;

export class LongPoll {
  #after = -1;
  #visible = true;
  #fails = 0;
  /** An address that this server does not know. */ #unknown = false;
  /** Of the request that is held. @type {AbortController|null} */ #held = null;
  /** @type {ReturnType<typeof setTimeout>|undefined} */ #timer;

  /**
   * @param {{name: string, onNews: () => void, send?: typeof fetch, tick?: () => number, random?: () => number, locks?: Locks|undefined}} deps
   *   name: of the database, whose tabs share one request where they can; onNews: a sync is worth while
   */
  constructor({ name, onNews, send = (...words) => fetch(...words), tick = () => performance.now(), random = Math.random, locks = globalThis.navigator?.locks }) {
    this.name = name;
    this.onNews = onNews;
    this.send = send;
    this.tick = tick;
    this.random = random;
    this.locks = locks;
  }

  /** A sync came to its end: all up to this arrival is here. @param {number} after */
  follow(after) {
    if (!this.#visible || this.#unknown || (this.#held && this.#after === after)) return;
    this.stop();
    if (this.#after !== after) this.#fails = 0;
    this.#after = after;
    const held = (this.#held = new AbortController());
    const listen = () => this.#listen(held.signal);
    const turn = this.locks ? this.locks.request(`kerfside-news ${this.name}`, { signal: held.signal }, listen) : listen();
    turn.catch(() => {}).finally(() => {
      if (this.#held === held) this.#held = null;
    });
  }

  /** No page is in view. */
  hidden() {
    this.#visible = false;
    this.stop();
  }

  /** A page came into view, or the network changed: what is held may hang in a line that is dead. */
  anew() {
    this.#visible = true;
    this.#unknown = false;
    this.stop();
  }

  stop() {
    this.#held?.abort();
    this.#held = null;
    clearTimeout(this.#timer);
  }

  // Private

  /** Asks until there is news, or no sense in asking. @param {AbortSignal} signal */
  async #listen(signal) {
    for (;;) {
      const began = this.tick();
      const status = await this.#ask(signal);
      if (signal.aborted) return;
      if (status === 204 || (status === 0 && this.tick() - began >= lasting)) {
        this.#fails = 0;
        continue;
      }
      if (status === 404) {
        this.#unknown = true; // a server of an earlier version: the minute has to do
        return;
      }
      // News is worth a sync at once, unless the last one brought none of it.
      const pause = this.#fails === 0 && status === 200 ? 0 : this.random() * Math.min(longest, 1000 * 2 ** this.#fails);
      this.#fails++; // until a sync has got further
      this.#timer = setTimeout(this.onNews, pause);
      return;
    }
  }

  /** The status of the answer, 0 if none came. @param {AbortSignal} life */
  async #ask(life) {
    try {
      return (await within(patience, (signal) => this.send(address + this.#after, { cache: "no-store", redirect: "error", signal }), life)).status;
    } catch {
      return 0;
    }
  }
}
