// @ts-check
/**
 * What one screen tells another of today's cut. It is this phone's alone and no part of the journal.
 * What is half typed on one screen, and told to no other, is a draft (parts/drafts.js).
 *
 * No fact is forgotten because a session ends, another rig is picked or the day is over: each stands
 * until the next of its kind is told, or as its own line says. A screen asks anew each time, for another
 * tab may have told. What cannot be read counts as never told.
 */

/** What was entered, as text, by the keys of cut-plan. @typedef {Record<string, string>} Fields */
/** What a plan told, perhaps in an older version, which told less. @typedef {Partial<import("./types/calc.js").CutPlanResults>} Told */
/** @typedef {import("./types/calc.js").SiteCheckResults} Judged */
/** What site-check told; Pick, so that it can be asked by key. @typedef {Pick<Judged, keyof Judged>} Day */
/** What of that goes on to Cut. @typedef {Pick<Day, "verdict"|"binding"|"arc_on"|"arc_rest">} DayToldOn */
/** @typedef {Pick<Day, "air"|"power"|"duty">} Verdicts */
/**
 * A plan that was reckoned, and for what. asked: a key of what was asked; keys: those of the form;
 * day: what site-check told, where the site is short of what the plan needs.
 * @typedef {{results: Told, cautions: string[], asked: string, keys: string[], day: Day|null}} Answer
 */

/** Stored under the names that the first versions gave them, when they were drafts. */
const prefix = "draft.";

/** What was told longer ago is of another day, ms; either way, for a clock may be set back. */
const sameDay = 12 * 3600 * 1000;

export class Today {
  /** @param {import("./journal/local-state.js").LocalState} localState */
  constructor(localState) {
    this.localState = localState;
  }

  /** What was entered for the cut, on Ready or in the whole plan; forgotten when that is cleared. @returns {Fields} */
  get plan() {
    return textsOf(this.#told("plan"));
  }

  /** @param {Fields|null} fields */
  set plan(fields) {
    this.#tell("plan", fields);
  }

  /** The last plan that Ready has shown: the next start paints it, if that is what is asked then. @returns {Answer|null} */
  get answer() {
    const { results, cautions, asked, keys, day } = this.#told("plan.answer");
    if (!isRecord(results) || !Array.isArray(cautions)) return null;
    const isWhole = isRecord(day) && [day.remedies, day.unknowns, day.here].every(Array.isArray);
    return { results, cautions, asked: String(asked ?? ""), keys: Array.isArray(keys) ? keys : [], day: isWhole ? /** @type {Day} */ (day) : null };
  }

  /** @param {Answer} answer */
  set answer(answer) {
    this.#tell("plan.answer", answer);
  }

  /**
   * The plan that Ready handed on to Cut and Pace, without figures where none stood; empty, and forgotten,
   * where no thickness was entered. day: what site-check said of it.
   * @returns {{fields?: Fields, results?: Told, day?: DayToldOn}}
   */
  get begun() {
    const { fields, results, day } = this.#told("plan.begin");
    return { fields: isRecord(fields) ? textsOf(fields) : undefined, results: isRecord(results) ? results : undefined, ...(isRecord(day) ? { day: /** @type {DayToldOn} */ (day) } : {}) };
  }

  /** @param {{fields: Fields, results?: Told, day?: DayToldOn}|null} plan */
  set begun(plan) {
    this.#tell("plan.begin", plan);
  }

  /**
   * The metal that a plan was last reckoned for, and whether it is past what that cuts clean: Fix asks, and is told none of another day.
   * @returns {{metal: string, thickness: string, past: string}}
   */
  get metal() {
    const { metal = "", thickness = "", past = "unknown" } = this.#ofToday("day.plan");
    return { metal, thickness, past };
  }

  /** @param {{metal: string, thickness: string, past: "yes"|"no"}} metal */
  set metal(metal) {
    this.#tell("day.plan", { ...metal, at: String(Date.now()) });
  }

  /** The verdicts of site-check on this site's air and power: Fix asks, and is told none of another day. @returns {Partial<Verdicts>} */
  get verdicts() {
    return this.#ofToday("day.verdicts");
  }

  /** @param {Verdicts} verdicts */
  set verdicts(verdicts) {
    this.#tell("day.verdicts", { ...verdicts, at: String(Date.now()) });
  }

  /** How long the last arc burned, from Cut to Pace. @param {number} ms */
  tellArc(ms) {
    this.#tell("arc.last", { seconds: (ms / 1000).toFixed(1) });
  }

  /** The seconds of the last arc, "" for none; forgotten once asked for. */
  takeArc() {
    const { seconds = "" } = textsOf(this.#told("arc.last"));
    this.#tell("arc.last", null);
    return seconds;
  }

  /** The arc after which no fire watch was wanted, by the time of its end; NaN for none. */
  get unwatched() {
    return Number(textsOf(this.#told("watch.declined")).at);
  }

  /** @param {number} at */
  set unwatched(at) {
    this.#tell("watch.declined", { at: String(at) });
  }

  /** The guides that were begun: when last, on which rig, and the step to go on at, 0 for none. @returns {Record<string, {at: number, rig: string, n: number}>} */
  get left() {
    const told = Object.entries(this.#told("guides.left")).filter(([, one]) => isRecord(one));
    return Object.fromEntries(told.map(([guide, one]) => {
      const { at, rig, n } = /** @type {Record<string, unknown>} */ (one);
      return [guide, { at: Number(at), rig: String(rig), n: Number(n) }];
    }));
  }

  /** @param {Record<string, {at: number, rig: string, n: number}>} guides */
  set left(guides) {
    this.#tell("guides.left", guides);
  }

  /** The end of a fire watch that has rung here, in whichever tab; "" for none. */
  get rung() {
    return textsOf(this.#told("watch.rung")).what ?? "";
  }

  /** @param {string} what */
  set rung(what) {
    this.#tell("watch.rung", { what });
  }

  // Private

  /** @param {string} name @returns {Record<string, unknown>} */
  #told(name) {
    const told = this.localState.get(`${prefix}${name}`);
    return isRecord(told) ? told : {};
  }

  /** What was told today; the first versions kept no time with it. @param {string} name */
  #ofToday(name) {
    const { at, ...told } = textsOf(this.#told(name));
    return at === undefined || Math.abs(Date.now() - Number(at)) < sameDay ? told : {};
  }

  /** @param {string} name @param {object|null} what  null: forgotten */
  #tell(name, what) {
    if (what) this.localState.set(`${prefix}${name}`, what);
    else this.localState.remove(`${prefix}${name}`);
  }
}

/** @param {unknown} value @returns {value is Record<string, unknown>} */
function isRecord(value) {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** The texts among what was told. @param {Record<string, unknown>} told @returns {Record<string, string>} */
function textsOf(told) {
  return /** @type {Record<string, string>} */ (Object.fromEntries(Object.entries(told).filter(([, value]) => typeof value === "string")));
}
