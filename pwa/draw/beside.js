// @ts-check
// What stands beside an answer: the drawings that guides can name too, and
// those that only an answer has the data for.
import { drawings } from "./index.js";
import { wordsWith } from "../words/drawings.js";
import { bars } from "./bars.js";
import { kerf } from "./kerf.js";
import { layout } from "./layout.js";
import { minutes } from "./minutes.js";
import { piece } from "./piece.js";
import { plot } from "./plot.js";
import { sheets } from "./sheets.js";
import { stillDrawings } from "./still.js";
import { tries } from "./tries.js";
import { waterWay } from "./water-way.js";

/** @type {Record<string, (params?: any, words?: import("../words/drawings.js").Words) => SVGSVGElement>} */
const beside = { ...drawings, bars, kerf, layout, minutes, piece, plot, sheets, tries, "water-way": waterWay };

/**
 * The pictures of an answer, in its order.
 * @param {Pick<import("../types/calc.js").Answer, "pictures"|"lengths">} answer
 * @param {Record<string, import("./still.js").Still>} still  the drawings that never change
 * @returns {SVGSVGElement[]}
 */
export function picturesOf({ pictures = [], lengths = [] }, still) {
  const words = wordsWith(lengths);
  const all = { ...beside, ...stillDrawings(still) };
  return pictures.map(({ name, params }) => all[name](params, words));
}
