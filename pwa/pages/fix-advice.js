// @ts-check
/**
 * What the fault finder says: what to do at once, then the next check or what to mend, with its answers in a
 * bar that keeps its place; below, what it can be.
 */
import { caution, make, setText } from "../parts/dom.js";
import { say } from "../words/words.js";

/** @typedef {import("../types/server.js").Assets["gen/faults.json"]} Faults */

/** @typedef {import("../types/calc.js").FaultRankResults} Ranking */
/** @typedef {"signs"|"causes"|"checks"} List */

/**
 * A check answered or skipped, or a cause mended: that helped in part, with the signs before and its entry in
 * the journal, or that did not.
 * @typedef {{key: string, answer: "yes"|"no"|"skip"|"helped"|"tried", label?: string, signs?: string[], absent?: string[], entry?: string}} Step
 *
 * @typedef {object} Kept  of a search, in the draft
 * @property {string[]} signs
 * @property {string[]} absent  signs that went away as a cause was mended
 * @property {Step[]} steps  in order
 * @property {boolean} asks  a cause was mended and helped in part: which signs are left is not said yet
 * @property {string} fault  its id, "" for what is none
 * @property {string} seen  id of the fault.seen in the journal
 * @property {string} session  of that
 * @property {string} told  the signs that it tells
 * @property {string} metal  "other": not the plan's, so that what the plan knows does not count
 */

/** What an answer of a check, and of mending, does and says in the bar; of a check yes and no say it themselves. */
const answers = { yes: "it", no: "helped", skip: "tried" };

export class FixAdvice {
  /**
   * @param {import("../parts/dom.js").Refs} at  what carries data-ref @param {Faults} faults
   * @param {(fold: HTMLDetailsElement) => Pick<import("./fix-how.js").FixHow, "lead">} how  shows in a fold how it is done
   */
  constructor(at, faults, how) {
    this.at = at;
    this.faults = faults;
    how(at.deaden).lead("make-dead");
    this.how = how(at.show);
  }

  /**
   * @param {Pick<import("../calc/calls.js").Answer<"fault-rank">, "results" | "cautions">} answer
   * @param {Kept} kept
   * @param {{known: string, planned: {metal: string, thickness: string}}} day  in words, what was reckoned with and what the plan is for
   */
  paint({ results, cautions }, kept, { known, planned }) {
    const { at } = this;
    const signs = kept.signs.map((key) => find(this.faults, "signs", key)).filter((s) => s !== undefined);
    const [stops, nows] = /** @type {const} */ (["stop", "now"]).map((what) => signs.map((s) => s[what] ?? "").filter((text) => text && (what === "stop" || cautions.includes(text))));
    const dead = cautions.filter((text) => !stops.includes(text) && !nows.includes(text));
    at.state.replaceChildren(...stops.map((text) => caution(text, true)), ...nows.map((text) => caution(text)),
      ...(results.state === "service" ? [caution(say("fix.service"), true)] : []),
      ...["left", "none"].filter((state) => state === results.state).map((state) => make("p", { class: "fix-state", text: say(/* left | none */ `fix.${state}`) })),
      ...results.no_faults.map((f) => make("p", { class: "fix-state", text: `${f.label}: ${f.why}` })));
    const isSaid = this.#paintNext(results, dead, kept);
    at.ranked.hidden = results.causes.length === 0;
    at.before.replaceChildren(...(isSaid ? [] : dead.map((text) => caution(text))));
    at.causes.replaceChildren(...results.causes.map((c) => cause(c, kept.fault)));
    at.ruled.textContent = sayRuled(results.ruled ?? []);
    at.known.textContent = known;
    at.metal.hidden = !planned.thickness;
    setText(at.metal, say(kept.metal ? "fix.metal.plan" : "fix.metal.other", planned));
    at.seen.replaceChildren(...this.#tags(kept).map((text) => make("li", { class: "tag", text })));
    at.other.hidden = at.gone.hidden = !kept.fault;
  }

  // Private

  /** The next check or what to mend. Tells whether it says how the torch is made dead. @param {Ranking} results @param {string[]} dead @param {Kept} kept */
  #paintNext(results, dead, { steps }) {
    const { at } = this;
    const mend = results.state === "act" ? results.causes[0] : null;
    /** A check, or a cause that is mended. @type {any} */
    const row = mend ?? (["check", "stop", "none"].includes(results.state) ? results.next[0] : null);
    const isDead = Boolean(row) && dead.length > 0 && (mend !== null || row.hands === "dead");
    for (const el of [at.next, at.yes, at.no, at.skip]) el.hidden = !row;
    at.undo.hidden = steps.length === 0;
    at.bar.hidden = !row && at.undo.hidden;
    const isOpened = row && (mend || row.hands === "dead");
    const others = isOpened ? results.next.slice(mend ? 0 : 1).filter((r) => r.hands === "dead") : [];
    at.also.hidden = others.length === 0;
    at.while.textContent = say(mend ? "fix.while.act" : "fix.while");
    at.others.replaceChildren(...others.map((r) => (mend ? lookToo(r) : make("li", { class: "fix-other", text: r.label }))));
    if (!row) return false;
    at.kind.textContent = mend ? say("fix.act", { odds: mend.words }) : say("fix.next", { hands: say(`fix.hands.${row.hands}`) });
    at.check.textContent = row.label;
    at.how.textContent = row.do;
    at.takes.textContent = mend ? "" : sayMinutes(row, others.length > 0);
    this.how.lead(row.guide, row.step);
    at.dead.hidden = !isDead;
    at.cautions.replaceChildren(...(isDead ? dead.map((text) => caution(text)) : []));
    for (const [ref, outcome] of Object.entries(answers)) {
      Object.assign(at[ref].dataset, { action: mend ? outcome : ref, key: mend?.cause ?? row.check, label: row.label });
      at[ref].removeAttribute("aria-pressed");
      setText(at[ref], mend ? say(/* it | helped | tried */ `fix.${outcome}`) : row[ref] ?? say("fix.skip"));
    }
    return isDead;
  }

