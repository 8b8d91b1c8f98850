// @ts-check
// Marks that a technician adds to a drawing: arrows, measures, hatching.
import { THIN, el, freshId, group, label, line, path } from "./svg.js";

/**
 * A straight arrow with a filled head at its end.
 * @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2
 * @param {import("./svg.js").Attrs} [attrs]
 */
export function arrow(x1, y1, x2, y2, attrs = {}) {
  return group(attrs, line(x1, y1, x2, y2), head(x1, y1, x2, y2));
}

/**
 * A measure between two points, with a head at both ends.
 * @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2
 */
export function measure(x1, y1, x2, y2) {
  return group({ "stroke-width": THIN }, line(x1, y1, x2, y2), head(x1, y1, x2, y2), head(x2, y2, x1, y1));
}

/**
 * A thin line from words to the thing they name, ending in a dot on it.
 * @param {number} x @param {number} y @param {string} words @param {string} anchor
 * @param {number} toX @param {number} toY
 */
export function leader(x, y, words, anchor, toX, toY) {
  const fromX = anchor === "start" ? x - 5 : anchor === "end" ? x + 5 : x;
  const fromY = anchor === "middle" ? (toY > y ? y + 5 : y - 16) : y - 5;
  return group({ "stroke-width": THIN },
    line(fromX, fromY, toX, toY),
    el("circle", { cx: toX, cy: toY, r: 3, fill: "currentColor", stroke: "none" }),
    label(x, y, words, anchor));
}

/**
 * Hatching at 45° for cut metal. Returns the definition to put in the drawing
 * and the fill that uses it.
 * @param {number} [gap] pixels between lines
 * @param {number} [turn] degrees
 */
export function hatch(gap = 9, turn = 45) {
  const id = freshId("draw-hatch");
  const defs = el("defs", {}, el("pattern", {
    id, width: gap, height: gap, patternUnits: "userSpaceOnUse", patternTransform: `rotate(${turn})`,
  }, line(0, 0, 0, gap, { stroke: "currentColor", "stroke-width": THIN, "stroke-linecap": "butt" })));
  return { defs, fill: `url(#${id})` };
}

/**
 * A jagged line, as a crack runs.
 * @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2
 */
export function crack(x1, y1, x2, y2) {
  const steps = 5;
  const length = Math.hypot(x2 - x1, y2 - y1);
  const [nx, ny] = [-(y2 - y1) / length, (x2 - x1) / length];
  let d = `M ${x1} ${y1}`;
  for (let i = 1; i <= steps; i += 1) {
    const side = i === steps ? 0 : (i % 2 ? 5 : -5);
    d += ` L ${x1 + (x2 - x1) * i / steps + nx * side} ${y1 + (y2 - y1) * i / steps + ny * side}`;
  }
  return path(d);
}

/**
 * The point at an angle on a circle, in degrees clockwise from straight up.
 * @param {number} cx @param {number} cy @param {number} r @param {number} degrees
 * @returns {[number, number]}
 */
export function polar(cx, cy, r, degrees) {
  const turn = degrees * Math.PI / 180;
  return [cx + r * Math.sin(turn), cy - r * Math.cos(turn)];
}

/** @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2 */
function head(x1, y1, x2, y2) {
  const turn = Math.atan2(y2 - y1, x2 - x1) * 180 / Math.PI;
  return path("M 0 0 L -10 -4.5 L -10 4.5 Z", {
    transform: `translate(${x2} ${y2}) rotate(${turn})`, fill: "currentColor", stroke: "none",
  });
}
