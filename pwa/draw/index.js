// @ts-check
// Every drawing by the name that guides use. Each takes its parameters and,
// optionally, the words of another language.
import { clamp } from "./clamp.js";
import { cupFace } from "./cup-face.js";
import { cutFace } from "./cut-face.js";
import { diffuser } from "./diffuser.js";
import { electrode } from "./electrode.js";
import { lean } from "./lean.js";
import { oRing } from "./o-ring.js";
import { offset } from "./offset.js";
import { orifice } from "./orifice.js";
import { torchStack } from "./torch-stack.js";
import { trap } from "./trap.js";

/** @type {Record<string, (params?: any, words?: import("./words.js").Words) => SVGSVGElement>} */
export const drawings = {
  clamp,
  "cup-face": cupFace,
  "cut-face": cutFace,
  diffuser,
  electrode,
  lean,
  "o-ring": oRing,
  offset,
  orifice,
  "torch-stack": torchStack,
  trap,
};
