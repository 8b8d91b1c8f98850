// @ts-check
// A cup run along a straightedge, from above and to scale: where the kerf falls
// and which side of it is kept.
import { HEAVY, THIN, circle, group, label, line, number, path, picture, rect } from "./svg.js";
import { hatch, leader, measure } from "./marks.js";
import { english } from "./words.js";

const [LEFT, RIGHT, GUIDE] = [12, 308, 52]; // the straightedge's working edge

/**
 * Millimetres. offset is what the calculator gave, from the straightedge to the
 * edge that is kept; without it the measure stands unnamed.
 * @param {{kerf?: number, cup?: number, keep?: string, offset?: number}} params keep: part (on
 *   the straightedge's side) or hole (on the far side)
 * @param {import("./words.js").Words} [words]
 */
export function offset(params = {}, words = english) {
  const cup = number(params.cup, 24) > 0 ? number(params.cup, 24) : 24;
  const kerf = Math.max(0, number(params.kerf, 1.5));
  const far = params.keep === "hole";
  const scale = 128 / cup;
  const [centre, half] = [GUIDE + 64, Math.min(60, Math.max(1.5, kerf * scale / 2))]; // never wider than the cup
  const edge = far ? centre + half : centre - half;
  const waste = hatch(10);
  const [wasteTop, wasteBottom] = far ? [GUIDE, centre - half] : [centre + half, 232];
  const given = number(params.offset, 0);
  return picture({
    width: 320, height: 262,
    title: "Straightedge, cup and kerf",
    desc: `A cup ${words.length(cup)} across runs along the straightedge; the kerf of ${words.length(kerf)} lies under its middle; the ${far ? "far" : "near"} side is kept.`,
  }, waste.defs,
  rect(LEFT, wasteTop, RIGHT - LEFT, wasteBottom - wasteTop, { fill: waste.fill, stroke: "none" }),
  rect(LEFT, 12, RIGHT - LEFT, GUIDE - 12, { class: "draw-paper" }), label(22, 38, words.guide),
  path(`M ${LEFT} ${GUIDE + 1} L ${LEFT} 232 L ${RIGHT} 232 L ${RIGHT} ${GUIDE + 1}`, { "stroke-width": THIN }),
  rect(LEFT, centre - half, RIGHT - LEFT, 2 * half, { class: "draw-paper", stroke: "none" }),
  line(LEFT, centre - half, RIGHT, centre - half), line(LEFT, centre + half, RIGHT, centre + half),
  circle(122, centre, 64, { "stroke-width": HEAVY, class: "draw-mark" }), circle(122, centre, 5, { fill: "currentColor", stroke: "none" }),
  line(212, edge, 246, edge, { "stroke-width": HEAVY }), measure(230, GUIDE + 2, 230, edge),
  ...(given > 0 ? [tag(238, (GUIDE + centre) / 2 + 2, words.length(given))] : []),
  tag(22, far ? 222 : GUIDE + 24, words.keep), tag(22, far ? GUIDE + 24 : 222, words.waste),
  leader(250, 256, `${words.kerf} ${words.length(kerf)}`, "middle", 262, centre));
}

/**
 * Words on plain ground, for a hatched place.
 * @param {number} x @param {number} y @param {string} words
 */
function tag(x, y, words) {
  return group({}, rect(x - 5, y - 17, words.length * 9.2 + 10, 23, { class: "draw-paper", stroke: "none" }), label(x, y, words));
}
