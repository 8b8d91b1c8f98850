// @ts-check
// A crew's own cuts over their speed as a share of what was reckoned to sever,
// one row a verdict, and the band in which the learned factor lies.
import { HEAVY, THIN, circle, group, label, line, path, picture, rect } from "./svg.js";
import { english } from "../words/drawings.js";

const [LEFT, RIGHT, TOP, ROW] = [112, 306, 40, 40];

/**
 * @param {{rows: {share: {value: number, text: string}, verdict: string}[], low: number, factor: number, high: number, yours: string, text: string}} params
 * @param {import("../words/drawings.js").Words} [words]
 */
export function tries({ rows, low, factor, high, yours, text }, words = english) {
  const most = Math.max(1.2, high, ...rows.map((r) => r.share.value)) * 1.05;
  const at = (/** @type {number} */ v) => LEFT + (v / most) * (RIGHT - LEFT);
  const verdicts = Object.entries(words.verdicts);
  const bottom = TOP + verdicts.length * ROW;
  return picture({
    width: 320, height: bottom + 78, ...words.alt.tries(text, rows.map((r) => [r.share.text, words.verdicts[r.verdict]])),
  },
  group({ class: "draw-mark" }, rect(at(low), TOP - 8, at(high) - at(low), bottom - TOP + 8, { fill: "currentColor", "fill-opacity": 0.18, stroke: "none" }),
    line(at(factor), TOP - 8, at(factor), bottom, { "stroke-width": HEAVY })),
  line(at(1), TOP - 8, at(1), bottom + 6, { "stroke-width": THIN, "stroke-dasharray": "6 5" }),
  label(Math.min(at(factor), RIGHT - 50), 20, `${words.yours} ${yours}`, "middle"),
  ...verdicts.flatMap(([verdict, says], row) => [label(6, TOP + row * ROW + 22, says), line(LEFT, TOP + row * ROW + 32, RIGHT, TOP + row * ROW + 32, { "stroke-width": 1 }),
    ...rows.filter((r) => r.verdict === verdict).map((r) => mark(verdict, at(r.share.value), TOP + row * ROW + 16))]),
  ...[0, 0.5, 1, 1.5, 2].filter((v) => v <= most).flatMap((v) => [line(at(v), bottom, at(v), bottom + 6, { "stroke-width": THIN }), label(at(v), bottom + 24, String(v), "middle")]),
  label(RIGHT, bottom + 48, words.ofReckoned[0], "end"), label(RIGHT, bottom + 68, words.ofReckoned[1], "end"));
}

/** Each verdict has a shape of its own. @param {string} verdict @param {number} x @param {number} y */
function mark(verdict, x, y) {
  switch (verdict) {
    case "good": return circle(x, y, 7, { fill: "currentColor" });
    case "too-slow": return path(`M ${x - 9} ${y} L ${x + 6} ${y - 8} L ${x + 6} ${y + 8} Z`, { class: "draw-paper" });
    case "too-fast": return path(`M ${x + 9} ${y} L ${x - 6} ${y - 8} L ${x - 6} ${y + 8} Z`, { class: "draw-paper" });
    default: return path(`M ${x - 7} ${y - 7} L ${x + 7} ${y + 7} M ${x + 7} ${y - 7} L ${x - 7} ${y + 7}`, { "stroke-width": HEAVY });
  }
}
