// @ts-check
// The face of a cut, seen square on, travel to the right: how the lag lines
// rake and what hangs below tell the speed.
import { HEAVY, THIN, circle, group, label, path, picture } from "./svg.js";
import { arrow } from "./marks.js";
import { english } from "../words/drawings.js";

const [LEFT, RIGHT, TOP, BOTTOM] = [20, 300, 62, 158];

/** How far back a lag line ends, in pixels, by speed: direction, not a scale. */
const RAKE = { slow: 3, right: 22, fast: 74 };

/**
 * @param {{speed?: string, spatter?: string}} params speed: slow, right or fast
 * @param {import("../words/drawings.js").Words} [words]
 */
export function cutFace(params = {}, words = english) {
  const speed = params.speed === "slow" || params.speed === "fast" ? params.speed : "right";
  const spatter = params.spatter === "yes";
  const says = { slow: words.bubbles, right: spatter ? words.cleanBelow : words.clean, fast: words.bead }[speed];
  return picture({
    width: 320, height: 250, ...words.alt.cutFace(speed, spatter),
  }, arrow(190, 22, 290, 22), label(180, 28, words.travel, "end"),
  path(`M ${LEFT} ${TOP} L ${RIGHT} ${TOP} L ${RIGHT} ${BOTTOM} L ${LEFT} ${BOTTOM} Z`),
  group({ "stroke-width": THIN }, ...lagLines(RAKE[speed])),
  group({ class: "draw-mark" }, ...dross(speed), ...(spatter ? beads() : [])),
  ...(spatter ? [label(LEFT, 44, words.spatter)] : []),
  label(160, 240, says, "middle"));
}

/** @param {number} rake */
function lagLines(rake) {
  const lines = [];
  for (let x = LEFT + 16 + rake; x <= RIGHT - 8; x += 15) {
    lines.push(path(`M ${x} ${TOP + 2} Q ${x - rake * 0.12} ${TOP + 55} ${x - rake} ${BOTTOM - 3}`));
  }
  return lines;
}

/** @param {"slow" | "right" | "fast"} speed */
function dross(speed) {
  if (speed === "right") return [];
  if (speed === "fast") {
    return [path(`M ${LEFT} ${BOTTOM + 4} Q 40 ${BOTTOM + 12} 60 ${BOTTOM + 5} T 100 ${BOTTOM + 5} T 140 ${BOTTOM + 5} T 180 ${BOTTOM + 5} T 220 ${BOTTOM + 5} T 260 ${BOTTOM + 5} T ${RIGHT} ${BOTTOM + 4}`, { "stroke-width": 6 })];
  }
  const drops = [26, 44, 32, 50, 38, 28, 46, 34];
  const wide = (RIGHT - LEFT) / drops.length;
  let d = `M ${LEFT} ${BOTTOM}`;
  drops.forEach((deep, i) => {
    const x = LEFT + i * wide;
    d += ` C ${x - 3} ${BOTTOM + deep * 1.25} ${x + wide + 3} ${BOTTOM + deep * 1.25} ${x + wide} ${BOTTOM + (i === drops.length - 1 ? 0 : 8)}`;
  });
  const bubbles = drops.map((deep, i) => circle(LEFT + (i + 0.5) * wide, BOTTOM + deep * 0.5, 3 + i % 3, { "stroke-width": THIN }));
  return [path(d, { "stroke-width": HEAVY }), ...bubbles];
}

function beads() {
  return [34, 58, 76, 118, 140, 186, 214, 252, 280].map((x, i) => circle(x, TOP - 5 - i % 2 * 2, 4 + i % 3, { fill: "currentColor" }));
}
