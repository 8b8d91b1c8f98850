// @ts-check
// A cut face from the side: how far it leans off square (u) over the thickness,
// and how far a lag line trails. Both are drawn larger than they are, so that
// they can be seen.
import { HEAVY, THIN, label, line, path, picture } from "./svg.js";
import { arrow, hatch } from "./marks.js";
import { english } from "../words/drawings.js";

const [LEFT, EDGE, TOP, BOTTOM] = [14, 120, 40, 200];

/**
 * Millimetres.
 * @param {{thickness?: number, u?: number, drag?: number}} params
 * @param {import("../words/drawings.js").Words} [words]
 */
export function squareFace({ thickness = 10, u = 0, drag = 0 } = {}, words = english) {
  const lean = u > 0 ? Math.min(64, 14 + (u / Math.max(thickness, 0.1)) * 260) : 0;
  const back = drag > 0 ? Math.min(70, 10 + (drag / Math.max(thickness, 0.1)) * 120) : 0;
  const metal = hatch(9);
  const lags = drag > 0 ? [236, 258, 280].map((x) => path(`M ${x} ${TOP} Q ${x - back * 0.1} ${TOP + 80} ${x - back} ${BOTTOM}`, { "stroke-width": THIN })) : [];
  return picture({
    width: 320, height: 250, ...words.alt.squareFace(words.length(thickness, "plate"), u > 0 && words.length(u, "kerf"), drag > 0 && words.length(drag, "kerf")),
  },
  metal.defs,
  path(`M ${LEFT} ${TOP} L ${EDGE - lean} ${TOP} L ${EDGE} ${BOTTOM} L ${LEFT} ${BOTTOM}`, { fill: metal.fill }),
  line(EDGE, TOP - 16, EDGE, BOTTOM, { "stroke-width": THIN, "stroke-dasharray": "5 5" }),
  ...(u > 0 ? [line(EDGE - lean, TOP - 10, EDGE, TOP - 10, { "stroke-width": HEAVY, class: "draw-mark" }), label(EDGE + 8, TOP - 4, `u ${words.length(u, "kerf")}`)] : []),
  arrow(EDGE + 24, TOP, EDGE + 24, BOTTOM), label(EDGE + 32, (TOP + BOTTOM) / 2, words.length(thickness, "plate")),
  ...lags,
  ...(drag > 0 ? [line(280 - back, BOTTOM + 8, 280, BOTTOM + 8, { "stroke-width": HEAVY, class: "draw-mark" }), label(300, BOTTOM + 32, `n ${words.length(drag, "kerf")}`, "end")] : []));
}
