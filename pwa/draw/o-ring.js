// @ts-check
// The O-ring of the torch head, whole or in one of the ways in which it fails.
import { HEAVY, LINE, THIN, circle, group, path, picture } from "./svg.js";
import { arc, leader, polar } from "./marks.js";
import { english } from "../words/drawings.js";

const [CX, CY, OUT, IN] = [128, 112, 98, 70];

/**
 * @param {{state?: string}} params state: good, dry, cut or missing
 * @param {import("../words/drawings.js").Words} [words]
 */
export function oRing({ state = "good" } = {}, words = english) {
  return picture({
    width: 320, height: 224, ...words.alt.oRing(state),
  }, ...shapes(state, words));
}

/** @param {string} state @param {import("../words/drawings.js").Words} words */
function shapes(state, words) {
  const whole = [circle(CX, CY, OUT), circle(CX, CY, IN)];
  switch (state) {
    case "missing":
      return [circle(CX, CY, OUT, { "stroke-dasharray": "10 8" }), circle(CX, CY, IN, { "stroke-dasharray": "10 8" }),
        leader(240, 60, words.missing, "start", ...polar(CX, CY, 84, 60))];
    case "cut": {
      const gap = [...polar(CX, CY, OUT, 52), ...polar(CX, CY, IN, 60)];
      const end = [...polar(CX, CY, OUT, 62), ...polar(CX, CY, IN, 70)];
      return [path(arc(CX, CY, OUT, 62, 412)), path(arc(CX, CY, IN, 70, 420)),
        group({ class: "draw-mark", "stroke-width": HEAVY },
          path(`M ${gap[0]} ${gap[1]} L ${gap[2]} ${gap[3]}`), path(`M ${end[0]} ${end[1]} L ${end[2]} ${end[3]}`)),
        leader(262, 44, words.cut, "start", ...polar(CX, CY, 88, 60))];
    }
    case "dry": {
      const cracks = [];
      for (let at = 6; at < 366; at += 24) {
        const from = polar(CX, CY, OUT - 3, at);
        const to = polar(CX, CY, OUT - 15, at + 5);
        cracks.push(path(`M ${from.join(" ")} L ${to.join(" ")}`));
      }
      return [...whole, group({ class: "draw-mark", "stroke-width": LINE }, ...cracks),
        leader(262, 44, words.dry, "start", ...polar(CX, CY, 88, 56))];
    }
    default:
      return [...whole, path(arc(CX, CY, 84, 285, 345), { "stroke-width": HEAVY }), path(arc(CX, CY, 84, 350, 356), { "stroke-width": THIN })];
  }
}
