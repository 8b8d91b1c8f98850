// @ts-check
// The swirl ring (air diffuser) from the side, whole or in one of the ways in
// which it fails.
import { HEAVY, circle, ellipse, group, path, picture } from "./svg.js";
import { crack, hatch, leader } from "./marks.js";
import { english } from "../words/drawings.js";

/**
 * @param {{state?: string}} params state: good, chipped, cracked, scorched or blocked
 * @param {import("../words/drawings.js").Words} [words]
 */
export function diffuser({ state = "good" } = {}, words = english) {
  const scorch = hatch(7);
  const holes = [60, 90, 120, 150, 180].map((x, i) => {
    const y = 132 + 9 * Math.sin((x - 30) / 180 * Math.PI);
    const isBlocked = state === "blocked" && (i === 1 || i === 3);
    return circle(x, y, 7.5, isBlocked ? { fill: "currentColor", class: "draw-mark" } : {});
  });
  const flaw = {
    good: [],
    chipped: [group({ class: "draw-mark", "stroke-width": HEAVY }, path("M 142 87 L 150 104 L 162 98 L 170 108 L 182 80")),
      leader(230, 118, words.chip, "start", 174, 100)],
    cracked: [group({ class: "draw-mark", "stroke-width": HEAVY }, crack(137, 90, 133, 204)),
      leader(230, 118, words.crack, "start", 141, 112)],
    scorched: [path("M 130 92 Q 166 96 196 76 L 202 150 Q 170 172 136 160 Z", { fill: scorch.fill, stroke: "none", class: "draw-mark" }),
      leader(230, 118, words.scorched, "start", 190, 108)],
    blocked: [leader(230, 118, words.blocked, "start", 158, 138)],
  }[state] ?? [];
  // The rim in front is drawn with a gap where the chip is.
  const rim = state === "chipped"
    ? [path("M 182 80 Q 210 73 210 62 A 90 27 0 1 0 30 62 Q 34 90 142 87")]
    : [ellipse(120, 62, 90, 27)];
  return picture({
    width: 320, height: 222, ...words.alt.diffuser(state),
  }, scorch.defs, ...rim, ellipse(120, 62, 56, 15),
  path("M 30 62 L 30 178 A 90 27 0 0 0 210 178 L 210 62"), ...holes, ...flaw);
}
