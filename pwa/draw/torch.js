// @ts-check
// The torch seen from the side, for the drawings that show how it is held. It
// is drawn upright with the end of its tip at 0, 0; turn it there.
import { THIN, group, line, path } from "./svg.js";

/**
 * @param {number} x @param {number} y where the tip ends
 * @param {number} lean degrees clockwise from upright
 */
export function torch(x, y, lean) {
  return group({ transform: `translate(${x} ${y}) rotate(${lean})` },
    path("M -4 -8 L -10 -18 L -10 -24 L -20 -34 L -20 -58 L 20 -58 L 20 -34 L 10 -24 L 10 -18 L 4 -8 Z", { class: "draw-paper" }),
    line(-20, -46, 20, -46, { "stroke-width": THIN }),
    path("M -17 -58 L -17 -84 Q -17 -98 -3 -100 L 58 -112 L 62 -92 L 22 -82 Q 17 -80 17 -74 L 17 -58", { class: "draw-paper" }),
    path("M 28 -83 Q 30 -70 40 -72 L 46 -88"));
}
