// @ts-check
/** What was planned of a job beside what was done, cut by cut, and what that teaches. */
import { make } from "../parts/dom.js";
import { rowWords } from "../parts/kept-jobs.js";
import { minutes, span } from "../parts/times.js";
import { own, plain, say, sayKnown } from "../words/words.js";

/** @typedef {import("../types/journal.js").JobView} JobView */
/** In whole s. @typedef {{arc?: number, elapsed?: number, low?: number, high?: number}} Planned */

/** Nodes for a section; none while nothing was done. @param {JobView} view @returns {Node[]} */
export function comparedOf(view) {
  const plan = /** @type {Planned & {cuts?: Record<string, Planned>}} */ (view.work.find(({ planned }) => planned)?.planned ?? {});
  const cuts = view.cuts.filter(({ done, arcs }) => done || arcs);
  if (cuts.length === 0) return [];
  const took = view.cuts.reduce((ms, cut) => ms + cut.elapsed, view.loose.elapsed);
  return [
    make("h2", { text: say("compared.title") }),
    make("p", { text: [say("compared.took", { took: minutes(took) }), planned(plan)].filter(Boolean).join(" ") }),
    make("ul", { class: "list" }, ...cuts.map((cut) => rowOf(cut, own(plan.cuts ?? {}, cut.cut) ?? {}))),
  ];
}

/** @param {JobView["cuts"][number]} cut @param {Planned} plan */
function rowOf({ row, done, count, ms, starts, elapsed, waits }, plan) {
  const arc = [say("compared.arc", { arc: span(ms), n: starts }), plan.arc ? say("compared.planned", { time: span(plan.arc * 1000) }) : ""].filter(Boolean).join(" ");
  const time = [say("compared.time", { time: minutes(elapsed) }), planned(plan)].filter(Boolean).join(" ");
  const waited = waits.filter((w) => w.ms > 0).map((w) => say("compared.wait", { what: sayKnown(`pause.${plain(w.why)}`), time: minutes(w.ms), n: w.n }));
  return make("li", { class: "list__item" }, make("b", { text: row ? rowWords(/** @type {any} */ (row)) : say("compared.unlisted") }),
    make("span", { text: say("cutjob.of", { n: done, of: count }) }), make("span", { text: arc }), make("span", { text: time }), ...waited.map((text) => make("span", { text })));
}

/** The planned time with its range. @param {Planned} plan */
function planned({ elapsed, low, high }) {
  return elapsed ? say("compared.range", { time: minutes(elapsed * 1000), low: minutes((low ?? elapsed) * 1000), high: minutes((high ?? elapsed) * 1000) }) : "";
}
