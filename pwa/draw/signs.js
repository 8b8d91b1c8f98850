// @ts-check
// A small picture for each sign of the fault finder, in thin lines for the
// things and heavy ones for what is wrong with them. The words beside it say
// all, so it is hidden from readers of the screen.
import { HEAVY, LINE, el, path } from "./svg.js";

/**
 * The picture of a sign, nothing for one that has none.
 * @param {{thin: string, heavy?: string}} [picture]
 */
export function signPicture(picture) {
  if (!picture) return null;
  return el("svg", { viewBox: "0 0 96 60", class: "fix-picture", "aria-hidden": "true", fill: "none", stroke: "currentColor", "stroke-linecap": "round", "stroke-linejoin": "round" },
    path(picture.thin, { "stroke-width": LINE }), path(picture.heavy ?? "", { "stroke-width": HEAVY }));
}
