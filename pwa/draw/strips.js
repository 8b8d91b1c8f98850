// @ts-check
// Three trial strips beside one another, cut slower, as planned and faster,
// seen from below: what hangs there tells the speed.
import { HEAVY, THIN, circle, group, label, line, path, picture, rect } from "./svg.js";
import { arrow } from "./marks.js";
import { english } from "../words/drawings.js";

/**
 * @param {{length?: number}} params length of each strip in millimetres, for the measure
 * @param {import("../words/drawings.js").Words} [words]
 */
export function strips({ length = 100 } = {}, words = english) {
  const rows = [
    { y: 50, says: words.slower, dross: [34, 60, 88, 116, 140, 168, 190].map((x, i) => circle(x, 70, 6 + i % 3 * 2)) },
    { y: 116, says: words.planned, dross: [] },
    { y: 182, says: words.faster, dross: [path("M 24 202 q 12 -5 24 0 t 24 0 t 24 0 t 24 0 t 24 0 t 24 0 t 24 0", { "stroke-width": 6 })] },
  ];
  return picture({
    width: 320, height: 250, ...words.alt.strips(),
  }, arrow(24, 24, 190, 24), label(206, 30, words.length(length, "marking")),
  ...rows.flatMap(({ y, says, dross }) => [
    rect(14, y - 6, 192, 50), line(24, y + 20, 196, y + 20, { "stroke-width": THIN }),
    line(24, y + 8, 24, y + 32), line(196, y + 8, 196, y + 32),
    group({ class: "draw-mark", "stroke-width": HEAVY }, ...dross), label(216, y + 26, says),
  ]));
}
