// @ts-check
// The tip's orifice from the front, to scale: new as a dashed circle, the
// measured one on top, with the flaw in its edge if there is one.
import { HEAVY, LINE, THIN, circle, group, label, number, path, picture } from "./svg.js";
import { leader, polar } from "./marks.js";
import { english } from "../words/drawings.js";

const [CX, CY, BIGGEST] = [120, 118, 84];
const FLAW_AT = 62; // degrees clockwise from the top

/**
 * Diameters in millimetres. With one of dmax and dmin the hole is drawn round; without
 * new there is nothing to compare it with, and no dashed circle.
 * @param {{new?: number, dmax?: number, dmin?: number, limit?: number, flaw?: string}} params
 * @param {import("../words/drawings.js").Words} [words]
 */
export function orifice(params = {}, words = english) {
  const fresh = number(params.new, 0);
  const across = number(params.dmax, number(params.dmin, fresh || 1));
  const least = number(params.dmin, across);
  const [most, small] = [Math.max(across, least), Math.min(across, least)];
  const limit = number(params.limit, 0);
  const scale = BIGGEST / (Math.max(fresh, most, limit) || 1);
  const [rx, ry] = [most * scale, small * scale]; // scale takes a diameter to a drawn radius
  const flaw = params.flaw === "nick" || params.flaw === "keyhole" ? params.flaw : "none";
  const edge = flaw === "none" ? ellipsePath(rx, ry) : flawed(rx, ry, flaw);
  /** @type {SVGElement[]} */
  const marks = [path(edge, { "stroke-width": HEAVY, fill: "currentColor", "fill-opacity": 0.14 })];
  if (flaw !== "none") {
    const [x, y] = onEllipse(rx + 8, ry + 8, FLAW_AT);
    marks.push(leader(238, 46, flaw === "nick" ? words.nick : words.keyhole, "start", x, y));
  }
  const newAt = polar(CX, CY, fresh * scale, 128);
  const dashed = fresh > 0
    ? [circle(CX, CY, fresh * scale, { "stroke-width": LINE, "stroke-dasharray": "8 6" }),
      leader(238, 196, words.isNew, "start", newAt[0], newAt[1]), label(318, 216, words.length(fresh), "end")]
    : [];
  const limitAt = polar(CX, CY, limit * scale, 96);
  const rest = limit > 0
    ? [circle(CX, CY, limit * scale, { "stroke-width": THIN, "stroke-dasharray": "2 6" }),
      leader(238, 118, words.limit, "start", limitAt[0], limitAt[1]), label(318, 138, words.length(limit), "end")]
    : [];
  const text = most === small ? words.length(most) : `${words.length(most)} × ${words.length(small)}`;
  return picture({
    width: 320, height: 262, ...words.alt.orifice({ fresh: fresh > 0 && words.length(fresh), text, limit: limit > 0 && words.length(limit), flaw }),
  }, circle(CX, CY, 108), group({ class: "draw-mark" }, ...marks),
  ...dashed, ...rest,
  label(160, 254, `${words.now} ${text}`, "middle"));
}

/** @param {number} rx @param {number} ry */
function ellipsePath(rx, ry) {
  return `M ${CX - rx} ${CY} A ${rx} ${ry} 0 1 1 ${CX + rx} ${CY} A ${rx} ${ry} 0 1 1 ${CX - rx} ${CY} Z`;
}

/**
 * The ellipse with a wedge (nick) or a round slot (keyhole) in its edge.
 * @param {number} rx @param {number} ry @param {"nick" | "keyhole"} flaw
 */
function flawed(rx, ry, flaw) {
  const half = flaw === "nick" ? 7 : 9;
  const from = onEllipse(rx, ry, FLAW_AT + half);
  const to = onEllipse(rx, ry, FLAW_AT - half);
  const deep = polar(0, 0, flaw === "nick" ? 20 : 26, FLAW_AT);
  const body = `M ${from.join(" ")} A ${rx} ${ry} 0 1 1 ${to.join(" ")}`;
  if (flaw === "nick") {
    const [x, y] = onEllipse(rx, ry, FLAW_AT);
    return `${body} L ${x + deep[0]} ${y + deep[1]} Z`;
  }
  return `${body} l ${deep[0]} ${deep[1]} A 12 12 0 0 1 ${from[0] + deep[0]} ${from[1] + deep[1]} Z`;
}

/** @param {number} rx @param {number} ry @param {number} degrees @returns {[number, number]} */
function onEllipse(rx, ry, degrees) {
  const turn = degrees * Math.PI / 180;
  return [CX + rx * Math.sin(turn), CY - ry * Math.cos(turn)];
}

