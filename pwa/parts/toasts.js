// @ts-check
/**
 * Lines that say what happened, with Undo; DEVELOPERS.md has the rules of their words. They cover no button:
 * they are a row of their own above dock and bar, which the end of the page leaves room for, or stand in the
 * room that a page keeps for them ([data-toasts]) while that is seen.
 */
import { make } from "./dom.js";
import { say, sayTrouble } from "../words/words.js";

/** How long a line stays, ms; one with Undo stays until it is used or replaced. */
const shortStay = 4000;
const undoStay = 10_000;

export class Toasts {
  /** Ids of the entries that each line's Undo is about. @type {WeakMap<Element, string[]>} */ #about = new WeakMap();

  /** Sees docks come and go. @type {ResizeObserver|undefined} */ #sizes;

  /** @param {HTMLElement} element */
  constructor(element) {
    this.element = element;
    this.home = element.parentElement;
    if (typeof ResizeObserver !== "undefined") this.#sizes = new ResizeObserver(() => this.#place());
    for (const type of ["scroll", "resize"]) addEventListener(type, () => this.#place(), { passive: true });
  }

  /** The page is about to go, and its room for lines with it. */
  leavePage() {
    if (this.element.parentElement !== this.home) this.home?.append(this.element);
    this.#place();
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
          this.#drop(line);
          undo();
        },
      }));
    }
    this.#about.set(line, about);
    const slot = [.../** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-toasts]"))].find(isSeen) ?? this.home;
    if (this.element.parentElement !== slot) slot?.append(this.element);
    while (this.element.children.length > (slot === this.home ? 1 : 0)) this.element.firstElementChild?.remove();
    this.element.append(line);
    this.#place(true);
    const ms = stay ?? (undo ? undoStay : bad ? undoStay : shortStay);
    setTimeout(() => this.#drop(line), ms);
  }

  /** The entry was erased: no line offers to bring it back. @param {string} id */
  erased(id) {
    for (const line of [...this.element.children]) {
      const about = this.#about.get(line) ?? [];
      const left = about.filter((other) => other !== id);
      this.#about.set(line, left);
      if (left.length === 0 && about.length > 0) this.#drop(line);
    }
  }

  /** @param {{msg: string, hint?: string}} problem */
  problem(problem) {
    this.show(sayTrouble(problem), { bad: true });
  }

  // Private

  /** @param {Element} line */
  #drop(line) {
    line.remove();
    this.#place();
  }

  /** Puts the row above what is docked. @param {boolean} [isNew]  a main action that it came over is brought clear of it */
  #place(isNew = false) {
    const { style } = document.documentElement;
    const row = this.element.firstElementChild && this.element.parentElement === this.home ? Math.ceil(this.element.getBoundingClientRect().height) : 0;
    if (!row) {
      this.#sizes?.disconnect();
      return void style.removeProperty("--toasts");
    }
    style.setProperty("--toasts", `${row}px`);
    style.removeProperty("--foot");
    let foot = this.element.getBoundingClientRect().bottom;
    for (const el of document.querySelectorAll("main, .dock")) this.#sizes?.observe(el); // another page may bring a dock
    for (const dock of document.querySelectorAll(".dock")) {
      const { top, bottom, height } = dock.getBoundingClientRect();
      if (height && top < foot && bottom > foot - row + 2 && height < innerHeight / 2) foot = top;
    }
    style.setProperty("--foot", `${innerHeight - foot}px`);
    if (isNew) scrollBy(0, Math.max(0, ...[...document.querySelectorAll("main :is(.button--primary, .arc)")].map((el) => el.getBoundingClientRect()).filter(({ top, bottom }) => top < foot && bottom > foot - row && bottom <= foot + 1).map(({ bottom }) => bottom + 8 - foot + row)));
  }
}

/** Whether a room for lines is on the screen. @param {HTMLElement} el */
function isSeen(el) {
  const { top, bottom, height } = el.getBoundingClientRect();
  return height > 0 && top >= 0 && bottom <= innerHeight;
}
