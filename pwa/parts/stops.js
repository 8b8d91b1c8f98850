// @ts-check
/**
 * Stops of may-i-cut that nobody has cleared: a red strip that names each until
 * somebody says what was done about it. It blocks nothing.
 */
import { make } from "./dom.js";
import { QuickEntries } from "./quick-entries.js";
import { renderRows } from "./rows.js";
import { clockTime, dayAndTime } from "./times.js";
import { jobHolds } from "./job.js";
import { say } from "../words/words.js";

/** @typedef {import("../types/journal.js").OpenStop} Stop */
/** @typedef {Pick<import("../app.js").Deps, "journal"|"chooser"|"pad"|"textPrompt"|"toasts"|"call"|"sumsRun"|"drafts"|"settings"|"go"|"asset">} StopDeps */

/**
 * Those that concern a rig or its session. One of a rig that nobody knows here
 * concerns everyone. The same one told again on the same job is one with the first.
 * @param {{stops: Stop[]}|null|undefined} gate  of view now
 * @param {{rig: string, session?: string, rigs: {id: string}[]}} here
 * @returns {(Stop & {again: string[]})[]}  again: ids of the others
 */
export function stopsHere(gate, { rig, session, rigs }) {
  /** @type {Map<string, Stop & {again: string[]}>} */
  const found = new Map();
  for (const s of gate?.stops ?? []) {
    if (s.rig !== rig && !(session && s.in === session) && rigs.some((r) => r.id === s.rig)) continue;
    const one = JSON.stringify([s.step, s.says, s.rig, s.site, s.in]);
    const first = found.get(one);
    if (first) first.again.push(s.id);
    else found.set(one, { ...s, again: [] });
  }
  return [...found.values()];
}

export class Stops {
  #shown = "";
  #session = "";

  /** @param {StopDeps} deps @param {HTMLElement} element */
  constructor(deps, element) {
    this.deps = deps;
    this.element = element;
    element.setAttribute("role", "region");
    element.setAttribute("aria-label", say("stops.label"));
  }

  /** @param {Stop[]} stops @param {{session?: string, sites: {id: string, fields: Record<string, string>}[]}} here */
  paint(stops, { session = "", sites }) {
    this.#session = session;
    const place = (/** @type {Stop} */ s) => sites.find((site) => site.id === s.site)?.fields.name ?? "";
    const shown = JSON.stringify(stops.map((s) => [s, place(s)]));
    if (shown === this.#shown) return; // nothing moves under the finger
    this.#shown = shown;
    this.element.hidden = stops.length === 0;
    renderRows(this.element, stops, (s) => this.#row(s, place(s)), (s) => ({ name: s.says, at: s.at }));
    if (stops.length > 0) this.deps.asset("gen/stops.json").catch(() => {}); // so that no tap waits for it
  }

  // Private

  /** @param {Stop} stop @param {string} place */
  #row(stop, place) {
    const when = this.deps.journal.now() - stop.at < jobHolds ? clockTime(stop.at) : dayAndTime(stop.at);
    return make("button", { class: "stop", type: "button", onclick: () => this.#clear(stop) },
      make("b", { text: say("stop.what", { what: stop.says }) }),
      make("span", { text: [when, place, stop.by && say("stop.by", { by: stop.by })].filter(Boolean).join(" · ") }),
      make("u", { text: say("stop.clear") }));
  }

  /** @param {Stop} stop */
  async #clear(stop) {
    try {
      await clearStop(this.deps, stop, this.#session);
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
  }
}

/**
 * Asks what was done about a stop, and clears it with that.
 * @param {StopDeps} deps @param {{id: string, step: string, says: string, by?: string, again?: string[]}} stop @param {string} [session]
 */
export async function clearStop(deps, stop, session) {
  const all = await deps.asset("gen/stops.json").catch(() => []);
  const ways = /** @type {string[]} */ (all.find((s) => s.key === stop.step)?.ways ?? []);
  const word = await deps.chooser.ask({
    label: say("stop.done", { what: stop.says }),
    options: [...ways.map((label, i) => ({ word: String(i), label, more: "" })), { word: "own", label: say("stop.own"), more: stop.by ? say("stop.by", { by: stop.by }) : "" }],
  });
  if (!word) return;
  const why = word === "own" ? await deps.textPrompt.ask({ label: say("stop.done", { what: stop.says }), key: `stop.${stop.id}` }) : ways[Number(word)];
  if (!why) return;
  /** @type {import("../journal/shapes.js").Entry[]} */
  const cleared = [stop.id, ...(stop.again ?? [])].map((of) => ({ kind: "check.cleared", ...(session ? { in: session } : {}), body: { of, why } }));
  await new QuickEntries(deps).put(cleared, say("stop.cleared", { what: stop.says, how: why }));
}
