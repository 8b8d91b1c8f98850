// @ts-check
/**
 * Asks for some words: a note, a name, a reason. What was begun and left is
 * kept under its key and stands there again next time.
 */
import { clone, onActions, refs } from "./dom.js";

export class TextPrompt {
  /** @type {HTMLDialogElement} */ #dialog;
  /** @type {import("./dom.js").Refs} */ #at;
  /** @type {import("./drafts.js").Drafts} */ #drafts;
  #key = "";
  /** @type {((text: string|null) => void)|null} */ #answer = null;

  /** @param {import("./drafts.js").Drafts} drafts */
  constructor(drafts) {
    this.#drafts = drafts;
    this.#dialog = /** @type {HTMLDialogElement} */ (clone("part-text-prompt"));
    this.#at = refs(this.#dialog);
    document.body.append(this.#dialog);
    onActions(this.#dialog, { leave: () => this.#close(null), done: () => this.#done() });
    this.#dialog.addEventListener("cancel", (event) => (event.preventDefault(), this.#close(null)));
    this.#at.text.addEventListener("input", () => this.#drafts.keep(this.#key, { text: this.#at.text.value }));
  }

  /** @param {{label: string, value?: string, key: string}} question @returns {Promise<string|null>} */
  ask({ label, value = "", key }) {
    this.#answer?.(null);
    this.#key = `writer.${key}`;
    this.#at.label.textContent = label;
    this.#at.text.value = this.#drafts.of(this.#key).text ?? value;
    this.#dialog.showModal();
    this.#at.text.focus();
    return new Promise((resolve) => (this.#answer = resolve));
  }

  /** Asks no more: who asked is gone. */
  leave() {
    if (this.#dialog.open) this.#close(null);
  }

  // Private

  #done() {
    this.#drafts.drop(this.#key);
    this.#close(this.#at.text.value.trim());
  }

  /** @param {string|null} text */
  #close(text) {
    this.#dialog.close();
    const answer = this.#answer;
    this.#answer = null;
    answer?.(text);
  }
}
