// @ts-check
/**
 * The worker's sync loop: a timer that always arms itself again. Go says what to send and what a
 * reply means (calc/journal/protocol.md and engine.md); this file moves the bytes.
 */

import { within } from "../browser/within.js";
import { asTrouble } from "../calc/trouble.js";
import { applyChange, isWaiting, readExchange } from "./apply.js";

/**
 * @typedef {import("../journal/db.js").Database} Database
 * @typedef {import("../journal/channel.js").Channel} Channel
 * @typedef {import("../calc/trouble.js").Trouble} Trouble
 * @typedef {import("../calc/shapes.js").Call} Call
 * @typedef {import("../journal/shapes.js").Reply} Reply
 * @typedef {"again"|"dropped"|"done"|{wait: number, least: number}} Outcome
 * @typedef {Pick<LockManager, "request">} Locks
 */

const address = "/api/journal/sync";
const minute = 60_000;
/** After a tap, in ms: the next one is often close behind, and others are to see it within 2 s. */
const afterTap = 1000;
/** How long a reply may take: this long, and as long as the body needs at 8 KB/s. */
const patience = 45_000;
const slowest = 8; // bytes per ms
/** Pause while another tab syncs, and how often to stand back for it. */
const standBack = 5000;
const courtesy = 2;
/** Dropped replies in a row before a pause. */
const maxDropped = 20;
/** While older entries come, this times as long as folding them took passes before they are folded again. */
const rarely = 4;

export class SyncLoop {
  /** @type {ReturnType<typeof setTimeout>|undefined} */ #timer;
  #due = Infinity;
  #notBefore = 0;
  #running = false;
  #rested = true; // a trigger came: the back-off begins anew
  #visible = true;
  #refused = 0;
  #stopped = false;
  /** Where the sync came to its end, -1 if it did not. */ #end = -1;
  /** The last change that came and was told to nobody yet, 0 if there is none. */ #untold = 0;
  /** Before that what older entries bring is not told: folding them must not take all the time there is. */ #tellFrom = 0;
  /** Records that the next exchange has to carry, because a reply clashed with them. @type {string[]} */ #extra = [];

  /**
   * @param {{db: Database, call: Call, channel: Channel, onApplied?: () => unknown, onEnd?: (cursor: number) => void,
   *   send?: typeof fetch, now?: () => number, tick?: () => number, random?: () => number, locks?: Locks|undefined}} deps
   *   onApplied: entries came, and are to be folded; settles when they are
   *   onEnd: all that the server has, up to that arrival, is here; now: the phone's clock, which may
   *   jump; tick: ms that only go on
   */
  constructor({ db, call, channel, onApplied = () => {}, onEnd = () => {}, send = (...words) => fetch(...words), now = Date.now, tick = () => performance.now(), random = Math.random, locks = globalThis.navigator?.locks }) {
    this.db = db;
    this.call = call;
    this.channel = channel;
    this.onApplied = onApplied;
    this.onEnd = onEnd;
    this.send = send;
    this.now = now;
    this.tick = tick;
    this.random = random;
    this.locks = locks;
  }

  /**
   * Something happened that makes a try worth while.
   * @param {"start"|"visible"|"pageshow"|"online"|"now"|"tap"|"news"} why
   */
  trigger(why) {
    if (why === "news") return this.#running ? undefined : this.#arm(0); // what runs asks for news when it ends
    if (why === "visible" || why === "pageshow") this.#visible = true;
    this.#rested = true;
    this.#arm(why === "tap" ? afterTap : 0);
  }

  /** No page is in view: nothing is fetched any more, but what is tapped is still sent. */
  hidden() {
    this.#visible = false;
  }

