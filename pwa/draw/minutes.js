// @ts-check
// Ten minutes on a bar: how many the arc may burn, how many the machine rests.
import { HEAVY, THIN, group, label, line, picture, rect } from "./svg.js";
import { hatch } from "./marks.js";
import { english } from "../words/drawings.js";

const [LEFT, WIDE, TOP, HIGH] = [14, 292, 34, 56];

/**
 * @param {{share: number, on: string, rest: string}} params share of the ten minutes with the arc on, 0 to 1; on, rest: as text
 * @param {import("../words/drawings.js").Words} [words]
 */
export function minutes({ share, on, rest }, words = english) {
  const burns = Math.min(1, Math.max(0, share)) * WIDE;
  const arc = hatch(8);
  return picture({
    width: 320, height: 146, ...words.alt.minutes(on, rest),
  }, arc.defs,
  group({ class: "draw-mark" }, rect(LEFT, TOP, burns, HIGH, { fill: arc.fill, stroke: "none" })),
  rect(LEFT, TOP, WIDE, HIGH, { "stroke-width": HEAVY }),
  ...(burns > 0 && burns < WIDE ? [line(LEFT + burns, TOP, LEFT + burns, TOP + HIGH, { "stroke-width": HEAVY })] : []),
  label(LEFT, 24, `${words.arcOn} ${on}`), label(LEFT + WIDE, 24, `${words.rest} ${rest}`, "end"),
  ...Array.from({ length: 11 }, (_, i) => LEFT + i * WIDE / 10).map((x) => line(x, TOP + HIGH + 4, x, TOP + HIGH + 12, { "stroke-width": THIN })),
  ...[0, 5, 10].map((n) => label(LEFT + n * WIDE / 10, TOP + HIGH + 32, n === 10 ? words.tenMinutes : String(n), ["start", "middle", "end"][n / 5])));
}
