// @ts-check
// The drawing that goes with a calculator's answer. Lengths are handed over in
// millimetres, angles in degrees, words as they are.
import { drawings } from "./index.js";

/** What one SI unit is in the drawings' units. @type {Record<string, number>} */
const scales = { m: 1000, rad: 180 / Math.PI };

/**
 * @param {string} name
 * @param {{results: Record<string, any>}} answer
 * @returns {SVGSVGElement|null} null if there is no such drawing
 */
export function pictureOf(name, answer) {
  const draw = drawings[name];
  if (!draw) return null;
  /** @type {Record<string, any>} */
  const params = {};
  for (const [key, value] of Object.entries(answer.results)) {
    params[key] = value && typeof value === "object" && "value" in value ? value.value * (scales[value.unit] ?? 1) : value;
  }
  return draw(params);
}
