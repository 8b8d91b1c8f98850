// @ts-check
/**
 * Shows what a calculator tells: readings, tables, cautions, the sum step by
 * step and what it rests on.
 */
import { caution, clone, make, refs } from "./dom.js";
import { say } from "../words/words.js";

/** @typedef {import("../calc/calls.js").Answer} Answer */
/** @typedef {import("../types/calc.js").ResultDescription} Result */
/** @typedef {import("../types/calc.js").Result} Told */
/** @typedef {import("../types/calc.js").Row} Row */
/** @typedef {import("../types/calc.js").Value} Value */

export class AnswerView {
  /** @type {import("./dom.js").Refs} */ #at;

  /** @param {Result[]} results */
  constructor(results) {
    this.results = results;
    this.element = clone("part-answer");
    this.#at = refs(this.element);
    this.element.hidden = true;
  }

  /** @param {Answer|null} answer @param {{pictures?: SVGElement[], leave?: string[]}} [options] */
  show(answer, { pictures = [], leave = [] } = {}) {
    this.element.hidden = !answer;
    if (!answer) return;
    const shown = this.results.filter((r) => r.key in answer.results && !leave.includes(r.key));
    this.#at.readings.replaceChildren(...shown.filter((r) => r.kind !== "rows").map((r) => readingOf(r, answer.results[r.key])));
    this.#at.rows.replaceChildren(...shown.filter((r) => r.kind === "rows" && rowsOf(answer, r).length > 0).map((r) => tableOf(r, rowsOf(answer, r))));
    this.#at.cautions.replaceChildren(...answer.cautions.map((text) => caution(text)));
    this.#at.pictures.replaceChildren(...pictures.map(figureOf));
    this.#at.pictures.hidden = pictures.length === 0;
    this.#at.working.replaceChildren(...answer.working.map((text) => make("li", {}, make("span", { text }))));
    this.#at.sum.hidden = answer.working.length === 0;
    this.#at.sources.replaceChildren(...answer.sources.map((s) => make("li", { text: s.text })));
    this.#at.from.hidden = answer.sources.length === 0;
  }
}

/** @param {Answer} answer @param {Result} result @returns {Row[]} */
function rowsOf(answer, { key }) {
  return /** @type {Row[]} */ (answer.results[key]);
}

/** A picture under its name, which screen readers hear from the picture itself. @param {SVGElement} picture */
function figureOf(picture) {
  return make("figure", { class: "picture" }, make("figcaption", { text: picture.querySelector("title")?.textContent ?? "", "aria-hidden": "true" }), picture);
}

/** @param {Result} result @param {Row[]} rows @param {import("../types/calc.js").Choice[]} columns */
function cardsOf(result, rows, columns) {
  const [first, ...rest] = columns;
  return make("section", { class: "stack" }, make("h2", { text: result.label }), make("ul", { class: "list" }, ...rows.map((row) => make("li", { class: "list__item" },
    make("b", { text: wordsOf(row[first.word]) }),
    ...rest.filter((c) => c.word in row).map((c) => make("span", { text: `${c.label}: ${wordsOf(row[c.word])}` }))))));
}

/** A labelled reading of a result. @param {Result} result @param {Told} value */
export function readingOf(result, value) {
  const word = result.choices?.find((c) => c.word === value)?.label;
  return reading(result.label, word ?? wordsOf(value), /** @type {Partial<Value>} */ (value).also, Boolean(result.main));
}

/** Sentences take the whole width. @param {string} label @param {string} text @param {string} [also] @param {boolean} [main] */
export function reading(label, text, also = "", main = true) {
  const look = ["reading", !main && "reading--side", text.length > 24 && "reading--wide"].filter(Boolean).join(" ");
  return make("div", { class: look }, make("span", { class: "reading__label", text: label }), readingValue(text),
    also ? make("span", { class: "reading__also", text: also }) : null);
}

/** The number large, its unit smaller beside it; sentences as text. @param {string} text */
function readingValue(text) {
  const match = /^([-−]?[\d.,/-]+)\s*(.*)$/.exec(text);
  if (!match || match[2].length > 14) return make("span", { class: text.length > 12 ? "reading__also" : "reading__value", text });
  return make("span", { class: "reading__value" }, match[1], match[2] ? make("small", { text: ` ${match[2]}` }) : null);
}

/** The words of a result: a quantity's text, yes or no, or the word itself. @param {Told|undefined} value */
export function wordsOf(value) {
  if (value === true) return say("yes");
  if (value === false) return say("no");
  return typeof value === "object" && value !== null ? /** @type {Value} */ (value).text : String(value ?? "").replaceAll("-", " ");
}

/** A cell longer than this makes a table unreadable on a phone: its rows are shown as cards. */
const longCell = 26;

/** @param {Result} result @param {Row[]} rows */
export function tableOf(result, rows) {
  const present = new Set(rows.flatMap((row) => Object.keys(row)));
  const columns = (result.choices ?? [...present].map((k) => ({ word: k, label: k.replaceAll("_", " ") }))).filter((c) => present.has(c.word));
  if (rows.some((row) => columns.some((c) => wordsOf(row[c.word]).length > longCell))) return cardsOf(result, rows, columns);
  const head = make("tr", {}, ...columns.map((c) => make("th", { scope: "col", text: c.label })));
  const body = rows.map((row) => make("tr", {}, ...columns.map((c) => make("td", { text: wordsOf(row[c.word]) }))));
  return make("section", { class: "stack" }, make("h2", { text: result.label }),
    make("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": result.label }, make("table", { class: "table" }, make("thead", {}, head), make("tbody", {}, ...body))));
}
