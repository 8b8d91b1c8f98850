// @ts-check
// A gauge pin or drill shank tried in the tip's orifice: the tip cut through
// the middle, the pin coming from the front, which is below.
import { HEAVY, THIN, group, label, line, path, picture } from "./svg.js";
import { arrow, hatch, leader } from "./marks.js";
import { english } from "../words/drawings.js";

const CX = 118;

/**
 * @param {{fits?: string}} params fits: yes or no
 * @param {import("../words/drawings.js").Words} [words]
 */
export function gaugePin({ fits = "yes" } = {}, words = english) {
  const goes = fits !== "no";
  const metal = hatch(8);
  const half = goes ? 8 : 13;
  const top = goes ? 70 : 133;
  const side = (/** @type {1 | -1} */ s) =>
    `M ${CX + s * 10} 130 L ${CX + s * 10} 84 L ${CX + s * 42} 56 L ${CX + s * 42} 20 L ${CX + s * 86} 20 L ${CX + s * 86} 46 L ${CX + s * 70} 46 L ${CX + s * 70} 84 L ${CX + s * 28} 130 Z`;
  return picture({
    width: 320, height: 246, ...words.alt.gaugePin(goes),
  }, metal.defs, path(side(1), { fill: metal.fill }), path(side(-1), { fill: metal.fill }),
  group({ class: "draw-mark", "stroke-width": HEAVY }, path(`M ${CX - half} 200 L ${CX - half} ${top + 5} Q ${CX} ${top - 3} ${CX + half} ${top + 5} L ${CX + half} 200`, { class: "draw-paper" }),
    line(CX - half - 12, 200, CX + half + 12, 200)),
  arrow(CX, 240, CX, 210), leader(226, 178, words.pin, "start", CX + half - 1, 178),
  leader(226, 108, words.parts.tip, "start", CX + 44, 104), label(226, 34, goes ? words.goesIn : words.stops), line(216, 30, 206, 30, { "stroke-width": THIN }));
}
