// @ts-check
// How the torch leans at the start of a cut, from the side: upright on an edge,
// or from a lean to upright for a pierce.
import { HEAVY, LINE, THIN, group, label, line, path, picture } from "./svg.js";
import { arc, arrow, hatch } from "./marks.js";
import { torch } from "./torch.js";
import { english } from "../words/drawings.js";

const [TOP, THICK] = [172, 34];

/**
 * @param {{start?: string, stage?: number}} params edge: stage 1 at the edge, 2 under way;
 *   pierce: stage 1 leaning, 2 half way up, 3 upright and through
 * @param {import("../words/drawings.js").Words} [words]
 */
export function lean({ start = "edge", stage = 1 } = {}, words = english) {
  const scene = start === "pierce" ? pierce(stage, words) : edge(stage, words);
  return picture({ width: 320, height: 268, ...scene.alt }, ...scene.parts);
}

/** @param {number} stage @param {import("../words/drawings.js").Words} words */
function edge(stage, words) {
  const metal = hatch(9);
  const x = stage > 1 ? 170 : 84;
  const plate = stage > 1
    ? [path(`M 84 ${TOP} L 84 ${TOP + THICK} L ${x - 12} ${TOP + THICK} L ${x - 5} ${TOP} Z`, { "stroke-width": THIN, "stroke-dasharray": "5 5" }),
      path(`M ${x + 5} ${TOP} L 310 ${TOP} M ${x - 4} ${TOP + THICK} L 310 ${TOP + THICK} M ${x + 5} ${TOP} L ${x - 4} ${TOP + THICK}`),
      path(`M ${x + 5} ${TOP} L 310 ${TOP} L 310 ${TOP + THICK} L ${x - 4} ${TOP + THICK} Z`, { fill: metal.fill, stroke: "none" })]
    : [path(`M 310 ${TOP} L ${x} ${TOP} L ${x} ${TOP + THICK} L 310 ${TOP + THICK}`, { fill: metal.fill })];
  const under = stage > 1
    ? [...sparks(x - 2, TOP + THICK + 4, 198), label(x + 16, 262, words.trailing), arrow(222, 140, 290, 140), label(256, 130, words.travel, "middle")]
    : [...sparks(x - 2, TOP + THICK + 4, 180), label(14, 44, words.upright)];
  return {
    parts: [metal.defs, ...plate, torch(x, TOP - 8, 0), jet(x, TOP - 7, 180, 46), ...under],
    alt: words.alt.leanEdge(stage),
  };
}

/** @param {number} stage @param {import("../words/drawings.js").Words} words */
function pierce(stage, words) {
  const metal = hatch(9);
  const tilt = stage <= 1 ? 30 : stage === 2 ? 15 : 0;
  const x = 150;
  const through = stage >= 3;
  const hole = through
    ? `M 10 ${TOP} L ${x - 6} ${TOP} L ${x - 4} ${TOP + THICK} L 10 ${TOP + THICK} M 310 ${TOP} L ${x + 6} ${TOP} L ${x + 4} ${TOP + THICK} L 310 ${TOP + THICK}`
    : `M 10 ${TOP} L ${x - 14} ${TOP} Q ${x - 10} ${TOP + 8 + stage * 7} ${x - 2} ${TOP + 8 + stage * 6} Q ${x + 4} ${TOP + 10} ${x + 8} ${TOP} L 310 ${TOP} M 310 ${TOP + THICK} L 10 ${TOP + THICK}`;
  const solid = through
    ? [`M 10 ${TOP} L ${x - 6} ${TOP} L ${x - 4} ${TOP + THICK} L 10 ${TOP + THICK} Z`, `M 310 ${TOP} L ${x + 6} ${TOP} L ${x + 4} ${TOP + THICK} L 310 ${TOP + THICK} Z`]
    : [`M 10 ${TOP} L ${x - 14} ${TOP} Q ${x - 10} ${TOP + 8 + stage * 7} ${x - 2} ${TOP + 8 + stage * 6} Q ${x + 4} ${TOP + 10} ${x + 8} ${TOP} L 310 ${TOP} L 310 ${TOP + THICK} L 10 ${TOP + THICK} Z`];
  const away = through
    ? [...sparks(x, TOP + THICK + 4, 180), label(14, 44, words.upright)]
    : [...spray(x - 12, TOP - 4, stage), label(10, 262, words.away),
      line(x, TOP - 14, x, 40, { "stroke-width": THIN, "stroke-dasharray": "6 5" }),
      path(arc(x, TOP - 6, 122, 0, tilt), { "stroke-width": THIN }),
      label(x - 8, 40, `${tilt}°`, "end")];
  return {
    parts: [metal.defs, ...solid.map((d) => path(d, { fill: metal.fill, stroke: "none" })), path(hole),
      torch(x + (through ? 0 : 3), TOP - 8, tilt), ...(through ? [jet(x, TOP - 7, 180, 46)] : []), ...away],
    alt: words.alt.leanPierce(tilt, through),
  };
}

/** @param {number} x @param {number} y @param {number} degrees @param {number} length */
function jet(x, y, degrees, length) {
  return group({ class: "draw-mark", transform: `translate(${x} ${y}) rotate(${degrees - 180})` },
    path(`M -2 0 L 0 ${length} L 2 0`, { fill: "currentColor", "stroke-width": LINE }));
}

/** @param {number} x @param {number} y @param {number} degrees from straight up, clockwise */
function sparks(x, y, degrees) {
  return [-9, 0, 9].map((spread, i) => {
    const turn = (degrees + spread) * Math.PI / 180;
    const [from, to] = [6, 40 + i % 2 * 10];
    return line(x + from * Math.sin(turn), y - from * Math.cos(turn), x + to * Math.sin(turn), y - to * Math.cos(turn),
      { "stroke-width": LINE, "stroke-dasharray": "9 6" });
  });
}

/** @param {number} x @param {number} y @param {number} stage */
function spray(x, y, stage) {
  return [group({ class: "draw-mark", "stroke-width": HEAVY }, ...[-48, -62, -76].map((degrees, i) => {
    const turn = (degrees + (stage - 1) * 8) * Math.PI / 180;
    const reach = 66 + (i % 2) * 22;
    return line(x + 10 * Math.sin(turn), y - 10 * Math.cos(turn), x + reach * Math.sin(turn), y - reach * Math.cos(turn),
      { "stroke-dasharray": "12 8" });
  }))];
}
