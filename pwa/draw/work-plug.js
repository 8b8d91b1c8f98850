// @ts-check
// The work lead's plug at the machine: turned home, or loose and hot.
import { HEAVY, LINE, THIN, group, label, line, path, picture, rect } from "./svg.js";
import { arrow, hatch } from "./marks.js";
import { english } from "../words/drawings.js";

/**
 * @param {{state?: string}} params state: home or loose
 * @param {import("../words/drawings.js").Words} [words]
 */
export function workPlug({ state = "home" } = {}, words = english) {
  const home = state !== "loose";
  const x = home ? 84 : 108;
  const panel = hatch(8);
  return picture({
    width: 320, height: 190, ...words.alt.workPlug(home),
  }, panel.defs, rect(24, 14, 40, 142, { fill: panel.fill }), rect(64, 58, 20, 54),
  line(84, 74, x, 74), line(84, 96, x, 96),
  path(`M ${x} 56 L ${x + 86} 56 L ${x + 110} 72 L ${x + 110} 98 L ${x + 86} 114 L ${x} 114 Z`),
  ...[66, 78, 92, 104].map((y) => line(x + 14, y, x + 74, y, { "stroke-width": THIN })),
  path(`M ${x + 110} 76 Q 270 78 314 116 M ${x + 110} 94 Q 262 96 302 132`),
  group({ class: "draw-mark", "stroke-width": home ? HEAVY : LINE }, ...(home
    ? [path("M 108 130 Q 92 84 108 46"), arrow(108, 46, 116, 32)]
    : [-22, 0, 22].map((dx) => path(`M ${x + 44 + dx} 48 q -7 -9 0 -18 q 7 -9 0 -18`)))),
  label(160, 182, home ? words.turnedHome : words.looseHeats, "middle"));
}
