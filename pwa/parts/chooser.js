// @ts-check
/**
 * Asks for one of some choices, each a full-width button.
 *
 *   const word = await chooser.ask({ label: "Metal", options: [{ word: "stainless", label: "Stainless" }], value });
 *
 * resolves with the word, or null if it was left.
 */
import { Asking } from "./asking.js";
import { make, onActions } from "./dom.js";

/** @typedef {{word: string, label: string, more?: string}} Option */

export class Chooser extends Asking {
  constructor() {
    super("part-chooser");
    onActions(this.dialog, { leave: () => this.close(null), pick: (el) => this.close(String(el.dataset.word)) });
  }

  /** @param {{label: string, options: Option[], value?: string}} question @returns {Promise<string|null>} */
  ask({ label, options, value }) {
    this.at.label.textContent = label;
    this.at.options.replaceChildren(...options.map((o) => make("button", {
      class: "button button--row", type: "button", role: "radio", "aria-checked": o.word === value ? "true" : "false", "data-action": "pick", "data-word": o.word,
    }, make("span", { text: o.label }), o.more ? make("span", { class: "button__more", text: o.more }) : null)));
    return this.open();
  }
}
