// @ts-check
// The machine with air going through it, or with its vents against a wall.
import { HEAVY, THIN, circle, group, label, line, path, picture, rect } from "./svg.js";
import { arrow, hatch } from "./marks.js";
import { english } from "../words/drawings.js";

/**
 * @param {{side?: string}} params side: clear or blocked
 * @param {import("../words/drawings.js").Words} [words]
 */
export function vents({ side = "clear" } = {}, words = english) {
  const blocked = side === "blocked";
  const brick = hatch(8);
  const slots = [0, 1, 2, 3, 4].flatMap((i) => [line(66, 84 + i * 14, 84, 84 + i * 14), line(236, 84 + i * 14, 254, 84 + i * 14)]);
  return picture({
    width: 320, height: 208, ...words.alt.vents(blocked),
  }, brick.defs, rect(58, 66, 204, 94, { rx: 8 }), path("M 120 66 L 120 52 L 200 52 L 200 66"), ...slots,
  circle(134, 114, 16), circle(186, 114, 10), line(134, 114, 143, 105, { "stroke-width": THIN }), path("M 66 160 L 66 168 L 86 168 L 86 160 M 234 160 L 234 168 L 254 168 L 254 160"),
  ...(blocked
    ? [group({ class: "draw-mark" }, rect(264, 20, 20, 150, { fill: brick.fill }), path("M 290 92 L 310 132 M 310 92 L 290 132", { "stroke-width": HEAVY }))]
    : [arrow(8, 112, 50, 112, { class: "draw-mark", "stroke-width": HEAVY }), arrow(268, 112, 312, 112, { class: "draw-mark", "stroke-width": HEAVY })]),
  line(10, 170, 310, 170, { "stroke-width": THIN }), label(160, 200, blocked ? words.ventsShut : words.ventsClear, "middle"));
}
