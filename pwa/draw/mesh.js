// @ts-check
// Expanded metal from above with the cut across it: the arc goes out at each
// gap, or stays on a strip of scrap.
import { HEAVY, circle, group, label, line, path, picture, rect } from "./svg.js";
import { hatch } from "./marks.js";
import { english } from "../words/drawings.js";

/**
 * @param {{strip?: string}} params strip: no or yes
 * @param {import("../words/drawings.js").Words} [words]
 */
export function mesh({ strip = "no" } = {}, words = english) {
  const covered = strip === "yes";
  const metal = hatch(8);
  const strand = (/** @type {number} */ y, /** @type {number} */ rise) => path(`M 16 ${y}${` l 24 ${-rise} l 24 ${rise}`.repeat(6)}`, { "stroke-width": HEAVY });
  return picture({
    width: 320, height: 190, ...words.alt.mesh(covered),
  }, metal.defs, ...[34, 82, 130].flatMap((y) => [strand(y, 24), strand(y, -24)]),
  ...(covered ? [rect(8, 66, 304, 32, { class: "draw-paper" }), rect(8, 66, 304, 32, { fill: metal.fill })] : []),
  group({ class: "draw-mark", "stroke-width": HEAVY }, ...(covered ? [line(8, 82, 312, 82)]
    : [0, 1, 2, 3, 4, 5].map((i) => circle(40 + i * 48, 82, 7)))),
  label(160, 182, covered ? words.scrapStrip : words.outAtGaps, "middle"));
}
