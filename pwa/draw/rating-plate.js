// @ts-check
// A rating plate, made up: no maker's layout. One figure on it is marked.
import { HEAVY, THIN, group, label, line, picture, rect } from "./svg.js";
import { english } from "../words/drawings.js";

/** Edges of the columns of the upper rows and of the last one; a row is so high. */
const upper = [2, 70, 153, 236, 318];
const last = [2, 100, 214, 318];
const high = 27;

/** What each mark goes round: row, rows and columns. @type {Record<string, [row: number, rows: number, from: number, to: number]>} */
const marks = {
  duty: [0, 2, 70, 318], amps: [1, 1, 70, 153], volts: [3, 1, 2, 100], draws: [3, 1, 100, 214], warms: [3, 1, 214, 318],
};

/**
 * @param {{mark?: string}} params mark: volts, amps, duty, draws or warms
 * @param {import("../words/drawings.js").Words} [words]
 */
export function ratingPlate({ mark = "amps" } = {}, words = english) {
  const [row, rows, from, to] = marks[mark] ?? marks.amps;
  const texts = words.plateRows.map((cells, i) => cells.map((text, k) => label((i < 3 ? upper : last)[k] + 7, 22 + i * high, text)));
  return picture({ width: 320, height: 112, ...words.alt.ratingPlate(mark) },
    rect(2, 2, 316, 4 * high, { rx: 6 }),
    group({ "stroke-width": THIN }, ...[1, 2, 3].map((i) => line(2, 2 + i * high, 318, 2 + i * high)),
      ...upper.slice(1, -1).map((x) => line(x, 2, x, 2 + 3 * high)), ...last.slice(1, -1).map((x) => line(x, 2 + 3 * high, x, 2 + 4 * high))),
    ...texts.flat(),
    rect(from + 2, 4 + row * high, to - from - 4, rows * high - 4, { class: "draw-mark", "stroke-width": HEAVY, rx: 3 }));
}
