// @ts-check
// The tip over the plate with the gap between them.
import { HEAVY, THIN, group, label, line, number, path, picture } from "./svg.js";
import { hatch, measure } from "./marks.js";
import { english } from "../words/drawings.js";

const [CX, PLATE, SCALE] = [120, 196, 16]; // pixels a millimetre

/**
 * @param {{gap?: number}} params gap in millimetres; 0 for a tip made to be dragged
 * @param {import("../words/drawings.js").Words} [words]
 */
export function standoff(params = {}, words = english) {
  const gap = Math.min(6, Math.max(0, number(params.gap, 2)));
  const metal = hatch(9);
  const end = PLATE - gap * SCALE;
  const measured = gap > 0
    ? [line(CX + 16, end, 214, end, { "stroke-width": THIN }), measure(202, end, 202, PLATE), label(216, (end + PLATE) / 2 + 6, words.length(gap, "plate"))]
    : [label(216, PLATE - 12, words.touches)];
  return picture({
    width: 320, height: 246, ...words.alt.standoff(gap > 0 && words.length(gap, "plate")),
  }, metal.defs, path(`M 14 240 L 14 ${PLATE} L 306 ${PLATE} L 306 240`, { fill: metal.fill }),
  path(`M ${CX - 74} 8 L ${CX - 74} ${end - 74} L ${CX - 46} ${end - 28} L ${CX + 46} ${end - 28} L ${CX + 74} ${end - 74} L ${CX + 74} 8`),
  ...measured, path(`M ${CX - 30} ${end - 28} L ${CX - 14} ${end} L ${CX + 14} ${end} L ${CX + 30} ${end - 28}`, { class: "draw-mark", "stroke-width": HEAVY }),
  group({ class: "draw-mark" }, path(`M ${CX - 3} ${end} L ${CX - 3} ${end - 12} M ${CX + 3} ${end} L ${CX + 3} ${end - 12}`, { "stroke-width": THIN }),
    ...(gap > 0 ? [path(`M ${CX - 3} ${end + 3} L ${CX} ${PLATE + 22} L ${CX + 3} ${end + 3}`, { fill: "currentColor" })] : [])));
}
