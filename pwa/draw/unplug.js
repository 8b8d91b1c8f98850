// @ts-check
// The plug out of its socket, and the clock for the stored charge.
import { HEAVY, THIN, circle, group, label, line, path, picture, rect } from "./svg.js";
import { arrow } from "./marks.js";
import { english } from "../words/drawings.js";

/**
 * @param {{stage?: string}} params stage: pull or wait
 * @param {import("../words/drawings.js").Words} [words]
 */
export function unplug({ stage = "pull" } = {}, words = english) {
  const waits = stage === "wait";
  const clock = group({ class: "draw-mark", "stroke-width": HEAVY }, circle(254, 84, 46),
    path("M 254 84 L 254 52 M 254 84 L 276 96"), ...[0, 90, 180, 270].map((turn) => line(254, 44, 254, 50, { transform: `rotate(${turn} 254 84)`, "stroke-width": THIN })));
  return picture({
    width: 320, height: 190, ...words.alt.unplug(waits),
  }, rect(14, 36, 74, 96, { rx: 8 }), circle(51, 68, 6, { fill: "currentColor" }), circle(51, 100, 6, { fill: "currentColor" }),
  path("M 118 76 L 140 76 M 118 92 L 140 92", { "stroke-width": HEAVY }),
  path("M 140 62 L 168 62 L 180 74 L 180 94 L 168 106 L 140 106 Z"),
  path(waits ? "M 180 84 Q 204 84 202 124 Q 198 156 120 152 L 14 152" : "M 180 84 Q 250 84 260 120 Q 268 150 314 150"),
  ...(waits ? [clock, label(254, 158, words.waitPlate[0], "middle"), label(254, 178, words.waitPlate[1], "middle")]
    : [arrow(120, 40, 190, 40, { class: "draw-mark", "stroke-width": HEAVY })]));
}
