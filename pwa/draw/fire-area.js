// @ts-check
// The ground round the cut from above: the circle to clear, the far side of a
// wall, the extinguisher and the one who watches.
import { HEAVY, THIN, circle, group, label, line, path, picture, rect } from "./svg.js";
import { hatch, measure } from "./marks.js";
import { english } from "../words/drawings.js";

const [CX, CY, R] = [116, 122, 112];

/**
 * @param {{wall?: string}} params wall: no or yes
 * @param {import("../words/drawings.js").Words} [words]
 */
export function fireArea({ wall = "yes" } = {}, words = english) {
  const brick = hatch(8);
  const walled = wall === "yes"
    ? [brick.defs, rect(180, 6, 16, 236, { class: "draw-paper" }), rect(180, 6, 16, 236, { fill: brick.fill }),
      path(`M 196 ${CY - 78} A ${R} ${R} 0 0 1 196 ${CY + 78} Z`, { fill: "currentColor", "fill-opacity": 0.16, stroke: "none", class: "draw-mark" }),
      ...words.farSide.map((word, i) => label(274, 106 + i * 20, word, "middle"))]
    : [];
  return picture({
    width: 320, height: 248, ...words.alt.fireArea(wall === "yes"),
  }, circle(CX, CY, R, { "stroke-dasharray": "10 8", "stroke-width": HEAVY, class: "draw-mark" }), ...walled,
  group({}, path(`M ${CX - 16} ${CY - 10} L ${CX + 16} ${CY - 10} M ${CX} ${CY - 10} L ${CX} ${CY + 14} M ${CX - 7} ${CY + 2} L ${CX} ${CY + 14} L ${CX + 7} ${CY + 2}`, { "stroke-width": HEAVY })),
  label(CX, CY - 20, words.cutLine, "middle"),
  measure(CX - 6, CY + 22, CX - 78, CY + 78), tag(CX - 96, CY + 44, words.clearDistance),
  figure(CX - 66, CY - 46), label(CX - 52, CY - 40, words.watcher),
  extinguisher(CX + 32, CY + 42), label(CX - 6, CY + 92, words.extinguisher, "middle"));
}

/** @param {number} x @param {number} y @param {string} words */
function tag(x, y, words) {
  return group({}, rect(x - 4, y - 16, words.length * 9.4 + 8, 22, { class: "draw-paper", stroke: "none" }), label(x, y, words));
}

/** @param {number} x @param {number} y */
function figure(x, y) {
  return group({}, circle(x, y - 8, 7), path(`M ${x} ${y} L ${x} ${y + 18} M ${x - 10} ${y + 7} L ${x + 10} ${y + 7} M ${x - 8} ${y + 34} L ${x} ${y + 18} L ${x + 8} ${y + 34}`));
}

/** @param {number} x @param {number} y */
function extinguisher(x, y) {
  return group({}, rect(x - 8, y - 4, 16, 32, { rx: 6 }), path(`M ${x} ${y - 4} L ${x} ${y - 12} L ${x + 14} ${y - 12} M ${x - 2} ${y - 10} Q ${x - 18} ${y - 8} ${x - 16} ${y + 14}`),
    line(x - 8, y + 8, x + 8, y + 8, { "stroke-width": THIN }));
}
