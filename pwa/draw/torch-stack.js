// @ts-check
// The torch head taken apart along its axis, the part in question heavy and
// shaded. Head at the top, cup at the bottom: the order they go together.
import { HEAVY, LINE, THIN, circle, ellipse, group, label, line, path, picture, rect } from "./svg.js";
import { english } from "../words/drawings.js";

const AXIS = 92;

/**
 * @param {{focus?: string}} params focus: none, cup, tip, diffuser, electrode, o-ring or head
 * @param {import("../words/drawings.js").Words} [words]
 */
export function torchStack({ focus = "none" } = {}, words = english) {
  const named = words.parts[/** @type {keyof typeof words.parts} */ (focus)];
  const rows = PARTS.map(({ name, y, height, shape }) => {
    const isFocus = name === focus;
    const middle = y + height / 2;
    return group({ class: isFocus ? "draw-mark" : "draw-part", "stroke-width": isFocus ? HEAVY : LINE },
      group({ transform: `translate(${AXIS} ${y})`, ...(isFocus ? { fill: "currentColor", "fill-opacity": 0.18 } : {}) }, ...shape()),
      line(AXIS + 62, middle, 196, middle, { "stroke-width": THIN }),
      label(204, middle + 6, words.parts[name]));
  });
  return picture({
    width: 320, height: 348, ...words.alt.torchStack(PARTS.map((p) => words.parts[p.name]), named),
  }, ...axis(), ...rows);
}

/** The centre line, drawn in the gaps between the parts. */
function axis() {
  return PARTS.slice(1).map(({ y }, i) =>
    line(AXIS, PARTS[i].y + PARTS[i].height + 4, AXIS, y - 4, { "stroke-width": THIN }));
}

/** @type {{name: keyof typeof english.parts, y: number, height: number, shape: () => SVGElement[]}[]} */
const PARTS = [
  { name: "head", y: 10, height: 68, shape: head },
  { name: "o-ring", y: 90, height: 16, shape: ring },
  { name: "electrode", y: 118, height: 52, shape: electrode },
  { name: "diffuser", y: 184, height: 34, shape: diffuser },
  { name: "tip", y: 232, height: 42, shape: tip },
  { name: "cup", y: 288, height: 52, shape: cup },
];

function head() {
  const threads = [46, 53, 60].map((y) => line(-28, y + 2, 28, y - 2, { "stroke-width": THIN }));
  return [path("M -48 0 Q -24 10 0 0 T 48 0", { "stroke-width": THIN }), path("M -48 0 L -48 28 Q -48 40 -36 40 L 36 40 Q 48 40 48 28 L 48 0"),
    path("M -28 40 L -28 68 L 28 68 L 28 40"), ...threads];
}

function ring() {
  return [path("M -34 8 A 34 8 0 1 0 34 8 A 34 8 0 1 0 -34 8 M -25 8 A 25 4 0 1 1 25 8 A 25 4 0 1 1 -25 8", { "fill-rule": "evenodd" })];
}

function electrode() {
  return [path("M -16 0 L 16 0 L 16 12 L 11 12 L 11 44 Q 11 52 4 52 L -4 52 Q -11 52 -11 44 L -11 12 L -16 12 Z"),
    path("M -3 52 L -3 43 L 3 43 L 3 52", { "stroke-width": THIN })];
}

function diffuser() {
  const holes = [-18, -6, 6, 18].map((x) => circle(x, 22, 3, { "stroke-width": THIN, fill: "none" }));
  return [path("M -28 6 L -28 28 A 28 6 0 0 0 28 28 L 28 6"), ellipse(0, 6, 28, 6), ...holes];
}

function tip() {
  return [rect(-26, 0, 52, 10, { rx: 2 }),
    path("M -20 10 L -20 24 L -8 42 L 8 42 L 20 24 L 20 10"),
    path("M -2 42 L -2 34 M 2 42 L 2 34", { "stroke-width": THIN })];
}

function cup() {
  return [path("M -42 0 L -42 18 L -26 52 L 26 52 L 42 18 L 42 0 Z"),
    line(-42, 10, 42, 10, { "stroke-width": THIN }),
    ...[-24, -8, 8, 24].map((x) => line(x, 22, x * 0.72, 42, { "stroke-width": THIN }))];
}
