// @ts-check
// Every drawing by the name that guides use. Each takes its parameters and,
// optionally, the words of another language.
import { bevel } from "./bevel.js";
import { circuit } from "./circuit.js";
import { clamp } from "./clamp.js";
import { compressor } from "./compressor.js";
import { cord } from "./cord.js";
import { coupler } from "./coupler.js";
import { cupFace } from "./cup-face.js";
import { cutFace } from "./cut-face.js";
import { diffuser } from "./diffuser.js";
import { electrode } from "./electrode.js";
import { fireArea } from "./fire-area.js";
import { gaugePin } from "./gauge-pin.js";
import { hollow } from "./hollow.js";
import { lean } from "./lean.js";
import { mask } from "./mask.js";
import { mesh } from "./mesh.js";
import { oRing } from "./o-ring.js";
import { offset } from "./offset.js";
import { orifice } from "./orifice.js";
import { pressureGauge } from "./pressure-gauge.js";
import { ratingPlate } from "./rating-plate.js";
import { slide } from "./slide.js";
import { squareFace } from "./square-face.js";
import { standoff } from "./standoff.js";
import { strips } from "./strips.js";
import { support } from "./support.js";
import { torchStack } from "./torch-stack.js";
import { trap } from "./trap.js";
import { trigger } from "./trigger.js";
import { unplug } from "./unplug.js";
import { vents } from "./vents.js";
import { workPlug } from "./work-plug.js";

/** @type {Record<string, (params?: any, words?: import("../words/drawings.js").Words) => SVGSVGElement>} */
export const drawings = {
  bevel,
  circuit,
  clamp,
  compressor,
  cord,
  coupler,
  "cup-face": cupFace,
  "cut-face": cutFace,
  diffuser,
  electrode,
  "fire-area": fireArea,
  "gauge-pin": gaugePin,
  hollow,
  lean,
  mask,
  mesh,
  "o-ring": oRing,
  offset,
  orifice,
  "pressure-gauge": pressureGauge,
  "rating-plate": ratingPlate,
  slide,
  "square-face": squareFace,
  standoff,
  strips,
  support,
  "torch-stack": torchStack,
  trap,
  trigger,
  unplug,
  vents,
  "work-plug": workPlug,
};
