// @ts-check
// A piece to scale with the point at which it balances: the face of a plate, or
// the section of a bar with the bar below it.
import { HEAVY, LINE, THIN, circle, group, label, line, path, picture, rect } from "./svg.js";
import { hatch, measure } from "./marks.js";
import { english } from "../words/drawings.js";

const [LEFT, TOP, WIDE, HIGH] = [16, 20, 172, 170];

/**
 * Millimetres, measured from the lower left corner of the outline's box.
 * @param {{contours: [number, number][][], at: [number, number], across: number, up: number, length?: number, middle?: number}} params
 *   contours: closed lines, the metal between them; length and middle: of a bar
 * @param {import("../words/drawings.js").Words} [words]
 */
export function piece({ contours, at, across, up, length, middle }, words = english) {
  const scale = Math.min(WIDE / across, HIGH / up);
  const [wide, high] = [Math.max(across * scale, 2), Math.max(up * scale, 2)];
  const [x0, y0] = [LEFT + (WIDE - wide) / 2, TOP + high];
  const x = (/** @type {number} */ v) => x0 + v * scale;
  const y = (/** @type {number} */ v) => y0 - v * scale;
  const metal = hatch(10);
  const lines = contours.map((c) => `M ${c.map(([px, py]) => `${x(px).toFixed(1)} ${y(py).toFixed(1)}`).join(" L ")} Z`).join(" ");
  const bar = length === undefined ? [] : barBelow(y0 + 74, words.length(length, "marking"), words.length(middle ?? 0, "marking"), words);
  return picture({
    width: 320, height: y0 + 44 + (length === undefined ? 0 : 112), ...words.alt.piece(words.length(across, "marking"), words.length(up, "marking"), length === undefined ? undefined : { long: words.length(length, "marking"), middle: words.length(middle ?? 0, "marking") }),
  }, metal.defs, path(lines, { fill: metal.fill, "fill-rule": "evenodd", stroke: "none" }), path(lines, { "stroke-width": HEAVY }),
  measure(x0, y0 + 16, x0 + wide, y0 + 16), label(LEFT + WIDE / 2, y0 + 38, words.length(across, "marking"), "middle"),
  measure(LEFT + WIDE + 14, y0 - high, LEFT + WIDE + 14, y0), label(LEFT + WIDE + 24, y0 - high / 2 + 6, words.length(up, "marking")),
  cross(x(at[0]), y(at[1])), ...bar);
}

/** The mark of a centre of gravity. @param {number} x @param {number} y */
function cross(x, y) {
  return group({ class: "draw-mark" }, circle(x, y, 11, { class: "draw-paper" }),
    path(`M ${x} ${y} L ${x} ${y - 11} A 11 11 0 0 1 ${x + 11} ${y} Z M ${x} ${y} L ${x} ${y + 11} A 11 11 0 0 1 ${x - 11} ${y} Z`, { fill: "currentColor", stroke: "none" }),
    circle(x, y, 11, { "stroke-width": LINE }));
}

/** @param {number} y @param {string} long @param {string} middle @param {import("../words/drawings.js").Words} words */
function barBelow(y, long, middle, words) {
  return [rect(LEFT, y, 288, 22), measure(LEFT, y + 36, LEFT + 144, y + 36), label(LEFT + 72, y + 58, middle, "middle"),
    line(LEFT + 144, y + 28, LEFT + 144, y + 42, { "stroke-width": THIN }), label(LEFT + 288, y + 58, `${words.long} ${long}`, "end"), cross(LEFT + 144, y + 11)];
}
