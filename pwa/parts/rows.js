// @ts-check
/** Lists whose rows are drawn one by one, so that one that cannot be drawn hides no other. */
import { make } from "./dom.js";
import { dayAndTime } from "./times.js";
import { plain, say } from "../words/words.js";

/**
 * Fills a list. A row that cannot be drawn says so, by its name and its time.
 * @template T
 * @param {Element} list @param {T[]} items @param {(item: T) => Node} draw
 * @param {(item: T) => {name: unknown, at?: unknown}} about  of a row that cannot be drawn
 */
export function paintRows(list, items, draw, about) {
  list.replaceChildren(...items.map((item) => {
    try {
      return draw(item);
    } catch (err) {
      console.error(err);
      return plainRow(about(item));
    }
  }));
}

/** @param {{name: unknown, at?: unknown}} about */
function plainRow({ name, at }) {
  return make("li", { class: "list__item" },
    make("b", { text: say("row.plain", { name: plain(name) || say("row.nameless") }) }),
    at === undefined ? null : make("span", { text: dayAndTime(/** @type {number} */ (at)) }));
}
