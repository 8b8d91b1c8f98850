// @ts-check
// The seal check of a half mask from the side: a palm over the inlet and the
// mask sucks in, or a palm over the outlet and it bulges. Dashed is the mask
// at rest.
import { THIN, circle, ellipse, group, label, line, path, picture } from "./svg.js";
import { arrow, hatch, leader } from "./marks.js";
import { english } from "../words/drawings.js";

const [REST, IN, OUT] = [
  "M 174 82 Q 230 118 222 150 Q 214 178 156 186",
  "M 174 82 Q 212 116 206 148 Q 198 172 156 186",
  "M 174 82 Q 252 116 242 152 Q 230 186 156 186",
];

/**
 * @param {{breath?: string}} params breath: in or out
 * @param {import("../words/drawings.js").Words} [words]
 */
export function mask({ breath = "in" } = {}, words = english) {
  const out = breath === "out";
  const palm = hatch(6);
  const [x, y, r] = out ? [216, 164, 15] : [166, 140, 20];
  const says = out ? words.breatheOut : words.breatheIn;
  return picture({
    width: 320, height: 232, ...words.alt.mask(out),
  }, palm.defs,
  path("M 60 224 C 62 190 32 168 32 108 C 32 44 78 12 116 12 C 158 12 178 40 174 82 M 156 186 Q 134 196 116 192 L 114 224"),
  ellipse(80, 122, 10, 17), circle(154, 80, 4, { fill: "currentColor" }),
  path("M 140 116 L 36 82 M 138 160 Q 84 168 40 144", { "stroke-width": THIN }),
  path("M 174 82 Q 118 128 156 186"), path(out ? OUT : IN), path(REST, { "stroke-width": THIN, "stroke-dasharray": "6 6" }),
  circle(166, 140, 14), line(156, 140, 176, 140, { "stroke-width": THIN }),
  circle(out ? 220 : 192, out ? 164 : 158, 7),
  ...(out ? [arrow(238, 124, 260, 112)] : [arrow(250, 112, 218, 122)]),
  group({ class: "draw-mark" }, circle(x, y, r, { fill: palm.fill }), leader(252, 214, words.palm, "start", x + r * 0.3, y + r * 0.95)),
  label(200, 40, says[0]), label(200, 62, says[1]));
}
