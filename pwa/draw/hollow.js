// @ts-check
// A closed tube being cut: sealed, with the pressure that heat makes in it, or
// vented at its end first.
import { HEAVY, THIN, circle, group, label, path, picture } from "./svg.js";
import { arrow, hatch, leader } from "./marks.js";
import { english } from "../words/drawings.js";

const [LEFT, RIGHT, TOP, BOTTOM, WALL] = [16, 304, 96, 176, 10];

/**
 * @param {{vent?: string}} params vent: no or yes
 * @param {import("../words/drawings.js").Words} [words]
 */
export function hollow({ vent = "no" } = {}, words = english) {
  const isVented = vent === "yes";
  const metal = hatch(7);
  const outer = `M ${LEFT} ${TOP} L ${RIGHT} ${TOP} L ${RIGHT} ${BOTTOM} L ${LEFT} ${BOTTOM} Z`;
  const inner = `M ${LEFT + WALL} ${TOP + WALL} L ${LEFT + WALL} ${BOTTOM - WALL} L ${RIGHT - WALL} ${BOTTOM - WALL} L ${RIGHT - WALL} ${TOP + WALL} Z`;
  const opening = isVented
    ? [path(`M 252 ${TOP - 1} L 268 ${TOP - 1} L 268 ${TOP + WALL + 1} L 252 ${TOP + WALL + 1} Z`, { class: "draw-paper", stroke: "none" }),
      path(`M 252 ${TOP} L 252 ${TOP + WALL} M 268 ${TOP} L 268 ${TOP + WALL}`), arrow(260, 130, 260, 46, { class: "draw-mark", "stroke-width": HEAVY }),
      label(260, 34, words.vent, "middle")]
    : [...[[60, 136, 32, 136], [260, 136, 288, 136], [160, 150, 160, 164], [210, 150, 210, 164], [110, 150, 110, 164]].map(
      ([a, b, c, d]) => arrow(a, b, c, d, { class: "draw-mark", "stroke-width": HEAVY })),
    leader(160, 222, words.nowhere, "middle", 210, 140)];
  return picture({
    width: 320, height: 232, ...words.alt.hollow(isVented),
  }, metal.defs, path(`${outer} ${inner}`, { fill: metal.fill, "fill-rule": "evenodd" }),
  path("M 64 92 L 56 44 L 76 44 L 68 92", { class: "draw-paper" }), group({ class: "draw-mark" }, path("M 66 94 L 66 112", { "stroke-width": HEAVY }), circle(66, 116, 3, { "stroke-width": THIN })),
  label(66, 34, words.heat, "middle"), ...opening);
}
