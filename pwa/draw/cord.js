// @ts-check
// The supply cord: laid out straight, or left on its drum, where it heats.
import { HEAVY, LINE, THIN, circle, group, label, line, path, picture, rect } from "./svg.js";
import { english } from "../words/drawings.js";

/**
 * @param {{laid?: string}} params laid: out or coiled
 * @param {import("../words/drawings.js").Words} [words]
 */
export function cord({ laid = "out" } = {}, words = english) {
  const coiled = laid === "coiled";
  const run = coiled
    ? [path("M 58 96 Q 78 150 108 150 L 116 150"), circle(160, 128, 50), circle(160, 128, 14),
      group({ class: "draw-mark", "stroke-width": HEAVY }, circle(160, 128, 22), circle(160, 128, 30), circle(160, 128, 38)),
      ...[-18, 0, 18].map((x) => path(`M ${160 + x} 66 q -7 -9 0 -18 q 7 -9 0 -18`, { "stroke-width": LINE, class: "draw-mark" })),
      path("M 208 140 Q 230 148 244 120"), path("M 118 178 L 202 178 M 130 164 L 124 178 M 190 164 L 196 178")]
    : [path("M 58 96 Q 66 150 96 148 L 216 144 Q 238 142 244 120", { "stroke-width": HEAVY })];
  return picture({
    width: 320, height: 216, ...words.alt.cord(coiled),
  }, rect(14, 50, 44, 62, { rx: 5 }), circle(36, 72, 4, { fill: "currentColor" }), circle(36, 90, 4, { fill: "currentColor" }),
  rect(244, 76, 66, 62, { rx: 5 }), line(256, 92, 298, 92, { "stroke-width": THIN }), line(256, 102, 298, 102, { "stroke-width": THIN }), circle(290, 122, 6),
  ...run, label(160, 208, coiled ? words.coiled : words.laidOut, "middle"));
}