  stop() {
    this.#stopped = true;
    clearTimeout(this.#timer);
  }

  /**
   * Syncs until nothing is left to do; returns the ms until the next try.
   * @returns {Promise<number>}
   */
  async run() {
    if (!this.locks || this.#refused >= courtesy) {
      this.#refused = 0;
      return this.#drain();
    }
    return this.locks.request("kerfside-sync", { ifAvailable: true }, (lock) => {
      if (!lock) {
        this.#refused++;
        return standBack * (0.5 + this.random());
      }
      this.#refused = 0;
      return this.#drain();
    });
  }

  // Private

  /** @param {number} ms */
  #arm(ms) {
    const due = Math.max(this.tick() + ms, this.#notBefore);
    if (this.#stopped || due >= this.#due) return;
    this.#due = due;
    clearTimeout(this.#timer);
    if (!this.#running) this.#timer = setTimeout(() => this.#fire(), Math.max(0, due - this.tick()));
  }

  async #fire() {
    this.#due = Infinity;
    this.#running = true;
    this.#end = -1;
    let pause = minute;
    try {
      if (this.#visible || (await isWaiting(this.db))) pause = await this.run();
    } catch (err) {
      this.#tell(false, asTrouble(err, "The sync broke off", "Entries stay on this phone. Kerfside tries again by itself."));
    }
    this.#running = false;
    const due = Math.min(this.#due, this.tick() + pause); // a trigger may have come meanwhile
    this.#due = Infinity;
    this.#arm(due - this.tick());
    if (this.#end >= 0) this.onEnd(this.#end);
  }

  /** @returns {Promise<number>} */
  async #drain() {
    try {
      return await this.#rounds();
    } finally {
      this.#tellApplied(); // what was put off
    }
  }

  /** @returns {Promise<number>} */
  async #rounds() {
    let dropped = 0;
    for (;;) {
      const outcome = await this.#round();
      if (outcome === "done") return minute;
      if (typeof outcome === "object") return outcome.least + this.random() * Math.max(0, outcome.wait - outcome.least);
      dropped = outcome === "dropped" ? dropped + 1 : 0;
      if (dropped >= maxDropped) return 1000 * this.random();
    }
  }

  /** One request and what becomes of its reply. @returns {Promise<Outcome>} */
  async #round() {
    const exchange = await readExchange(this.db, this.#extra);
    this.#extra = [];
    if (!exchange.meta.crew) return "done"; // a phone without crew keeps its journal to itself
    if (this.#rested) exchange.meta.fails = 0;
    const request = this.call("journal-request", { meta: exchange.meta, unsent: exchange.unsent, now: this.now() });
    if (request.skip) {
      this.#tell(true, request.skip);
      return { wait: minute, least: minute };
    }
    this.#rested = false;
    const reply = await this.#post(request.body);
    const change = this.call("journal-apply", { ...exchange, sent: request.sent, ...reply });
    const applied = await applyChange(this.db, exchange, change);
    if (!applied.done) {
      this.#extra = applied.clash;
      return "dropped";
    }
    this.#untold = Math.max(this.#untold, applied.l);
    if (!(change.meta.coming > 0) || this.tick() >= this.#tellFrom) this.#tellApplied();
    const least = (change.meta.wait ?? 0) * 1000;
    this.#notBefore = least > 0 ? this.tick() + least : 0;
    if (change.waitMs > 0) {
      this.#tell(reply.status !== 0, change.say);
      return { wait: change.waitMs, least };
    }
    const isMore = change.again || (change.out > 0 && applied.unsent > 0);
    if (!isMore || change.say) this.#tell(true, change.say);
    if (isMore) return "again";
    this.#end = change.meta.cursor ?? exchange.meta.cursor;
    return "done";
  }

  /**
   * Tells of what came. While older entries come, each page of them goes under what is folded already,
   * so that is done the more seldom the longer it takes.
   */
  #tellApplied() {
    if (this.#untold === 0) return;
    this.channel.tell({ what: "change", l: this.#untold, by: "sync" });
    this.#untold = 0;
    const began = this.tick();
    this.#tellFrom = Infinity;
    const done = () => (this.#tellFrom = this.tick() + rarely * (this.tick() - began));
    Promise.resolve(this.onApplied()).then(done, done);
  }

  /** Posts a request and returns what came back, which may be nothing. @param {string} body @returns {Promise<Reply>} */
  async #post(body) {
    const sentAt = this.now();
    let status = 0;
    let retryAfter = 0;
    let timeout = false;
    let reply = "";
    try {
      await within(patience + Math.ceil(body.length / slowest), async (signal) => {
        const response = await this.send(address, {
          method: "POST",
          headers: { "Content-Type": "application/x-ndjson", "X-Kerfside": "1" },
          body,
          cache: "no-store",
          redirect: "error", // a network that wants a sign-in is no server of ours
          signal,
        });
        retryAfter = Math.max(0, Math.ceil(Number(response.headers.get("Retry-After"))) || 0);
        reply = await readText(response);
        status = response.status;
      });
    } catch (err) {
      timeout = err instanceof DOMException && err.name === "TimeoutError";
    }
    return { status, retryAfter, reply, ...(timeout ? { timeout } : {}), sentAt, gotAt: this.now() };
  }

  /** @param {boolean} reached @param {Trouble|null} lastError */
  #tell(reached, lastError) {
    this.channel.tell({ what: "sync", report: { reached, lastError } });
  }
}

/**
 * The text of a reply; of a good one that breaks off, what came, which counts up to its last mark.
 * @param {Response} response
 */
async function readText(response) {
  if (!response.ok || !response.body) return response.text();
  const reader = response.body.getReader();
  const decoder = new TextDecoder();
  let text = "";
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return text + decoder.decode();
      text += decoder.decode(value, { stream: true });
    }
  } catch (err) {
    if (!text.includes("\n")) throw err;
    return text;
  }
}
