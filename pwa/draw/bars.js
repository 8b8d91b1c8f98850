// @ts-check
// Bars below one another, each with its words above it, and dashed marks across
// all of them such as a limit. A bar past its limit is hatched and says so.
// Numbers share any unit; the words come ready in the reader's units.
import { HEAVY, LINE, group, label, line, path, picture, rect } from "./svg.js";
import { hatch } from "./marks.js";
import { english } from "../words/drawings.js";

/** @typedef {{label: string, value: number, text: string, over?: boolean}} Bar */

const [LEFT, RIGHT, TOP, THICK] = [8, 306, 8, 26];
const WIDE_LETTER = 9.4; // pixels of a letter at 16 px bold, at most on average

/**
 * @param {{title: string, text: string, bars: Bar[], marks: Bar[]}} params
 * @param {import("../words/drawings.js").Words} [words]
 */
export function bars({ title, text, bars, marks }, words = english) {
  const most = Math.max(...bars.map((b) => b.value), ...marks.map((m) => m.value)) || 1;
  const at = (/** @type {number} */ v) => LEFT + (Math.max(0, v) / most) * (RIGHT - LEFT);
  const stripes = hatch(8);
  const rows = placed(bars);
  const bottom = rows.reduce((y, r) => y + r.high, TOP);
  return picture({
    width: 320, height: bottom + marks.length * 24 + (marks.length ? 4 : 0), title,
    desc: [text, ...bars.map((b) => `${b.label}: ${b.text}${b.over ? `, ${words.over}` : ""}.`), ...marks.map((m) => `${m.label}: ${m.text}.`)].join(" "),
  }, stripes.defs,
  ...rows.map(({ bar: { value, over }, top }) => block(top, Math.max(at(value) - LEFT, 1.5), over ? stripes.fill : "")),
  ...marks.map((m, i) => path(crossing(at(m.value), rows.map((r) => r.top), bottom + i * 24 + 12), { "stroke-width": LINE, "stroke-dasharray": "6 5" })),
  ...rows.flatMap(({ bar: b, y, top }) => [label(LEFT, y + 16, b.label), label(RIGHT, top - 10, b.text, "end"), line(LEFT, top - 3, LEFT, top + THICK + 3, { "stroke-width": HEAVY })]),
  ...marks.map((m, i) => named(m, at(m.value), bottom + i * 24 + 18)));
}

/** Where each bar stands; words that do not fit on one line take two. @param {Bar[]} bars */
function placed(bars) {
  let y = TOP;
  return bars.map((bar) => {
    const lines = (bar.label.length + bar.text.length + 1) * WIDE_LETTER > RIGHT - LEFT ? 2 : 1;
    const row = { bar, y, top: y + lines * 20 + 6, high: lines * 20 + THICK + 16 };
    y += row.high;
    return row;
  });
}

/** @param {number} y @param {number} width @param {string} stripes for a bar past its limit */
function block(y, width, stripes) {
  return stripes ? group({ class: "draw-mark" }, rect(LEFT, y, width, THICK, { fill: stripes, "stroke-width": HEAVY }))
    : rect(LEFT, y, width, THICK, { fill: "currentColor", "fill-opacity": 0.3 });
}

/** A mark's line over the bars alone, so that it runs through no words, and down to its own. @param {number} x @param {number[]} tops @param {number} foot */
function crossing(x, tops, foot) {
  return tops.map((y, i) => `M ${x} ${y - 5} L ${x} ${i === tops.length - 1 ? foot : y + THICK + 5}`).join(" ");
}

/** The words of a mark at its foot, on the side where there is room. @param {Bar} m @param {number} x @param {number} y */
function named({ label: name, text }, x, y) {
  const words = `${name} ${text}`;
  const wide = words.length * WIDE_LETTER + 8;
  if (x + wide < 320) return label(x + 8, y, words);
  return x - wide > 0 ? label(x - 8, y, words, "end") : label(LEFT, y, words);
}
