// @ts-check
// The torch's handle with its trigger below: locked by the guard, or free.
import { HEAVY, THIN, group, label, line, path, picture } from "./svg.js";
import { arrow } from "./marks.js";
import { english } from "../words/drawings.js";

/**
 * @param {{lock?: string}} params lock: on or off
 * @param {import("../words/drawings.js").Words} [words]
 */
export function trigger({ lock = "on" } = {}, words = english) {
  const on = lock !== "off";
  return picture({
    width: 320, height: 190, ...words.alt.trigger(on),
  }, path("M 84 96 L 70 110 L 36 110 L 36 62 Q 36 36 66 36 L 250 36 Q 262 36 262 48 L 262 84 Q 262 96 250 96 Z M 36 94 L 76 94 M 42 110 L 48 132 L 58 132 L 64 110"),
  path("M 262 54 Q 290 56 316 40 M 262 78 Q 292 80 316 66"), line(100, 46, 240, 46, { "stroke-width": THIN }),
  path("M 138 96 Q 142 122 160 118 L 190 96"),
  group({ class: "draw-mark", "stroke-width": HEAVY },
    on ? path("M 212 96 L 202 132 L 130 132 L 122 96") : path("M 212 96 L 238 124 L 304 98"),
    ...(on ? [] : [arrow(158, 122, 158, 156)])),
  label(160, 180, on ? words.locked : words.springsBack, "middle"));
}
