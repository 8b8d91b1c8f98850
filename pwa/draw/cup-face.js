// @ts-check
// The shield cup seen from the front: the tip in the middle, the air holes
// round it; shut ones are filled.
import { HEAVY, LINE, THIN, circle, group, number, path, picture } from "./svg.js";
import { crack, leader, polar } from "./marks.js";
import { english } from "../words/drawings.js";

const [CX, CY] = [130, 125];

/**
 * @param {{holes?: number, clogged?: number, crack?: string}} params
 * @param {import("../words/drawings.js").Words} [words]
 */
export function cupFace(params = {}, words = english) {
  const holes = Math.max(1, Math.round(number(params.holes, 8)));
  const shut = shutHoles(holes, Math.round(number(params.clogged, 0)));
  const cracked = params.crack === "yes";
  const size = Math.min(12, 170 / holes);
  const marks = [];
  for (let i = 0; i < holes; i += 1) {
    const [x, y] = polar(CX, CY, 74, (i + 0.5) * 360 / holes);
    marks.push(shut.has(i)
      ? group({ class: "draw-mark" }, path(blob(x, y, size), { fill: "currentColor", "stroke-width": HEAVY }))
      : circle(x, y, size));
  }
  if (shut.size > 0) {
    const [x, y] = polar(CX, CY, 74, (Math.min(...shut) + 0.5) * 360 / holes);
    marks.push(leader(262, 40, words.shut, "start", x + size + 2, y - 2));
  }
  if (cracked) {
    const between = Math.round(holes / 4) * 360 / holes; // a gap between two holes, near the right
    const [x1, y1] = polar(CX, CY, 36, between);
    const [x2, y2] = polar(CX, CY, 112, between);
    marks.push(group({ class: "draw-mark", "stroke-width": HEAVY }, crack(x1, y1, x2, y2)),
      leader(258, 205, words.crack, "start", (x1 + 2 * x2) / 3, (y1 + 2 * y2) / 3 + 6));
  }
  return picture({
    width: 320, height: 250, ...words.alt.cupFace(holes, shut.size, cracked),
  }, circle(CX, CY, 112), circle(CX, CY, 100, { "stroke-width": THIN }), circle(CX, CY, 36),
  circle(CX, CY, 24, { "stroke-width": THIN }), circle(CX, CY, 4, { fill: "currentColor", "stroke-width": LINE }), ...marks);
}

/**
 * Which holes are drawn shut: spread evenly, the first at the upper right.
 * @param {number} holes @param {number} clogged
 */
function shutHoles(holes, clogged) {
  /** @type {Set<number>} */
  const shut = new Set();
  const count = Math.min(holes, Math.max(0, clogged));
  for (let i = 0; i < count; i += 1) shut.add(Math.floor(i * holes / count));
  return shut;
}

/**
 * An uneven lump, as spatter sits in a hole.
 * @param {number} x @param {number} y @param {number} r
 */
function blob(x, y, r) {
  const radii = [1.1, 0.85, 1.2, 0.9, 1.05, 0.8, 1.15];
  const points = radii.map((k, i) => polar(x, y, r * k, i * 360 / radii.length).join(" "));
  return `M ${points.join(" L ")} Z`;
}
