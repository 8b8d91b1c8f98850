// @ts-check
// A layout to scale, as the sums draw it: areas, lines, circles, measures and words by
// what they stand for. It knows no layout of its own.
import { HEAVY, LINE, THIN, circle, label, path, picture } from "./svg.js";
import { hatch, measure } from "./marks.js";

const [WIDE, MARGIN, HIGH] = [320, 26, 300];

/** How far apart labels stand, from line to line. */
const LEADING = 16;

/** How a line of each use is drawn. @type {Record<string, import("./svg.js").Attrs>} */
const strokes = {
  cut: { "stroke-width": HEAVY },
  metal: { "stroke-width": LINE },
  hidden: { "stroke-width": THIN, "stroke-dasharray": "6 5" },
  centre: { "stroke-width": 1, "stroke-dasharray": "14 4 2 4" },
  station: { "stroke-width": 1 },
};

/** @typedef {(string|number|boolean)[]} Row */

/**
 * Each row as form.DrawLayout in calc writes it, in hundredths of a millimetre, y up.
 * @param {{title: string, says: string, areas?: Row[], lines?: Row[], circles?: Row[], measures?: Row[], texts?: Row[]}} params
 */
export function layout({ title, says, areas = [], lines = [], circles = [], measures = [], texts = [] }) {
  const parts = [...areas.map((a) => pairs(a.slice(1))), ...lines.map((l) => pairs(l.slice(2))), ...measures.map((m) => pairs(m.slice(0, 4))), ...texts.map((t) => pairs(t.slice(0, 2))),
    ...circles.map(([, cx, cy, r]) => [[Number(cx) - Number(r), Number(cy) - Number(r)], [Number(cx) + Number(r), Number(cy) + Number(r)]])].flat();
  const [xs, ys] = [parts.map(([x]) => x), parts.map(([, y]) => y)];
  const [left, right, low, high] = [least(xs), -least(xs.map((v) => -v)), least(ys), -least(ys.map((v) => -v))];
  const scale = Math.min((WIDE - 2 * MARGIN) / Math.max(right - left, 1), HIGH / Math.max(high - low, 1));
  const x = (/** @type {any} */ v) => WIDE / 2 + (Number(v) - (left + right) / 2) * scale;
  const y = (/** @type {any} */ v) => MARGIN + (high - Number(v)) * scale;
  const run = (/** @type {number[][]} */ points, /** @type {unknown} */ closed) => `M ${points.map(([px, py]) => `${x(px).toFixed(1)} ${y(py).toFixed(1)}`).join(" L ")}${closed ? " Z" : ""}`;
  const fills = { kerf: hatch(5), waste: hatch(11, -45), solid: hatch(9) };
  const height = Math.ceil((high - low) * scale) + 2 * MARGIN;
  /** Where words stand already. @type {{y: number, from: number, to: number}[]} */
  const stand = [];
  const words = (/** @type {number} */ px, /** @type {number} */ py, /** @type {string} */ text, anchor = "start") => {
    const half = widest(text) * (anchor === "middle" ? 0.5 : 1);
    const [before, after] = [anchor === "start" ? 0 : half, anchor === "end" ? 0 : half];
    const at = Math.min(Math.max(px, 2 + before), Math.max(WIDE - after, 2 + before));
    const [from, to] = [at - before, at + after];
    // The nearest line where no other words stand; below as likely as above.
    const lines = Array.from({ length: 21 }, (_, n) => py + LEADING * (n % 2 ? (n + 1) / 2 : -n / 2)).filter((y) => y >= LEADING && y <= height - 2);
    const y = lines.find((line) => !stand.some((one) => Math.abs(one.y - line) < LEADING - 1 && one.from < to && from < one.to)) ?? py;
    stand.push({ y, from, to });
    return label(at, y, text, anchor);
  };
  return picture({ width: WIDE, height, title, desc: says },
    ...Object.values(fills).map(({ defs }) => defs),
    ...areas.map(([use, ...at]) => path(run(pairs(at), true), { fill: fills[/** @type {keyof typeof fills} */ (use)]?.fill ?? "none", stroke: "none" })),
    ...lines.map(([use, closed, ...at]) => path(run(pairs(at), closed), strokes[String(use)])),
    ...circles.map(([use, cx, cy, r]) => circle(x(cx), y(cy), Number(r) * scale, strokes[String(use)])),
    ...measures.map(([x1, y1, x2, y2]) => measure(x(x1), y(y1), x(x2), y(y2))),
    ...measures.map(([x1, y1, x2, y2, text]) => isUpright(x(x1) - x(x2), y(y1) - y(y2))
      ? words(x(x1) + 8, (y(y1) + y(y2)) / 2 + 6, String(text))
      : words((x(x1) + x(x2)) / 2, (y(y1) + y(y2)) / 2 - 7, String(text), "middle")),
    ...texts.map(([tx, ty, anchor, text]) => words(x(tx), y(ty), String(text), String(anchor) || "start")));
}

/** How wide a label is where the phone's letters are wide: an m is nearly as wide as two figures. @param {string} text */
function widest(text) {
  return [...text].reduce((sum, letter) => sum + (/[mwMW—]/.test(letter) ? 17 : /[\s.,/'-]/.test(letter) ? 6.7 : 11.3), 0);
}

/** @param {Row} list */
function pairs(list) {
  return Array.from({ length: Math.floor(list.length / 2) }, (_, i) => [Number(list[2 * i]), Number(list[2 * i + 1])]);
}

/** Math.min takes no list of any length. @param {number[]} list */
function least(list) {
  return list.reduce((a, b) => Math.min(a, b), Infinity);
}

/** @param {number} dx @param {number} dy */
function isUpright(dx, dy) {
  return Math.abs(dy) > Math.abs(dx);
}
