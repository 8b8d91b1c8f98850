// @ts-check
/** Lines above the bar that say what happened, with Undo; DEVELOPERS.md has the rules of their words. */
import { make } from "./dom.js";
import { say, sayTrouble } from "../words/words.js";

/** How long a line stays, ms; one with Undo stays until it is used or replaced. */
const shortStay = 4000;
const undoStay = 10_000;

export class Toasts {
  /** Ids of the entries that each line's Undo is about. @type {WeakMap<Element, string[]>} */ #about = new WeakMap();

  /** @param {HTMLElement} element */
  constructor(element) {
    this.element = element;
  }

  /**
   * @param {string} text
   * @param {{undo?: () => unknown, about?: string[], bad?: boolean, stay?: number, action?: string}} [options]
   *   about: ids of the entries that undo is about
   */
  show(text, { undo, about = [], bad = false, stay, action = say("undo") } = {}) {
    // A trouble may be told by the page and by the journal: once is enough.
    if (!undo && this.element.lastElementChild?.textContent === text) return;
    const line = make("div", { class: bad ? "toast toast--bad" : "toast" }, make("span", { text }));
    if (undo) {
      line.append(make("button", {
        class: "button", type: "button", text: action,
        onclick: () => {
          line.remove();
          undo();
        },
      }));
    }
    this.#about.set(line, about);
    while (this.element.children.length > 1) this.element.firstElementChild?.remove();
    this.element.append(line);
    const ms = stay ?? (undo ? undoStay : bad ? undoStay : shortStay);
    setTimeout(() => line.remove(), ms);
  }

  /** The entry was erased: no line offers to bring it back. @param {string} id */
  erased(id) {
    for (const line of [...this.element.children]) {
      const about = this.#about.get(line) ?? [];
      const left = about.filter((other) => other !== id);
      this.#about.set(line, left);
      if (left.length === 0 && about.length > 0) line.remove();
    }
  }

  /** @param {{msg: string, hint?: string}} problem */
  problem(problem) {
    this.show(sayTrouble(problem), { bad: true });
  }
}
