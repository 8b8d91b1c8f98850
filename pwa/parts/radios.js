// @ts-check
/**
 * One of a few, each a button in its place: one tap an answer. For keys and
 * screen readers it is a radio group: Tab enters it, arrows move within it, and
 * nothing is picked before Space or Enter says so.
 */
import { make } from "./dom.js";

export class Radios {
  /** @type {HTMLButtonElement[]} */ #buttons;

  /** @param {{label: string, options: {word: string, label: string}[], value?: string, pick: (word: string) => void}} question */
  constructor({ label, options, value = "", pick }) {
    this.#buttons = options.map((o) => make("button", { class: "choice", type: "button", role: "radio", text: o.label, "data-word": o.word, onclick: () => pick(o.word) }));
    this.element = make("div", { class: "choices", role: "radiogroup", "aria-label": label, onkeydown: (/** @type {KeyboardEvent} */ event) => this.#move(event) }, ...this.#buttons);
    this.value = value;
  }

  /** Which stands as picked; "" for none. */
  set value(/** @type {string} */ word) {
    const picked = this.#buttons.findIndex((b) => b.dataset.word === word);
    this.#buttons.forEach((b, i) => {
      b.setAttribute("aria-checked", String(i === picked));
      b.tabIndex = i === Math.max(picked, 0) ? 0 : -1;
    });
  }

  // Private

  /** @param {KeyboardEvent} event */
  #move(event) {
    const step = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 }[event.key];
    const at = this.#buttons.indexOf(/** @type {HTMLButtonElement} */ (event.target));
    if (!step || at < 0) return;
    event.preventDefault();
    this.#buttons[(at + step + this.#buttons.length) % this.#buttons.length].focus();
  }
}
