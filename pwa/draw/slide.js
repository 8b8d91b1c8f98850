// @ts-check
// A head that starts by contact, cut open: electrode and tip touch, or the air
// has pushed them apart, or it could not.
import { HEAVY, THIN, group, path, picture } from "./svg.js";
import { arrow, hatch, leader } from "./marks.js";
import { english } from "../words/drawings.js";

/**
 * @param {{state?: string}} params state: rest, apart or stuck
 * @param {import("../words/drawings.js").Words} [words]
 */
export function slide({ state = "rest" } = {}, words = english) {
  const metal = hatch(7);
  const isApart = state === "apart";
  const end = isApart ? 154 : 180;
  const says = { apart: words.gapPilot, stuck: words.stuckShut }[state] ?? words.touching;
  const coils = [0, 1, 2, 3].map((i) => 14 + i * (end - 114) / 4);
  return picture({ width: 320, height: 222, ...words.alt.slide(state) }, metal.defs,
    ...[1, -1].map((side) => path("M -66 60 L -66 150 L -16 206 L -4 206 L -4 180 L -10 180 L -50 138 L -50 60 Z", { fill: metal.fill, transform: `translate(110 0) scale(${side} 1)` })),
    path(`M 84 ${end - 94} L 136 ${end - 94} L 136 ${end - 26} L 118 ${end} L 102 ${end} L 84 ${end - 26} Z`, { class: "draw-paper" }),
    path(`M 84 8 L 136 8 ${coils.map((y, i) => `L ${i % 2 ? 84 : 136} ${y}`).join(" ")} L 110 ${end - 94}`, { "stroke-width": THIN }),
    ...(state === "rest" ? [] : [72, 148].map((x) => arrow(x, 64, x, 118))),
    leader(190, 106, words.parts.electrode, "start", 128, 108), leader(190, 204, words.parts.tip, "start", 146, 170),
    group({ class: "draw-mark" }, ...(isApart ? [path("M 104 157 L 112 164 L 106 168 L 114 180", { "stroke-width": HEAVY })] : []),
      leader(190, 150, says, "start", 116, isApart ? 170 : 180)));
}
