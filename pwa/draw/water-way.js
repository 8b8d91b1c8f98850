// @ts-check
// Where the water of the air settles: from the compressor's tank through the
// hose to the trap before the machine, and how full the trap's bowl stands when
// it is drained.
import { HEAVY, LINE, THIN, circle, el, freshId, group, label, line, number, path, picture, rect } from "./svg.js";
import { arrow } from "./marks.js";
import { english } from "../words/drawings.js";

/**
 * @param {{tank: string, trap: string, drain: string, level?: number, share?: number}} params
 *   tank, trap: how much settles there, drain: how often to drain, all as text;
 *   level: of the bowl then, share: of all the water that the tank keeps, 0 to 1
 * @param {import("../words/drawings.js").Words} [words]
 */
export function waterWay(params, words = english) {
  const { tank, trap, drain } = params;
  const level = Math.min(1, Math.max(0, number(params.level, 0)));
  const kept = Math.min(1, Math.max(0, number(params.share, 0)));
  const surface = 136 - 56 * kept;
  const bowl = 154 - 54 * level;
  const inTank = within(rect(12, 66, 128, 70, { rx: 34 }));
  const inBowl = within(path("M 216 100 L 216 142 Q 216 154 228 154 L 252 154 Q 264 154 264 142 L 264 100 Z"));
  return picture({
    width: 320, height: 262, ...words.alt.waterWay(tank, trap, drain, level),
  },
  // The tank on its feet with the pump on top, its drain below.
  inTank.defs, inBowl.defs,
  path("M 34 66 L 34 44 L 66 44 L 66 66 M 44 44 L 44 32 L 56 32 L 56 44"), circle(90, 54, 11), line(66, 54, 79, 54),
  path("M 34 134 L 28 150 M 118 134 L 124 150"), path("M 76 136 L 76 148 M 68 148 L 84 148", { "stroke-width": HEAVY }),
  ...(kept > 0 ? [water(12, surface, 128, 136, inTank.url)] : []),
  rect(12, 66, 128, 70, { rx: 34, "stroke-width": HEAVY }),
  // The hose and the trap at the machine.
  path("M 140 92 Q 158 92 162 110 T 186 116 Q 196 112 196 92 L 208 92", { "stroke-width": HEAVY }),
  ...(level > 0 ? [water(216, bowl, 48, 154, inBowl.url)] : []),
  rect(208, 80, 64, 20), path("M 216 100 L 216 142 Q 216 154 228 154 L 252 154 Q 264 154 264 142 L 264 100"),
  path("M 240 154 L 240 166 M 232 166 L 248 166", { "stroke-width": HEAVY }), arrow(276, 90, 312, 90),
  label(6, 22, words.tank), label(240, 66, words.trapHere, "middle"),
  label(76, 178, tank, "middle"), label(240, 192, trap, "middle"),
  line(12, 212, 308, 212, { "stroke-width": THIN }), label(14, 242, `${words.drainEvery} ${drain}`));
}

/** What is drawn inside a shape alone. @param {SVGElement} shape */
function within(shape) {
  const id = freshId("draw-clip");
  return { defs: el("defs", {}, el("clipPath", { id }, shape)), url: `url(#${id})` };
}

/** @param {number} x @param {number} top @param {number} wide @param {number} bottom @param {string} clip */
function water(x, top, wide, bottom, clip) {
  return group({ class: "draw-mark", "clip-path": clip }, rect(x, top, wide, bottom - top, { fill: "currentColor", "fill-opacity": 0.28, stroke: "none" }),
    line(x, top, x + wide, top, { "stroke-width": LINE }));
}
