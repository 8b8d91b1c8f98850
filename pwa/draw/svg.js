// @ts-check
// The few primitives that every drawing is made of. Strokes and text take
// currentColor, so that both looks work; nothing uses style strings, which the
// page's policy forbids. One unit is one CSS pixel on a screen 320 px wide.

const SVG = "http://www.w3.org/2000/svg";

/** Stroke widths: outline of a part, thin for measures, heavy for what matters. */
export const LINE = 2.5;
export const THIN = 1.5;
export const HEAVY = 4;

/** @typedef {Record<string, string | number>} Attrs */

let serial = 0;

/**
 * A fresh id, for references inside one drawing.
 * @param {string} stem
 */
export function freshId(stem) {
  serial += 1;
  return `${stem}-${serial}`;
}

/**
 * @template {keyof SVGElementTagNameMap} K
 * @param {K} name
 * @param {Attrs} attrs
 * @param {...(Node | string)} children
 * @returns {SVGElementTagNameMap[K]}
 */
export function el(name, attrs = {}, ...children) {
  const node = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attrs)) {
    node.setAttribute(key, typeof value === "number" ? tidy(value) : value);
  }
  node.append(...children);
  return node;
}

/**
 * The picture itself, with its text equivalent.
 * @param {{width: number, height: number, title: string, desc: string}} head
 * @param {...Node} children
 */
export function picture({ width, height, title, desc }, ...children) {
  const titleId = freshId("draw-title");
  const descId = freshId("draw-desc");
  return el("svg", {
    viewBox: `0 0 ${width} ${height}`, class: "draw", role: "img",
    "aria-labelledby": titleId, "aria-describedby": descId,
    fill: "none", stroke: "currentColor", "stroke-width": LINE,
    "stroke-linecap": "round", "stroke-linejoin": "round",
  }, el("title", { id: titleId }, title), el("desc", { id: descId }, desc), ...children);
}

/** @param {Attrs} attrs @param {...Node} children */
export const group = (attrs, ...children) => el("g", attrs, ...children);

/** @param {string} d @param {Attrs} [attrs] */
export const path = (d, attrs = {}) => el("path", { d, ...attrs });

/** @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2 @param {Attrs} [attrs] */
export const line = (x1, y1, x2, y2, attrs = {}) => el("line", { x1, y1, x2, y2, ...attrs });

/** @param {number} cx @param {number} cy @param {number} r @param {Attrs} [attrs] */
export const circle = (cx, cy, r, attrs = {}) => el("circle", { cx, cy, r, ...attrs });

/** @param {number} cx @param {number} cy @param {number} rx @param {number} ry @param {Attrs} [attrs] */
export const ellipse = (cx, cy, rx, ry, attrs = {}) => el("ellipse", { cx, cy, rx, ry, ...attrs });

/** @param {number} x @param {number} y @param {number} width @param {number} height @param {Attrs} [attrs] */
export const rect = (x, y, width, height, attrs = {}) => el("rect", { x, y, width, height, ...attrs });

/**
 * Words in a drawing; anchor is start, middle or end.
 * @param {number} x @param {number} y @param {string} words @param {string} [anchor]
 */
export const label = (x, y, words, anchor = "start") => el("text", {
  x, y, "text-anchor": anchor, "font-size": 16, "font-weight": 600,
  fill: "currentColor", stroke: "none", class: "draw-text",
}, words);

/**
 * A number for a drawing: the parameter if it is one, else the fallback.
 * @param {unknown} value @param {number} fallback
 */
export function number(value, fallback) {
  return typeof value === "number" && Number.isFinite(value) ? value : fallback;
}

/** @param {number} value */
function tidy(value) {
  return String(Math.round(value * 100) / 100);
}
