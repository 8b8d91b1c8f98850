// @ts-check
/** What is looked for among the days of the Book: words, and a truck, a metal and a month that are picked. */
import { clone, onActions, refs, setText } from "./dom.js";
import { say, sayKnown } from "../words/words.js";

/** @typedef {import("../types/journal.js").DayFilter} Filter */

const metals = ["mild-steel", "galvanised", "stainless", "aluminium", "copper", "brass", "cast-iron"];
/** So many months can be picked, the running one with them. */
const monthsBack = 12;

export class DaysFilter {
  /** @type {Record<string, Filter>} by what it was picked */ #picked = {};

  /** @param {Pick<import("../app.js").Deps, "chooser"|"journal">} deps @param {{rigs: () => Map<string, string>, changed: () => unknown}} of */
  constructor(deps, { rigs, changed }) {
    this.deps = deps;
    this.rigs = rigs;
    this.changed = changed;
    this.element = clone("part-days-filter");
    this.at = refs(this.element);
    this.at.find.addEventListener("input", () => changed());
    onActions(this.element, { pick: (el) => this.#pick(el, /** @type {"rig"|"metal"|"month"} */ (el.dataset.by)) });
  }

  /** null while nothing is looked for. @returns {Filter|null} */
  get value() {
    const find = this.at.find.value.trim();
    const filter = Object.assign({}, ...Object.values(this.#picked), find && { find });
    return Object.keys(filter).length > 0 ? filter : null;
  }

  // Private

  /** @param {HTMLElement} button @param {"rig"|"metal"|"month"} by */
  async #pick(button, by) {
    const all = say(/* rig | metal | month */ `filter.${by}`);
    const known = by === "rig" ? [...this.rigs()].map(([word, label]) => ({ word, label })) : by === "metal" ? metals.map((word) => ({ word, label: sayKnown(`metal.${word}`) })) : this.#months();
    const word = await this.deps.chooser.ask({ label: all, options: [{ word: "", label: say("filter.all") }, ...known] });
    if (word === null) return;
    const [from, to] = word.split(" ").map(Number);
    this.#picked[by] = word ? (by === "month" ? { from, to } : { [by]: word }) : {};
    setText(button, word ? known.find((one) => one.word === word)?.label ?? "" : all);
    button.setAttribute("aria-pressed", String(word !== ""));
    this.changed();
  }

  /** The newest first; a word is where a month begins and ends, ms. */
  #months() {
    const now = new Date(this.deps.journal.now());
    const begin = (/** @type {number} */ back) => new Date(now.getFullYear(), now.getMonth() - back, 1);
    return Array.from({ length: monthsBack }, (_, back) => ({ word: `${+begin(back)} ${+begin(back - 1)}`, label: begin(back).toLocaleDateString([], { month: "long", year: "numeric" }) }));
  }
}
