// @ts-check
// A plot of a few lines over two axes, for answers that are a course rather
// than a figure. Its numbers come ready in the reader's units; guides do not
// use it, so it stands outside the list of drawings.
import { HEAVY, LINE, THIN, circle, group, label, line, path, picture } from "./svg.js";
import { english } from "../words/drawings.js";

/**
 * @typedef {{label: string, unit: string}} Axis
 * @typedef {{name: string, points: [number, number][], dashed?: boolean, dots?: boolean, band?: boolean}} Series
 *   band: an area, its border going round
 */

const WIDTH = 320;
const HEIGHT = 262;
const LEFT = 50;
const RIGHT = 302;
const TOP = 34;
const BOTTOM = 212;
const ROOM = 17; // pixels from one line of words to the next

/**
 * @param {{title: string, text: string, x: Axis, y: Axis, series: Series[]}} plot
 * @param {import("../words/drawings.js").Words} [words]
 */
export function plot({ title, text, x, y, series }, words = english) {
  const all = series.flatMap((s) => s.points);
  const xs = scale(all.map((p) => p[0]), LEFT, RIGHT);
  const ys = scale([0, ...all.map((p) => p[1])], BOTTOM, TOP);
  return picture({ width: WIDTH, height: HEIGHT, title, desc: `${text} ${inWords(series, x, y, words)}` },
    line(LEFT, BOTTOM, RIGHT, BOTTOM), line(LEFT, BOTTOM, LEFT, TOP - 6),
    ...ticks(xs).flatMap((v) => [line(xs.at(v), BOTTOM, xs.at(v), BOTTOM + 6, { "stroke-width": THIN }), label(Math.min(xs.at(v), WIDTH - 2 - short(v).length * 5), BOTTOM + 24, short(v), "middle")]), // long ones stay within the frame
    ...ticks(ys).flatMap((v) => [line(LEFT - 6, ys.at(v), LEFT, ys.at(v), { "stroke-width": THIN }), label(LEFT - 9, ys.at(v) + 5, short(v), "end")]),
    label(RIGHT, BOTTOM + 46, `${x.label}, ${x.unit}`, "end"), label(6, 18, `${y.label}, ${y.unit}`),
    ...series.flatMap((s) => drawn(s, xs, ys)), ...names(series.filter((s) => s.dashed), xs, ys));
}

/** @typedef {{from: number, to: number, at: (v: number) => number}} Scale */

/** @param {number[]} values @param {number} start @param {number} end @returns {Scale} */
function scale(values, start, end) {
  const from = Math.min(...values);
  const to = Math.max(...values);
  const span = to - from || 1;
  return { from, to: from + span, at: (v) => start + ((v - from) / span) * (end - start) };
}

/** Three to six round values within the scale. @param {Scale} s */
function ticks({ from, to }) {
  const rough = (to - from) / 4;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((m) => m * power).find((m) => m >= rough) ?? power;
  const values = [];
  for (let v = Math.ceil(from / step - 1e-9) * step; v <= to + 1e-9; v += step) values.push(v);
  return values;
}

/** @param {number} v */
function short(v) {
  return String(Number(v.toPrecision(3)));
}

/** @param {Series} s @param {Scale} xs @param {Scale} ys */
function drawn(s, xs, ys) {
  if (s.dots) return s.points.map(([x, y]) => circle(xs.at(x), ys.at(y), 6, { fill: "currentColor" }));
  const d = s.points.map(([x, y], i) => `${i ? "L" : "M"} ${xs.at(x).toFixed(1)} ${ys.at(y).toFixed(1)}`).join(" ");
  if (s.band) return [path(`${d} Z`, { fill: "currentColor", "fill-opacity": 0.22, stroke: "none" })];
  return s.dashed ? [path(d, { "stroke-dasharray": "7 6", "stroke-width": LINE })] : [group({ class: "draw-mark" }, path(d, { "stroke-width": HEAVY }))];
}

/**
 * The names of the dashed lines: of an upright one at its foot, of the others
 * above their right end, in order and apart from one another.
 * @param {Series[]} series @param {Scale} xs @param {Scale} ys
 */
function names(series, xs, ys) {
  const upright = series.filter((s) => s.points.every((p) => p[0] === s.points[0][0]));
  const level = series.filter((s) => !upright.includes(s)).map(({ name, points }) => ({ name, y: ys.at(points[points.length - 1][1]) - 7 }))
    .sort((a, b) => a.y - b.y);
  for (let i = 1; i < level.length; i += 1) level[i].y = Math.max(level[i].y, level[i - 1].y + ROOM);
  for (let i = level.length - 1, foot = BOTTOM - 6; i >= 0; i -= 1, foot = level[i + 1].y - ROOM) level[i].y = Math.min(level[i].y, foot);
  return [...level.map(({ name, y }) => label(RIGHT - 4, y, name, "end")), ...upright.map(({ name, points: [[x]] }) => (xs.at(x) - LEFT > name.length * 9.4 + 10
    ? label(xs.at(x) - 7, BOTTOM - 8, name, "end") : label(xs.at(x) + 7, BOTTOM - 8, name)))];
}

/** What the lines do, for those who cannot see them. @param {Series[]} series @param {Axis} x @param {Axis} y @param {import("../words/drawings.js").Words} words */
function inWords(series, x, y, { alt }) {
  return series.map(({ name, points, band }) => {
    const first = points[0];
    const last = points[points.length - 1];
    const at = (/** @type {[number, number]} */ p) => alt.plotPoint(`${short(p[1])} ${y.unit}`, `${short(p[0])} ${x.unit}`);
    if (band) {
      const far = Math.max(...points.map((p) => p[0]));
      const ends = points.filter((p) => p[0] === far).map((p) => p[1]);
      return alt.plotBand(name, short(Math.min(...ends)), `${short(Math.max(...ends))} ${y.unit}`, `${short(far)} ${x.unit}`);
    }
    return alt.plotLine(name, at(first), at(last));
  }).join(" ");
}
