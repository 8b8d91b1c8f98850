// @ts-check
// What hangs on a breaker: the machine with all the rest, or each on its own.
import { HEAVY, THIN, circle, group, label, line, path, picture, rect } from "./svg.js";
import { english } from "../words/drawings.js";

/**
 * @param {{shared?: string}} params shared: no or yes
 * @param {import("../words/drawings.js").Words} [words]
 */
export function circuit({ shared = "yes" } = {}, words = english) {
  const all = shared !== "no";
  const [left, right] = all ? [52, 164] : [86, 234];
  return picture({
    width: 320, height: 232, ...words.alt.circuit(all),
  }, group(all ? { class: "draw-mark", "stroke-width": HEAVY } : { "stroke-width": HEAVY }, ...(all
    ? [path(`M 52 60 L 52 82 L 274 82 L 274 132 M ${right} 82 L ${right} 108 M 52 82 L 52 118`)]
    : [line(left, 60, left, 118), line(right, 60, right, 108)])),
  breaker(left), ...(all ? [] : [breaker(right)]),
  machine(left), label(left, 192, words.machine, "middle"),
  compressor(right), label(right, 192, words.compressor, "middle"),
  ...(all ? [path("M 258 168 L 262 132 L 286 132 L 290 168 Z M 270 132 Q 274 122 278 132 M 260 150 L 248 138 M 288 140 Q 306 138 304 152 Q 302 162 290 160", { class: "draw-paper" }), label(274, 192, words.kettle, "middle")] : []),
  label(160, 222, all ? words.oneBreaker : words.breakerEach, "middle"));
}

/** @param {number} x */
const breaker = (x) => group({}, rect(x - 20, 8, 40, 52, { rx: 4, class: "draw-paper" }), rect(x - 8, 20, 16, 28, { rx: 2 }), rect(x - 8, 20, 16, 12, { fill: "currentColor" }));

/** @param {number} x */
const machine = (x) => group({}, rect(x - 32, 118, 64, 50, { rx: 5, class: "draw-paper" }),
  ...[0, 10, 20].map((down) => line(x - 22, 132 + down, x - 4, 132 + down, { "stroke-width": THIN })), circle(x + 16, 142, 7));

/** @param {number} x */
const compressor = (x) => group({}, rect(x - 42, 136, 84, 26, { rx: 13, class: "draw-paper" }), rect(x - 20, 108, 40, 28, { rx: 3, class: "draw-paper" }),
  line(x - 26, 162, x - 26, 168), line(x + 26, 162, x + 26, 168), circle(x, 122, 7, { "stroke-width": THIN }));
