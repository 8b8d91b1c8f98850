// @ts-check
/** What was planned of a job beside what was done, cut by cut, and what that teaches. */
import { make } from "../parts/dom.js";
import { rowWords } from "../parts/kept-jobs.js";
import { minutes, span } from "../parts/times.js";
import { own, plain, say, sayKnown } from "../words/words.js";

/** @typedef {import("../types/journal.js").JobView} JobView */
/** @typedef {import("../types/journal.js").Taught} Taught */

/** Nodes for a section; none while nothing was done. @param {JobView} view @param {Taught} taught @returns {Node[]} */
export function comparedOf(view, taught) {
  const cuts = view.cuts.filter(({ done, arcs }) => done || arcs);
  if (cuts.length === 0) return [];
  const took = view.cuts.reduce((ms, cut) => ms + cut.elapsed, view.loose.elapsed);
  const times = taught.times.filter(({ after }) => after.n > 0);
  return [
    make("h2", { text: say("compared.title") }),
    make("p", { text: [say(view.done < view.pieces ? "compared.sofar" : "compared.took", { took: minutes(took) }), planned(taught.planned)].filter(Boolean).join(" ") }),
    make("ul", { class: "list" }, ...cuts.map((cut) => rowOf(cut, own(taught.takes, cut.cut), taught.cuts.find((one) => one.cut === cut.cut)?.says))),
    ...(times.length ? [make("h2", { text: say("compared.times") }), make("ul", { class: "list" }, ...times.map(timeOf))] : []),
    make("a", { class: "button button--row", href: "/sum/trial-strips", text: say("compared.calibrate") }),
    make("a", { class: "button button--row", href: `/book/sheet/${view.id}`, text: say("job.sheet") }),
  ];
}

/** @param {JobView["cuts"][number]} cut @param {string} [takes]  by the plan @param {string} [says]  of its arc beside the plan */
function rowOf({ row, done, count, ms, starts, elapsed, waits }, takes, says) {
  const time = [say("compared.time", { time: minutes(elapsed) }), done >= count ? planned(takes) : ""].filter(Boolean).join(" ");
  const waited = waits.filter((w) => w.ms > 0).map((w) => say("compared.wait", { what: sayKnown(`pause.${plain(w.why)}`), time: minutes(w.ms), n: w.n }));
  return make("li", { class: "list__item" }, make("b", { text: row ? rowWords(/** @type {any} */ (row)) : say("compared.unlisted") }),
    ...[say("cutjob.of", { n: done, of: count }), say("compared.arc", { arc: span(ms), n: starts }), says, time, ...waited].filter(Boolean).map((text) => make("span", { text })));
}

/** How long something takes now, beside what it took before. @param {Taught["times"][number]} time */
function timeOf({ what, before, after }) {
  const name = sayKnown(what.startsWith("pause-") ? `pause.${what.slice(6)}` : `taught.${what}`);
  const now = say("compared.now", { time: between(after.low, after.high), n: after.n });
  return make("li", { class: "list__item" }, make("b", { text: name }), make("span", { text: now }), before.n ? make("span", { text: say("compared.before", { time: between(before.low, before.high) }) }) : null);
}

/** @param {string} [time]  in words */
function planned(time) {
  return time ? say("compared.range", { time }) : "";
}

/** In whole minutes. @param {number} low @param {number} high */
function between(low, high) {
  return minutes(low) === minutes(high) ? minutes(low) : say("compared.between", { low: minutes(low), high: minutes(high) });
}
