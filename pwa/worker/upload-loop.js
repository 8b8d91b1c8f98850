// @ts-check
/**
 * The worker's upload loop, beside the sync: pictures follow their entries to the server, oldest
 * first, one at a time. HEAD asks first where the server may have the picture already.
 */

import { within } from "../browser/within.js";

/**
 * @typedef {import("./photo-queue.js").PhotoQueue} PhotoQueue
 * @typedef {Pick<LockManager, "request">} Locks
 */

const address = "/api/photos/";
/** The pause after a failure doubles from the first to the longest, ms; a random part of it is waited. */
const firstPause = 1000;
const longestPause = 300_000;
/** How long a request may take: this long, and as long as the bytes need at 8 KB/s. */
const patience = 45_000;
const slowest = 8; // bytes per ms
/** Answers that will be the same next time: not its hash, no picture or one with a place, too large. */
const never = [400, 413, 422];

export class UploadLoop {
  /** @type {ReturnType<typeof setTimeout>|undefined} */ #timer;
  #running = false;
  #again = false;
  #pause = firstPause;

  /**
   * @param {{photos: PhotoQueue, send?: typeof fetch, random?: () => number, locks?: Locks|undefined}} deps
   */
  constructor({ photos, send = (...words) => fetch(...words), random = Math.random, locks = globalThis.navigator?.locks }) {
    this.photos = photos;
    this.send = send;
    this.random = random;
    this.locks = locks;
  }

  /** Something happened that makes a try worth while. */
  trigger() {
    this.#pause = firstPause;
    this.#again = true;
    if (!this.#running) this.#fire();
  }

  stop() {
    clearTimeout(this.#timer);
  }

  /**
   * Uploads until nothing is left or a try fails; returns the seconds that the server asked to wait, or
   * 0, after a failure; null when nothing is left.
   * @returns {Promise<number|null>}
   */
  async run() {
    for (;;) {
      const picture = await this.photos.next();
      if (!picture) return null;
      const { sha256, tried } = picture;
      const there = tried ? await this.#ask(sha256, { method: "HEAD" }) : { status: 404, retryAfter: 0, why: "" };
      const reply = there.status === 404 ? await this.#put(picture) : there;
      if (reply.status >= 200 && reply.status < 300) await this.photos.done(sha256);
      else if (never.includes(reply.status)) await this.photos.refused(sha256, reply.why);
      else {
        await this.photos.tried(sha256, reply);
        return reply.retryAfter;
      }
    }
  }

  // Private

  async #fire() {
    clearTimeout(this.#timer);
    this.#running = true;
    let wait = /** @type {number|null} */ (0);
    try {
      while (this.#again) {
        this.#again = false;
        wait = await this.#alone();
      }
    } catch {
      wait = 0; // the store did not answer: as after a failure of the network
    }
    this.#running = false;
    if (wait === null) return;
    const ms = Math.max(wait * 1000, this.#pause * this.random());
    this.#pause = Math.min(2 * this.#pause, longestPause);
    this.#timer = setTimeout(() => {
      this.#again = true;
      this.#fire();
    }, ms);
  }

  /** Runs unless another tab uploads. @returns {Promise<number|null>} */
  async #alone() {
    if (!this.locks) return this.run();
    return this.locks.request("kerfside-photos", { ifAvailable: true }, async (lock) => (lock ? this.run() : 0));
  }

  /** @param {import("../journal/photo/photos.js").Picture} picture */
  #put({ sha256, type, bytes }) {
    return this.#ask(sha256, { method: "PUT", headers: { "Content-Type": type, "X-Kerfside": "1" }, body: bytes }, bytes.byteLength);
  }

  /** @param {string} sha256 @param {RequestInit} request @param {number} [size] @returns {Promise<{status: number, retryAfter: number, why: string}>} 0: no answer */
  async #ask(sha256, request, size = 0) {
    try {
      return await within(patience + Math.ceil(size / slowest), async (signal) => {
        const response = await this.send(address + sha256, { ...request, cache: "no-store", redirect: "error", signal });
        const why = response.ok ? "" : await response.json().then(({ error }) => String(error.msg), () => "");
        return { status: response.status, retryAfter: Math.max(0, Math.ceil(Number(response.headers.get("Retry-After"))) || 0), why };
      });
    } catch {
      return { status: 0, retryAfter: 0, why: "" };
    }
  }
}
