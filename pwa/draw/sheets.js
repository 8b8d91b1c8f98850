// @ts-check
// One gauge number in several metals: the sheets seen on edge, to one scale.
import { label, picture, rect } from "./svg.js";
import { hatch } from "./marks.js";
import { english } from "../words/drawings.js";

const [LEFT, RIGHT, THICKEST] = [8, 312, 34];

/**
 * @param {{gauge: string, rows: {metal: string, thickness: {value: number, text: string}}[]}} params
 *   gauge with its number and unit
 * @param {import("../words/drawings.js").Words} [words]
 */
export function sheets({ gauge, rows }, words = english) {
  const scale = THICKEST / Math.max(...rows.map((r) => r.thickness.value));
  const metal = hatch(8);
  let y = 8;
  const drawn = rows.flatMap(({ metal: name, thickness }) => {
    const high = Math.max(thickness.value * scale, 1.5);
    const sheet = [label(LEFT, y + 16, words.metals[name] ?? name), label(RIGHT, y + 16, thickness.text, "end"),
      rect(LEFT, y + 24, RIGHT - LEFT, high, { fill: metal.fill })];
    y += 24 + high + 16;
    return sheet;
  });
  return picture({
    width: 320, height: y, ...words.alt.sheets(gauge, rows.map((r) => [words.metals[r.metal] ?? r.metal, r.thickness.text])),
  }, metal.defs, ...drawn);
}
