// @ts-check
// A quick coupler with the plug pushed home, or stopped half way.
import { HEAVY, THIN, group, label, line, path, picture, rect } from "./svg.js";
import { arrow, leader } from "./marks.js";
import { english } from "../words/drawings.js";

/**
 * @param {{state?: string}} params state: home or short
 * @param {import("../words/drawings.js").Words} [words]
 */
export function coupler({ state = "home" } = {}, words = english) {
  const home = state !== "short";
  const gap = home ? 0 : 26;
  const sleeve = home ? 128 : 106; // the sleeve springs forward when the plug is home
  return picture({
    width: 320, height: 196, ...words.alt.coupler(home),
  }, path("M 6 84 L 58 84 M 6 120 L 58 120"), rect(58, 76, 100, 52),
  rect(sleeve - 34, 66, 62, 72, { rx: 6, class: "draw-paper" }),
  ...[0, 14, 28, 42].map((x) => line(sleeve - 24 + x, 74, sleeve - 24 + x, 130, { "stroke-width": THIN })),
  group({ class: home ? "draw-part" : "draw-mark" },
    path(`M ${158 + gap} 88 L ${176 + gap} 88 L ${176 + gap} 78 L ${214 + gap} 78 L ${214 + gap} 126 L ${176 + gap} 126 L ${176 + gap} 116 L ${158 + gap} 116`, home ? {} : { "stroke-width": HEAVY }),
    ...(home ? [] : [path("M 158 88 L 186 88 M 158 116 L 186 116"), leader(150, 176, words.neckShows, "middle", 172, 112)])),
  path(`M ${214 + gap} 86 L 314 86 M ${214 + gap} 118 L 314 118`),
  ...(home ? [arrow(230, 150, 150, 150), label(160, 184, words.pushedHome, "middle")] : []),
  label(64, 52, words.sleeve), line(96, 56, sleeve - 6, 66, { "stroke-width": THIN }));
}
