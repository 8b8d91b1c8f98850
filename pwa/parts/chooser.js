// @ts-check
/**
 * Asks for one of some choices, each a full-width button.
 *
 *   const word = await chooser.ask({ label: "Metal", options: [{ word: "stainless", label: "Stainless" }], value });
 *
 * resolves with the word, or null if it was left.
 */
import { clone, make, onActions, refs } from "./dom.js";

/** @typedef {{word: string, label: string, more?: string}} Option */

export class Chooser {
  /** @type {HTMLDialogElement} */ #dialog;
  /** @type {import("./dom.js").Refs} */ #at;
  /** @type {((word: string|null) => void)|null} */ #answer = null;

  constructor() {
    this.#dialog = /** @type {HTMLDialogElement} */ (clone("part-chooser"));
    this.#at = refs(this.#dialog);
    document.body.append(this.#dialog);
    onActions(this.#dialog, { leave: () => this.#close(null), pick: (el) => this.#close(String(el.dataset.word)) });
    this.#dialog.addEventListener("cancel", (event) => (event.preventDefault(), this.#close(null)));
  }

  /** @param {{label: string, options: Option[], value?: string}} question @returns {Promise<string|null>} */
  ask({ label, options, value }) {
    this.#answer?.(null);
    this.#at.label.textContent = label;
    this.#at.options.replaceChildren(...options.map((o) => make("button", {
      class: "button button--row", type: "button", role: "radio", "aria-checked": o.word === value ? "true" : "false", "data-action": "pick", "data-word": o.word,
    }, make("span", { text: o.label }), o.more ? make("span", { class: "button__more", text: o.more }) : null)));
    this.#dialog.showModal();
    this.#dialog.scrollTop = 0;
    return new Promise((resolve) => (this.#answer = resolve));
  }

  /** Asks no more: who asked is gone. */
  leave() {
    if (this.#dialog.open) this.#close(null);
  }

  /** @param {string|null} word */
  #close(word) {
    this.#dialog.close();
    const answer = this.#answer;
    this.#answer = null;
    answer?.(word);
  }
}
