// @ts-check
// Every drawing that guides draw to what was read, by the name that they use. Each
// takes its parameters and, optionally, the words of another language.
import { cupFace } from "./cup-face.js";
import { electrode } from "./electrode.js";
import { offset } from "./offset.js";
import { orifice } from "./orifice.js";
import { squareFace } from "./square-face.js";
import { standoff } from "./standoff.js";
import { strips } from "./strips.js";

/** @type {Record<string, (params?: any, words?: import("../words/drawings.js").Words) => SVGSVGElement>} */
export const drawings = {
  "cup-face": cupFace,
  electrode,
  offset,
  orifice,
  "square-face": squareFace,
  standoff,
  strips,
};
