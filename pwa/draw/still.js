// @ts-check
// Drawings that never change: each is a file in still/, and all of them come
// from the server as one.
import { el, freshId, picture } from "./svg.js";

/** @typedef {import("../types/server.js").Still} Still */
/** @typedef {import("../types/server.js").Shape} Shape */

/** @param {Record<string, Still>} all @returns {Record<string, () => SVGSVGElement>} */
export function stillDrawings(all) {
  return Object.fromEntries(Object.entries(all).map(([name, { shapes, ...head }]) => [name, () => {
    const hatch = freshId("draw-hatch");
    const made = (/** @type {Shape} */ { name, attrs, text, shapes = [] }) => {
      /** @type {SVGElement} */
      const node = el(/** @type {"g"} */ (name), Object.fromEntries(Object.entries(attrs).map(([key, value]) => [key, value.replace("hatch", hatch)])), ...shapes.map(made));
      if (text) node.append(text);
      return node;
    };
    return picture(head, ...shapes.map(made));
  }]));
}
