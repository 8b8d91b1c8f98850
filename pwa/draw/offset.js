// @ts-check
// A cup run along a straightedge or a curved template, from above and to scale:
// where the kerf falls and which side of it is kept. How round a template is
// drawn is no measure.
import { HEAVY, THIN, circle, label, line, number, path, picture } from "./svg.js";
import { hatch, leader, measure } from "./marks.js";
import { english } from "../words/drawings.js";

const [LEFT, RIGHT, TOP, GUIDE, BOTTOM, MIDDLE] = [12, 308, 6, 52, 232, 160]; // GUIDE: the working edge
const ROUND = { outside: 340, inside: 420 }; // pixels, the working edge of a template

/**
 * Millimetres. offset is what the calculator gave, from the guide to the edge
 * that is kept; without it the measure stands unnamed.
 * @param {{kerf?: number, cup?: number, keep?: string, offset?: number, guide?: string}} params
 *   keep: part (on the guide's side) or hole (on the far side);
 *   guide: straight, outside or inside (of a template, on which the cup runs)
 * @param {import("../words/drawings.js").Words} [words]
 */
export function offset(params = {}, words = english) {
  const cup = number(params.cup, 24) > 0 ? number(params.cup, 24) : 24;
  const kerf = Math.max(0, number(params.kerf, 1.5));
  const far = params.keep === "hole";
  const guide = params.guide === "outside" || params.guide === "inside" ? params.guide : "straight";
  const [centre, half] = [64, Math.min(60, Math.max(1.5, kerf * 64 / cup))]; // from the guide; never wider than the cup
  const run = curve(guide);
  const [near, beyond] = [centre - half, centre + half];
  const edge = far ? beyond : near;
  const waste = hatch(10);
  const nearSide = `${run.along(0)} ${run.back(near)} Z`;
  const farSide = `${run.along(beyond)} L ${RIGHT} ${BOTTOM} L ${LEFT} ${BOTTOM} Z`;
  const given = number(params.offset, 0);
  const [name, side] = [guide === "straight" ? words.guide : words.template, far ? "far" : "near"];
  const [cupX, cupY] = run.at(122, centre);
  const [edgeX, edgeY] = run.at(216, edge);
  const [fromX, fromY] = run.at(216, 2);
  const [givenX, givenY] = run.at(222, centre / 2);
  const [kerfX, kerfY] = run.at(270, centre);
  return picture({
    width: 320, height: 262, ...words.alt.offset({ straight: guide === "straight", far, name, cup: words.length(cup, "marking"), kerf: words.length(kerf, "kerf"), given: given > 0 && words.length(given, "marking") }),
  }, waste.defs,
  path(far ? nearSide : farSide, { fill: waste.fill, stroke: "none" }),
  path(`${run.along(0)} L ${RIGHT} ${TOP} L ${LEFT} ${TOP} Z`, { class: "draw-paper" }), label(MIDDLE, 36, name, "middle"),
  path(`M ${LEFT} ${run.at(LEFT, 0)[1]} L ${LEFT} ${BOTTOM} L ${RIGHT} ${BOTTOM} L ${RIGHT} ${run.at(RIGHT, 0)[1]}`, { "stroke-width": THIN }),
  path(`${run.along(near)} ${run.back(beyond)} Z`, { class: "draw-paper", stroke: "none" }),
  path(run.along(near)), path(run.along(beyond)),
  circle(cupX, cupY, 64, { "stroke-width": HEAVY, class: "draw-mark" }), circle(cupX, cupY, 5, { fill: "currentColor", stroke: "none" }),
  line(edgeX - 16, edgeY, edgeX + 16, edgeY, { "stroke-width": HEAVY }), measure(fromX, fromY, edgeX, edgeY),
  ...(given > 0 ? [label(givenX + 2, givenY + 4, words.length(given, "marking"))] : []),
  label(18, far ? 222 : run.at(24, 24)[1], words.keep), label(18, far ? run.at(24, 24)[1] : 222, words.waste),
  leader(250, 256, `${words.kerf} ${words.length(kerf, "kerf")}`, "middle", kerfX, kerfY));
}

/**
 * Lines at a distance from the guide's edge, which lies at the top.
 * @param {"straight" | "outside" | "inside"} guide
 */
function curve(guide) {
  /** @type {(x: number, away: number) => [number, number]} */
  let at = (x, away) => [x, GUIDE + away];
  let arc = (/** @type {number} */ _away, /** @type {number} */ _sweep) => "L";
  if (guide !== "straight") {
    // Round a centre above the guide for an outside edge, below it for an inside one.
    const down = guide === "outside" ? 1 : -1;
    const radius = (/** @type {number} */ away) => ROUND[guide] + down * away;
    at = (x, away) => [x, GUIDE - down * ROUND[guide] + down * Math.sqrt(radius(away) ** 2 - (x - MIDDLE) ** 2)];
    arc = (away, sweep) => `A ${radius(away)} ${radius(away)} 0 0 ${guide === "outside" ? 1 - sweep : sweep}`;
  }
  return {
    at,
    along: (/** @type {number} */ away) => `M ${at(LEFT, away).join(" ")} ${arc(away, 1)} ${at(RIGHT, away).join(" ")}`,
    back: (/** @type {number} */ away) => `L ${at(RIGHT, away).join(" ")} ${arc(away, 0)} ${at(LEFT, away).join(" ")}`,
  };
}
