// @ts-check
// The end of a cut: the drop-off held from below, or left to swing.
import { HEAVY, LINE, THIN, group, label, line, path, picture, rect } from "./svg.js";
import { arrow, hatch } from "./marks.js";
import { english } from "../words/drawings.js";

/**
 * @param {{drop?: string}} params drop: held or free
 * @param {import("../words/drawings.js").Words} [words]
 */
export function support({ drop = "held" } = {}, words = english) {
  const held = drop !== "free";
  const metal = hatch(8);
  const trestle = (/** @type {number} */ x) => path(`M ${x - 20} 190 L ${x - 8} 124 L ${x + 8} 124 L ${x + 20} 190 M ${x - 14} 160 L ${x + 14} 160`);
  const piece = held
    ? [rect(196, 96, 108, 20, { fill: metal.fill }), group({ class: "draw-mark" }, path("M 232 190 L 240 124 L 264 124 L 272 190 M 234 156 L 270 156", { "stroke-width": HEAVY })),
      rect(228, 116, 48, 8, { class: "draw-paper" })]
    : [group({ transform: "rotate(38 196 116)", class: "draw-mark" }, rect(196, 96, 108, 20, { fill: metal.fill, "stroke-width": HEAVY })),
      arrow(292, 96, 292, 148, { "stroke-width": LINE })];
  return picture({
    width: 320, height: 232, ...words.alt.support(held),
  }, metal.defs, rect(16, 96, 172, 20, { fill: metal.fill }), trestle(56), trestle(140),
  rect(36, 116, 40, 8), rect(120, 116, 40, 8), ...piece,
  line(192, 70, 192, 132, { "stroke-dasharray": "7 6" }), label(192, 60, words.cutLine, "middle"),
  line(8, 191, 312, 191, { "stroke-width": THIN }), label(160, 222, held ? words.dropHeld : words.dropFree, "middle"));
}
