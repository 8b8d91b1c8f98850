// @ts-check
// The pressure gauge: where the needle stands with no air flowing, and, lower,
// with air flowing, which is the reading that counts.
import { HEAVY, LINE, THIN, circle, group, line, path, picture } from "./svg.js";
import { arc, arrow, leader, polar } from "./marks.js";
import { english } from "../words/drawings.js";

const [CX, CY, R] = [112, 116, 98];

/**
 * @param {{flow?: string}} params flow: no or yes
 * @param {import("../words/drawings.js").Words} [words]
 */
export function pressureGauge({ flow = "yes" } = {}, words = english) {
  const flowing = flow === "yes";
  const marks = [];
  for (let at = -135; at <= 135; at += 27) {
    const [x1, y1] = polar(CX, CY, R - 8, at);
    const [x2, y2] = polar(CX, CY, R - 22, at);
    marks.push(line(x1, y1, x2, y2));
  }
  const needles = flowing
    ? [needle(68, { "stroke-dasharray": "8 7", "stroke-width": LINE }), group({ class: "draw-mark" }, needle(14, { "stroke-width": 5 })),
      arrowArc(62, 22), leader(232, 50, words.flowing, "start", ...polar(CX, CY, 66, 14)), leader(232, 112, words.standing, "start", ...polar(CX, CY, 68, 68))]
    : [group({ class: "draw-mark" }, needle(68, { "stroke-width": 5 })), leader(232, 112, words.standing, "start", ...polar(CX, CY, 68, 68))];
  return picture({
    width: 320, height: 246, ...words.alt.pressureGauge(flowing),
  }, circle(CX, CY, R, { "stroke-width": HEAVY }), ...marks, ...needles, circle(CX, CY, 8, { fill: "currentColor" }),
  path(`M ${CX - 12} ${CY + R} L ${CX - 12} 240 M ${CX + 12} ${CY + R} L ${CX + 12} 240`));
}

/** @param {number} at @param {import("./svg.js").Attrs} attrs */
function needle(at, attrs) {
  const [x, y] = polar(CX, CY, R - 26, at);
  return line(CX, CY, x, y, attrs);
}

/** @param {number} from @param {number} to */
function arrowArc(from, to) {
  const [x, y] = polar(CX, CY, 52, to);
  const [px, py] = polar(CX, CY, 52, to + 6);
  return group({ "stroke-width": THIN }, path(arc(CX, CY, 52, from, to)), arrow(px, py, x, y));
}
