// @ts-check
// A QR code from its rows of 0 and 1: dark on light in both looks, for that is what cameras look for.
import { path, picture, rect } from "./svg.js";

/** Light modules around the code that readers need (ISO/IEC 18004). */
const quiet = 4;

/**
 * @param {{size: number, rows: string[]}} code
 * @param {{title: string, desc: string}} words
 */
export function qr({ size, rows }, { title, desc }) {
  const side = size + 2 * quiet;
  const d = rows.map((row, y) => [...row.matchAll(/1+/g)].map((run) => `M${run.index + quiet} ${y + quiet}h${run[0].length}v1h-${run[0].length}z`).join("")).join("");
  return picture({ width: side, height: side, title, desc },
    rect(0, 0, side, side, { fill: "#ffffff", stroke: "none" }),
    path(d, { fill: "#000000", stroke: "none", "shape-rendering": "crispEdges" }));
}
