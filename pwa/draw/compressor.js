// @ts-check
// A compressor on its receiver, with the drain at the lowest point, the gauge
// and the relief valve.
import { HEAVY, THIN, circle, group, line, path, picture, rect } from "./svg.js";
import { leader } from "./marks.js";
import { english } from "../words/drawings.js";

/**
 * @param {{focus?: string}} params focus: none, drain or valve
 * @param {import("../words/drawings.js").Words} [words]
 */
export function compressor({ focus = "none" } = {}, words = english) {
  /** @param {string} part @param {...Node} drawn */
  const part = (part, ...drawn) => group(part === focus ? { class: "draw-mark", "stroke-width": HEAVY } : {}, ...drawn);
  return picture({
    width: 320, height: 232, ...words.alt.compressor(focus),
  }, rect(24, 112, 272, 72, { rx: 36 }), path("M 64 182 L 58 206 M 256 182 L 262 206"),
  rect(60, 74, 52, 38, { rx: 4 }), circle(150, 86, 26), circle(150, 86, 5), circle(74, 92, 9),
  path("M 70 83 L 146 60 M 76 101 L 148 112", { "stroke-width": THIN }),
  line(204, 112, 204, 98), circle(204, 82, 16, { class: "draw-paper" }), line(204, 82, 212, 73, { "stroke-width": THIN }),
  leader(172, 46, words.gauge, "middle", 196, 68),
  part("valve", path("M 252 114 L 252 98 M 244 98 L 260 98 L 258 78 L 246 78 Z M 252 78 L 252 70"), circle(252, 62, 8, { "stroke-width": THIN }),
    leader(252, 24, words.reliefValve, "middle", 252, 54)),
  part("drain", path("M 160 184 L 160 196 M 152 196 L 168 196 L 168 206 L 152 206 Z M 168 201 L 182 201 M 160 206 L 160 214"),
    leader(222, 224, words.drain, "start", 182, 203)));
}
