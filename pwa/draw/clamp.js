// @ts-check
// A plate from above with the cut across it and the work clamp: where it
// belongs, or in one of the wrong places. Hatching is paint or rust.
import { HEAVY, THIN, circle, group, label, line, path, picture, rect } from "./svg.js";
import { hatch } from "./marks.js";
import { english } from "../words/drawings.js";

const CUT = 212; // x of the cut; what is right of it drops off

/**
 * @param {{at?: string}} params at: near, far, paint or drop-off
 * @param {import("../words/drawings.js").Words} [words]
 */
export function clamp({ at = "near" } = {}, words = english) {
  const paint = hatch(11);
  const x = { near: 172, far: 44, paint: 172, "drop-off": 262 }[at] ?? 172;
  const says = { near: words.clampNear, far: words.clampFar, paint: words.clampPaint, "drop-off": words.clampDrop }[at] ?? words.clampNear;
  const bright = at === "paint" ? [] : [rect(x - 26, 112, 52, 46, { class: "draw-paper", "stroke-width": THIN })];
  return picture({
    width: 320, height: 250, ...words.alt.clamp(at),
  }, paint.defs, rect(14, 36, 292, 122, { fill: paint.fill }), ...bright,
  rect(CUT - 4, 36, 8, 122, { class: "draw-paper", stroke: "none" }),
  line(CUT, 26, CUT, 168, { "stroke-dasharray": "10 7", "stroke-width": HEAVY }),
  label(CUT, 19, words.cutLine, "middle"),
  group({ class: "draw-mark" }, jaw(x)),
  label(160, 243, says, "middle"));
}

/** @param {number} x */
function jaw(x) {
  return group({ "stroke-width": HEAVY },
    path(`M ${x - 15} 128 L ${x + 15} 128 L ${x + 15} 170 L ${x + 9} 190 L ${x - 9} 190 L ${x - 15} 170 Z`, { class: "draw-paper" }),
    path(`M ${x - 15} 138 L ${x + 15} 138 M ${x - 15} 148 L ${x + 15} 148`, { "stroke-width": THIN }),
    circle(x, 172, 5),
    path(`M ${x} 190 C ${x} 216 ${x > 160 ? x - 34 : x + 34} 206 ${x > 160 ? x - 62 : x + 62} 212`));
}
