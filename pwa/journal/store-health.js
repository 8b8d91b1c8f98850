// @ts-check
/**
 * Whether the store answers. It is stuck once a transaction has been waiting while none made any
 * progress for a while, and well again with the next that does.
 *
 * Events: "stuck", "well".
 */

/** @typedef {import("../calc/trouble.js").Trouble} Trouble */

/** What a screen says while the store is stuck. @type {Trouble} */
export const stuckTrouble = {
  kind: "stuck",
  msg: "The phone’s store does not answer.",
  hint: "Close every Kerfside tab and open it again. What you tap is kept meanwhile.",
};

/** So many looks, ms apart, without progress mean stuck. Looks, for a page that was frozen is not stuck. */
const looks = 5;
const apart = 1000;

class StoreHealth extends EventTarget {
  stuck = false;
  #going = 0;
  #silent = 0;
  /** @type {ReturnType<typeof setInterval>|undefined} */ #timer;

  /**
   * What a promise resolves to; rejects with a Trouble if the store is stuck meanwhile.
   * @template T
   * @param {Promise<T>} promise
   * @returns {Promise<T>}
   */
  orStuck(promise) {
    return new Promise((resolve, reject) => {
      const stop = () => reject(stuckTrouble);
      if (this.stuck) stop();
      this.addEventListener("stuck", stop, { once: true });
      promise.then(resolve, reject).finally(() => this.removeEventListener("stuck", stop));
    });
  }

  /** A transaction began. */
  began() {
    this.#going++;
    this.#timer ??= setInterval(() => this.#look(), apart);
  }

  /** It was answered something. */
  progressed() {
    this.#silent = 0;
    if (this.stuck) this.#turn(false);
  }

  /** It is over. */
  ended() {
    this.progressed();
    if (--this.#going > 0) return;
    clearInterval(this.#timer);
    this.#timer = undefined;
  }

  // Private

  #look() {
    if (++this.#silent >= looks && !this.stuck) this.#turn(true);
  }

  /** @param {boolean} stuck */
  #turn(stuck) {
    this.stuck = stuck;
    this.dispatchEvent(new Event(stuck ? "stuck" : "well"));
  }
}

/** That of this page or worker. */
export const storeHealth = new StoreHealth();
