// @ts-check
/**
 * Makes each call of the first screens once while nobody waits, so that a person's first one does
 * not wait for the browser to compile what it runs. Which calls those are the sums know themselves.
 */

/** How long no call must have come before a step is made, ms. Between two steps what came is answered. */
const calm = 300;

export class WarmUp {
  #step = 0;
  #open = false;
  /** @type {ReturnType<typeof setTimeout>|undefined} */ #next;

  /** Begins. @param {import("../calc/shapes.js").Call} call */
  start(call) {
    this.call = call;
    this.#open = true;
    this.#wait();
  }

  /** A call came: what is left of the rehearsal waits until it is calm again. */
  heard() {
    if (this.#open) this.#wait();
  }

  // Private

  #wait() {
    clearTimeout(this.#next);
    this.#next = setTimeout(() => this.#go(), calm);
  }

  #go() {
    try {
      this.#open = this.call?.("rehearse", { step: this.#step++ }).more === true;
    } catch {
      this.#open = false; // nobody asked: whoever does is told
    }
    if (this.#open) this.#wait();
  }
}
