// @ts-check
// The kerf through the plate, cut across and to scale, with the bore of the tip
// above it: how much metal the cut takes.
import { HEAVY, THIN, circle, label, line, path, picture, rect } from "./svg.js";
import { hatch, leader, measure } from "./marks.js";
import { english } from "../words/drawings.js";

const [LEFT, RIGHT, TOP, DEEP, WIDE] = [12, 308, 84, 110, 92];

/**
 * Millimetres.
 * @param {{kerf: number, thickness: number, bore: number}} params
 * @param {import("../words/drawings.js").Words} [words]
 */
export function kerf({ kerf, thickness, bore }, words = english) {
  const scale = Math.min(DEEP / thickness, WIDE / kerf);
  const [depth, half, tip] = [thickness * scale, Math.max(kerf * scale / 2, 1), Math.max(bore * scale / 2, 0.75)];
  const metal = hatch(9);
  const centre = 132;
  const [a, b, bottom] = [centre - half, centre + half, TOP + depth];
  return picture({
    width: 320, height: bottom + 50, ...words.alt.kerf(words.length(kerf, "kerf"), words.length(thickness, "plate"), words.length(bore)),
  }, metal.defs,
  rect(LEFT, TOP, a - LEFT, depth, { fill: metal.fill, stroke: "none" }), rect(b, TOP, RIGHT - b, depth, { fill: metal.fill, stroke: "none" }),
  path(`M ${LEFT} ${TOP} L ${a} ${TOP} L ${a} ${bottom} L ${LEFT} ${bottom} M ${RIGHT} ${TOP} L ${b} ${TOP} L ${b} ${bottom} L ${RIGHT} ${bottom}`),
  path(`M ${centre - 40} 8 L ${centre - 40} 28 L ${centre - 18} 50 L ${centre - tip} 50 L ${centre - tip} 8 M ${centre + 40} 8 L ${centre + 40} 28 L ${centre + 18} 50 L ${centre + tip} 50 L ${centre + tip} 8`, { "stroke-width": HEAVY }),
  leader(188, 26, `${words.bore} ${words.length(bore)}`, "start", centre + tip, 40),
  tagged(words.length(thickness, "plate"), depth), measure(252, TOP, 252, bottom),
  line(a, bottom + 10, a, bottom + 26, { "stroke-width": THIN }), line(b, bottom + 10, b, bottom + 26, { "stroke-width": THIN }),
  line(a, bottom + 18, b, bottom + 18, { "stroke-width": HEAVY, class: "draw-mark" }), circle(a, bottom + 18, 0.1), label(b + 12, bottom + 24, `${words.kerf} ${words.length(kerf, "kerf")}`));
}

/** The thickness, clear of the hatching. @param {string} text @param {number} depth */
function tagged(text, depth) {
  return label(306, depth < 24 ? TOP - 8 : TOP - 10, text, "end");
}
