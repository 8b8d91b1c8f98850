// @ts-check
// The separator (trap) with its bowl, the water in it and the drain below.
import { HEAVY, LINE, THIN, circle, group, label, line, number, path, picture, rect } from "./svg.js";
import { arrow, leader } from "./marks.js";
import { english } from "../words/drawings.js";

const [TOP, BOTTOM, LEFT, RIGHT] = [84, 196, 92, 188];

/**
 * @param {{level?: number, drain?: string}} params level: share of the bowl that is water, 0 to 1;
 *   drain: shut or open
 * @param {import("../words/drawings.js").Words} [words]
 */
export function trap(params = {}, words = english) {
  const level = Math.min(1, Math.max(0, number(params.level, 0.3)));
  const open = params.drain === "open";
  const y = BOTTOM - level * (BOTTOM - TOP - 8);
  const water = level > 0
    ? [path(`M ${LEFT} ${y} L ${RIGHT} ${y} L ${RIGHT} ${BOTTOM - 16} Q ${RIGHT} ${BOTTOM} ${RIGHT - 20} ${BOTTOM} L ${LEFT + 20} ${BOTTOM} Q ${LEFT} ${BOTTOM} ${LEFT} ${BOTTOM - 16} Z`,
      { fill: "currentColor", "fill-opacity": 0.28, stroke: "none" }), line(LEFT, y, RIGHT, y, { "stroke-width": LINE }),
    leader(222, Math.min(y + 34, BOTTOM - 4), words.water, "start", RIGHT - 12, Math.min(y + 10, BOTTOM - 8))]
    : [];
  const lever = open ? line(156, 216, 156, 244, { "stroke-width": HEAVY }) : line(156, 216, 186, 216, { "stroke-width": HEAVY });
  const drops = open ? [232, 250].map((at) => path(`M 140 ${at} q -7 11 0 13 q 7 -2 0 -13`, { fill: "currentColor", "stroke-width": THIN })) : [];
  return picture({
    width: 320, height: 272, ...words.alt.trap(level, open),
  }, rect(76, 28, 128, 44, { rx: 4 }), path("M 76 40 L 40 40 M 76 60 L 40 60 M 204 40 L 240 40 M 204 60 L 240 60"),
  arrow(6, 50, 36, 50), label(6, 30, words.airIn), arrow(246, 50, 280, 50), label(250, 30, words.airOut),
  rect(84, 72, 112, 12),
  path(`M ${LEFT} ${TOP} L ${LEFT} ${BOTTOM - 16} Q ${LEFT} ${BOTTOM} ${LEFT + 20} ${BOTTOM} L ${RIGHT - 20} ${BOTTOM} Q ${RIGHT} ${BOTTOM} ${RIGHT} ${BOTTOM - 16} L ${RIGHT} ${TOP}`),
  group({ class: "draw-mark" }, ...water),
  path("M 132 196 L 132 208 L 148 208 L 148 196 M 132 208 L 132 224 L 148 224 L 148 208"), circle(156, 216, 4, { fill: "currentColor" }), line(148, 216, 156, 216), lever, ...drops,
  leader(222, 244, words.drain, "start", open ? 156 : 180, open ? 232 : 217));
}
