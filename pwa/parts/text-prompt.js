// @ts-check
/**
 * Asks for some words: a note, a name, a reason. What was begun and left is
 * kept under its key and stands there again next time.
 */
import { Asking } from "./asking.js";
import { onActions } from "./dom.js";

export class TextPrompt extends Asking {
  /** @type {import("./drafts.js").Drafts} */ #drafts;
  #key = "";

  /** @param {import("./drafts.js").Drafts} drafts */
  constructor(drafts) {
    super("part-text-prompt");
    this.#drafts = drafts;
    onActions(this.dialog, { leave: () => this.close(null), done: () => this.#done() });
    this.at.text.addEventListener("input", () => this.#drafts.keep(this.#key, { text: this.at.text.value }));
  }

  /** @param {{label: string, value?: string, key: string}} question @returns {Promise<string|null>} */
  ask({ label, value = "", key }) {
    this.#key = `writer.${key}`;
    this.at.label.textContent = label;
    this.at.text.value = this.#drafts.of(this.#key).text ?? value;
    const answer = this.open();
    this.at.text.focus();
    return answer;
  }

  // Private

  #done() {
    this.#drafts.drop(this.#key);
    this.close(this.at.text.value.trim());
  }
}
