// @ts-check
/** A table whose columns sort. Where it is too narrow for one, a row is a card, by css/report.css. */
import { make } from "./dom.js";

/** @typedef {import("../types/journal.js").Table} Table */

/** @param {Table} table @param {string} label */
export function tableOf({ columns, rows }, label) {
  const body = make("tbody");
  let by = -1;
  let up = true;
  const heads = columns.map(({ title, number }, n) => make("th", { scope: "col" }, make("button", { class: "sorter", type: "button", text: title, onclick: () => sort(n, number) })));
  const lines = rows.map((row) => ({ row, line: make("tr", {}, ...row.map(({ text, href }, n) => make(n ? "td" : "th", { ...(n ? {} : { scope: "row" }), "data-title": columns[n].title, hidden: text === "" }, href ? make("a", { href, text }) : text))) }));
  body.append(...lines.map(({ line }) => line));

  /** @param {number} n @param {boolean} number */
  function sort(n, number) {
    up = by === n ? !up : true;
    by = n;
    heads.forEach((head, i) => (i === n ? head.setAttribute("aria-sort", up ? "ascending" : "descending") : head.removeAttribute("aria-sort")));
    const order = (/** @type {typeof rows[number]} */ a, /** @type {typeof rows[number]} */ b) => (number ? a[n].value - b[n].value : a[n].text.localeCompare(b[n].text));
    body.append(...[...lines].sort((a, b) => (up ? 1 : -1) * order(a.row, b.row)).map(({ line }) => line));
  }
  return make("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": label }, make("table", { class: "table sorted" }, make("thead", {}, make("tr", {}, ...heads)), body));
}
