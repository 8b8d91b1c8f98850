// @ts-check
/** Lists whose rows are drawn one by one, so that one that cannot be drawn hides no other. */
import { make } from "./dom.js";
import { dayAndTime } from "./times.js";
import { plain, say } from "../words/words.js";

/** What each row was drawn of, as text. @type {WeakMap<Element, string>} */
const drawnOf = new WeakMap();

/**
 * Fills a list. A row that cannot be drawn says so, by its name and its time. One that would be the same stays
 * the element it is, with its focus and a press that is under way.
 * @template T
 * @param {Element} list @param {T[]} items @param {(item: T) => Node} draw
 * @param {(item: T) => {name: unknown, at?: unknown}} about  of a row that cannot be drawn
 */
export function renderRows(list, items, draw, about) {
  const before = new Map([...list.children].map((row) => [drawnOf.get(row), row]));
  const rows = items.map((item) => {
    try {
      const row = draw(item);
      const text = JSON.stringify(item);
      const same = before.get(text);
      if (text && same?.isEqualNode(row)) {
        before.delete(text); // of two alike each has its own
        return same;
      }
      if (row instanceof Element) drawnOf.set(row, text);
      return row;
    } catch (err) {
      console.error(err);
      return plainRow(about(item));
    }
  });
  const kept = new Set(rows);
  for (const row of [...list.children]) if (!kept.has(row)) row.remove();
  rows.forEach((row, i) => list.children[i] === row || list.insertBefore(row, list.children[i] ?? null));
}

/** @param {{name: unknown, at?: unknown}} about */
function plainRow({ name, at }) {
  return make("li", { class: "list__item" },
    make("b", { text: say("row.plain", { name: plain(name) || say("row.nameless") }) }),
    at === undefined ? null : make("span", { text: dayAndTime(/** @type {number} */ (at)) }));
}
