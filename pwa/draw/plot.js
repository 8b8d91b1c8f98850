// @ts-check
// A plot of a few lines over two axes, for answers that are a course rather
// than a figure. Its numbers come ready in the reader's units; guides do not
// use it, so it stands outside the list of drawings.
import { HEAVY, THIN, circle, label, line, path, picture } from "./svg.js";

/**
 * @typedef {{label: string, unit: string}} Axis
 * @typedef {{name: string, points: [number, number][], dashed?: boolean, dots?: boolean}} Series
 */

const WIDTH = 320;
const HEIGHT = 250;
const LEFT = 46;
const RIGHT = 306;
const TOP = 34;
const BOTTOM = 200;

/** @param {{title: string, text: string, x: Axis, y: Axis, series: Series[]}} plot */
export function plot({ title, text, x, y, series }) {
  const all = series.flatMap((s) => s.points);
  const xs = scale(all.map((p) => p[0]), LEFT, RIGHT);
  const ys = scale([0, ...all.map((p) => p[1])], BOTTOM, TOP);
  return picture({ width: WIDTH, height: HEIGHT, title, desc: `${text} ${inWords(series, x, y)}` },
    line(LEFT, BOTTOM, RIGHT, BOTTOM), line(LEFT, BOTTOM, LEFT, TOP - 6),
    ...ticks(xs).flatMap((v) => [line(xs.at(v), BOTTOM, xs.at(v), BOTTOM + 6, { "stroke-width": THIN }), label(xs.at(v), BOTTOM + 24, short(v), "middle")]),
    ...ticks(ys).flatMap((v) => [line(LEFT - 6, ys.at(v), LEFT, ys.at(v), { "stroke-width": THIN }), label(LEFT - 9, ys.at(v) + 5, short(v), "end")]),
    label(RIGHT, BOTTOM + 44, `${x.label}, ${x.unit}`, "end"), label(6, 18, `${y.label}, ${y.unit}`),
    ...series.flatMap((s) => drawn(s, xs, ys)));
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
  const [x, y] = s.points[s.points.length - 1];
  const line = path(d, s.dashed ? { "stroke-dasharray": "7 6" } : { "stroke-width": HEAVY });
  if (!s.dashed) return [line];
  const upright = s.points.every((p) => p[0] === x);
  return [line, upright ? label(xs.at(x) - 6, BOTTOM - 8, s.name, "end") : label(Math.min(xs.at(x), RIGHT) - 4, ys.at(y) + 18, s.name, "end")];
}

/** What the lines do, for those who cannot see them. @param {Series[]} series @param {Axis} x @param {Axis} y */
function inWords(series, x, y) {
  return series.map((s) => {
    const first = s.points[0];
    const last = s.points[s.points.length - 1];
    return `${s.name}: from ${short(first[1])} ${y.unit} at ${short(first[0])} ${x.unit} to ${short(last[1])} ${y.unit} at ${short(last[0])} ${x.unit}.`;
  }).join(" ");
}
