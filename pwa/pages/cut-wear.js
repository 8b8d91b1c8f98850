// @ts-check
/** What wears and fills up under the arc: when the trap is due, and what is in the torch. */
import { make, setText } from "../parts/dom.js";
import { renderRows } from "../parts/rows.js";
import { minutes, span, startsOf } from "../parts/times.js";
import { say, sayKnown } from "../words/words.js";

/** @typedef {NonNullable<import("../journal/shapes.js").ShownRig["parts"]>[number]} Part */

/**
 * Says in how much arc time the trap is due, below 0 past that, and why, beside what is to be said of the plan.
 * @param {import("../parts/dom.js").Refs} at @param {{left: number, every: number, standing: string}} of  ms
 */
export function paintDrain(at, { left, every, standing }) {
  at.drain.classList.toggle("due--now", left <= 0);
  at.drain.replaceChildren(...(left > 0 ? [say("cut.drain.in"), " ", make("b", { text: minutes(left) })] : [make("b", { text: say("cut.drain.now") })]));
  setText(at.why, [standing, say("cut.drain.why", { every: minutes(every) })].filter(Boolean).join(" "));
}

/** Says what tip and electrode have done, and under that all parts. @param {import("../parts/dom.js").Refs} at @param {Part[]} parts */
export function paintParts(at, parts) {
  const key = (/** @type {Part} */ p) => ({ name: p.slot, at: p.at });
  const done = (/** @type {Part} */ p) => ({ arc: span(p.ms), starts: startsOf(p) });
  at.latestPart.hidden = parts.length === 0;
  const wearing = ["tip", "electrode"].flatMap((slot) => parts.filter((p) => p.slot === slot));
  renderRows(at.life, wearing, (p) => make("span", { text: say(/* tip | electrode */ `cut.life.${p.slot}`, done(p)) }), key);
  renderRows(at.parts, parts, (p) => make("li", { class: "list__item" },
    make("b", { text: sayKnown(`slot.${p.slot}`) }),
    make("span", { text: say("cut.part.worn", done(p)) })), key);
}
