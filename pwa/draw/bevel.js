// @ts-check
// The kerf seen from its end, with sides that are square or lean. The lean is
// drawn larger than life.
import { HEAVY, THIN, group, label, line, path, picture } from "./svg.js";
import { hatch } from "./marks.js";
import { english } from "../words/drawings.js";

const [TOP, BOTTOM, CX] = [60, 172, 160];

/**
 * @param {{sides?: string}} params sides: none, one or both that lean
 * @param {import("../words/drawings.js").Words} [words]
 */
export function bevel({ sides = "none" } = {}, words = english) {
  const left = sides === "both" ? 20 : 0;
  const right = sides === "none" ? 3 : 24;
  const metal = hatch(10);
  const [lt, rt] = [CX - 14 - (sides === "both" ? 16 : 0), CX + 14 + (sides === "none" ? 0 : 18)];
  const [lb, rb] = [lt + left, rt - right];
  const says = { none: words.bothSquare, one: words.oneLeans, both: words.bothLean }[sides] ?? words.bothSquare;
  return picture({
    width: 320, height: 226, ...words.alt.bevel(sides),
  }, metal.defs,
  path(`M 10 ${TOP} L ${lt} ${TOP} L ${lb} ${BOTTOM} L 10 ${BOTTOM}`, { fill: metal.fill }),
  path(`M 310 ${TOP} L ${rt} ${TOP} L ${rb} ${BOTTOM} L 310 ${BOTTOM}`, { fill: metal.fill }),
  group({ class: "draw-mark", "stroke-width": HEAVY },
    ...(sides === "both" ? [line(lt, TOP, lb, BOTTOM)] : []), ...(sides === "none" ? [] : [line(rt, TOP, rb, BOTTOM)])),
  group({ "stroke-width": THIN, "stroke-dasharray": "6 5" },
    ...(sides === "both" ? [line(lt, TOP - 24, lt, BOTTOM + 14)] : []), ...(sides === "none" ? [] : [line(rt, TOP - 24, rt, BOTTOM + 14)])),
  ...(sides === "one" ? [label(74, 46, words.keep, "middle"), path("M 74 52 L 74 58", { "stroke-width": THIN })] : []),
  label(CX, 216, says, "middle"));
}
