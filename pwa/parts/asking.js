// @ts-check
/** A dialog over the whole screen that asks one question at a time. Back closes it, as its own button does. */
import { opened } from "../browser/overlays.js";
import { clone, refs } from "./dom.js";

export class Asking {
  /** @type {((text: string|null) => void)|null} */ #answer = null;
  #closed = () => {};

  /** @param {string} template */
  constructor(template) {
    this.dialog = /** @type {HTMLDialogElement} */ (clone(template));
    this.at = refs(this.dialog);
    document.body.append(this.dialog);
    this.dialog.addEventListener("cancel", (event) => (event.preventDefault(), this.close(null)));
  }

  /** Shows the dialog, which takes over from who asked before. @returns {Promise<string|null>} */
  open() {
    this.#answer?.(null);
    if (!this.dialog.open) {
      this.dialog.showModal();
      this.#closed = opened(() => this.close(null));
    }
    this.dialog.scrollTop = 0;
    return new Promise((resolve) => (this.#answer = resolve));
  }

  /** Asks no more: who asked is gone. */
  leave() {
    if (this.dialog.open) this.close(null);
  }

  /** @param {string|null} text */
  close(text) {
    this.dialog.close();
    this.#closed();
    const answer = this.#answer;
    this.#answer = null;
    answer?.(text);
  }
}