  /** All that is known of this fault, in words. @param {Kept} kept */
  #tags({ signs, absent, steps }) {
    const label = (/** @type {List} */ list, /** @type {string} */ key) => labelOf(this.faults, list, key);
    return [
      ...signs.map((key) => label("signs", key)),
      ...absent.map((key) => say("fix.tag.gone", { what: label("signs", key) })),
      ...steps.filter(({ answer }) => answer !== "skip").map(({ key, answer, label: asked }) => (answer === "yes" || answer === "no"
        ? `${asked ?? label("checks", key)} ${find(this.faults, "checks", key)?.[answer] ?? answer}` : say("fix.tag.mended", { what: label("causes", key) }))),
    ];
  }
}

/** A check of what lies open beside what is mended. @param {any} r */
function lookToo(r) {
  return make("li", { class: "list__item" }, make("b", { text: r.label }), make("span", { text: r.do }),
    make("div", { class: "pair" }, ...["yes", "no"].map((answer) => button(answer, r.check, r[answer], r.label))));
}

/** @param {Ranking["causes"][number]} c @param {string} fault */
function cause(c, fault) {
  const why = [c.for && say("fix.for", { what: c.for }), c.against && say("fix.against", { what: c.against })].filter(Boolean);
  const outcomes = fault ? Object.values(answers).map((action) => button(action, c.cause, say(/* it | helped | tried */ `fix.${action}`))) : [];
  return make("li", { class: "list__item" }, make("b", { text: c.label }), make("span", { class: "fix-chance", text: c.words }),
    make("details", { class: "fold" }, make("summary", { text: say("fix.why", { cause: c.label }) }), make("div", { class: "stack" }, ...why.map((text) => make("p", { text })),
      make("p", { text: c.do }),
      make("a", { class: "button", href: `/guide/${c.guide}#${c.step}`, text: say("fix.show") }), ...outcomes)));
}

/** @param {string} action @param {string} key  of a check or a cause @param {string} text @param {string} [label] */
function button(action, key, text, label) {
  return make("button", { class: action === "it" ? "button button--primary" : "button", type: "button", "data-action": action, "data-key": key, "data-label": label, text });
}

/** How long a check takes, and what goes before. @param {Pick<Ranking["next"][number], "hands"|"setup"|"minutes">} row @param {boolean} isOneOfMany  in the opened torch */
function sayMinutes({ hands, setup, minutes }, isOneOfMany) {
  const before = Math.round(setup?.value ?? 0);
  const min = Math.max(1, Math.round(minutes.value));
  if (before && hands === "dead") return say(isOneOfMany ? "fix.takes.dead.each" : "fix.takes.dead", { before, min });
  return [before ? say("fix.takes.off", { before }) : "", say(minutes.value < 1 ? "fix.takes.short" : "fix.takes", { min })].join(" ").trim();
}

/** What is not looked for, and why. @param {{label: string, why: string}[]} ruled */
function sayRuled(ruled) {
  return ruled.map(({ label, why }) => say("fix.ruled", { what: label[0].toLowerCase() + label.slice(1), why })).join(" ");
}

/**
 * What the fault finder knows of that key.
 * @template {List} L
 * @param {Faults} faults @param {L} list @param {string} key
 * @returns {Faults[L][number]|undefined}
 */
export function find(faults, list, key) {
  return faults[list].find((f) => f.key === key);
}

/** Its label; of what it does not know, as another version may, the key's words. @param {Faults} faults @param {List} list @param {string} key */
export function labelOf(faults, list, key) {
  return find(faults, list, key)?.label ?? key.replaceAll("-", " ");
}
