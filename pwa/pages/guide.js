// @ts-check
/**
 * Opens a guide and ties it to the journal: answers and readings are written
 * as they are given, and what was answered before stands there again.
 */
import { GuideView } from "../guide/guide.js";
import { drawings } from "../draw/index.js";
import { stillDrawings } from "../draw/still.js";
import { english } from "../words/drawings.js";
import { guideHTML } from "../browser/trusted.js";
import { newId } from "../journal/id.js";
import { keptOf, rigIdInUse, rigsOf } from "../parts/rig-and-site.js";
import { sameDay } from "../parts/job.js";
import { stockOf } from "../parts/stock.js";
import { QuantityTexts, shownIn } from "../parts/quantity-texts.js";
import { clockTime } from "../parts/times.js";
import { own, say, sayKnown } from "../words/words.js";

/** @typedef {import("../journal/shapes.js").Entry} Entry */

/** Readings that are the part's own and go into its history. */
const partReadings = ["dmin", "dmax", "pit"];

/** What this phone keeps of a step: what was read, and answered when, on which rig, in which session. @typedef {{at: number, readings?: Record<string, number>, result?: string, rig?: string, in?: string}} Kept */

export class GuidePage {
  /** @type {GuideView|null} */ #guide = null;
  #session = "";
  #rig = "";
  /** @type {(Partial<import("../journal/shapes.js").ShownPart> & {part: string, slot: string})[]} */ #parts = [];
  /** The step of each failed check, by its id; "" once it is cleared here. @type {Map<string, string>} */ #fails = new Map();
  #id = "";
  #steps = /** @type {string[]} */ ([]);
  #opened = false;
  /** Steps to be done anew in each session: what makes the torch dead. */ #again = /** @type {Set<string>} */ (new Set());
  /** Steps answered on this screen: no view knows better. @type {Set<string>} */ #given = new Set();
  /** @type {symbol|null} */ #job = null;

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  /** @param {Record<string, string>} params */
  async start({ id, hash }) {
    const [guide, still, { views }] = await Promise.all([
      this.deps.asset(`gen/guide/${id}.json`), this.deps.asset("gen/drawings.json"),
      this.deps.journal.read(["now", "guides", "rigs"]),
    ]);
    if (this.deps.life.aborted) return;
    this.deps.title(guide.title);
    this.#id = id;
    this.#steps = guide.steps.map((/** @type {{id: string}} */ step) => step.id);
    this.#place(views);
    this.#again = new Set(guide.taken?.flatMap((one) => one.steps));
    const progress = this.#withKept(id, this.#progress(views, id));
    const quantityTexts = new QuantityTexts({ call: this.deps.call, units: () => this.deps.settings.values.units });
    this.#guide = new GuideView(this.element, {
      drawings: { ...drawings, ...stillDrawings(still) }, html: insert, pad: { ask: (question) => this.#ask(question) }, speech: globalThis.speechSynthesis,
      judge: (slot, { new: fresh, dmax, dmin, error, pit, insert }) => this.deps.call("judge-reading", { slot, new: fresh, dmax, dmin, error, pit, insert }).then(({ answer }) => answer, () => ""),
      gauge: `/photo-gauge?from=/guide/${id}`, learn: () => quantityTexts.learn(),
      show: (value, { quantity, unit }) => quantityTexts.say(value, quantity, unit, sortOf(quantity)),
      drawWords: { ...english, length: (mm, sort = "bore") => quantityTexts.say(mm, "length", "mm", sort) },
    });
    this.element.addEventListener("guide:reading", (event) => this.#keepReading(/** @type {CustomEvent} */ (event).detail));
    this.element.addEventListener("guide:answer", (event) => {
      const { detail } = /** @type {CustomEvent} */ (event);
      detail.kept = this.#answered(detail);
    });
    this.element.addEventListener("guide:fitted", (event) => this.#fitted(/** @type {CustomEvent} */ (event).detail));
    this.element.addEventListener("guide:calls", () => this.deps.go("/settings"));
    this.element.addEventListener("guide:close", () => this.deps.back());
    const emergency = this.deps.settings.values.emergency;
    this.#guide.show(guide, { step: hash, answers: progress, calls: emergency ? [{ name: say("guide.call"), number: emergency }] : [] });
    this.#guide.start(this.deps.life);
    for (const what of ["views", "change"]) this.deps.journal.addEventListener(what, () => this.#look(), { signal: this.deps.life });
    this.#know(views.rigs);
  }

  // Private

  /** Where the phone is: the open session, its rig, what is fitted to that. @param {import("../journal/shapes.js").ReadModelBase["views"]} views */
  #place(views) {
    this.#session = views.now?.session?.id ?? "";
    this.#rig = rigIdInUse(views, this.deps.settings.values.rig);
    this.#parts = views.now?.rigs?.find((r) => r.rig === this.#rig)?.parts ?? [];
  }

  async #look() {
    const { views } = await this.deps.journal.read(["now", "guides", "rigs"]);
    if (this.deps.life.aborted) return;
    const before = this.#session;
    this.#place(views);
    if (before !== this.#session) this.#opened = false;
    const answers = this.#withKept(this.#id, this.#progress(views, this.#id));
    const open = this.#steps.filter((step) => !this.#given.has(step));
    const gone = before === this.#session ? [] : open.filter((step) => !answers[step]); // in another session some steps are done anew
    this.#guide?.restore(Object.fromEntries(open.filter((step) => answers[step]).map((step) => [step, answers[step]])), gone); // a fold after a restart, or another phone
    await this.#know(views.rigs);
  }

  /** Tells the drawings the sizes of the rig; the newest rig wins. @param {import("../journal/shapes.js").ReadModelBase["views"]["rigs"]} view */
  async #know(view) {
    const rig = rigsOf(view).find((r) => r.id === this.#rig);
    const job = (this.#job = Symbol());
    const known = await this.#sizes(rig);
    if (job === this.#job && !this.deps.life.aborted) this.#guide?.know(known, this.#taken());
  }

  /** What was read off the parts today. @returns {import("../guide/shapes.js").TakenReadings} */
  #taken() {
    const read = this.#parts.filter(({ reading, readAt = 0 }) => reading && Date.now() - readAt <= sameDay);
    return Object.fromEntries(read.map(({ slot, reading, readAt }) => [slot, {
      readings: numbersOf(reading), said: say(reading?.by === "photo" ? "guide.read.photo" : "guide.read.hand", { time: clockTime(Number(readAt)) }),
    }]));
  }

  /** The sizes of the rig's parts, for the drawings; none while the sums have not started. @param {import("../parts/rig-and-site.js").Rig|undefined} rig @returns {Promise<import("../guide/shapes.js").Known>} */
  async #sizes(rig) {
    return rig ? this.deps.call("rig-sizes", keptOf(rig)).catch(() => ({})) : {};
  }

  /** Answers of this session, or of today outside one. Its failed checks are kept, and those that this phone told of this rig today. @param {import("../journal/shapes.js").ReadModelBase["views"]} views @param {string} guide */
  #progress({ guides, now }, guide) {
    const all = guides?.progress ?? [];
    /** @type {Record<string, Kept>} */
    const kept = this.deps.drafts.of(`guide.${guide}`);
    for (const fail of now?.fails ?? []) {
      const isToday = Date.now() - fail.at <= sameDay;
      const isHere = (fail.in ?? "") === this.#session ? this.#session || isToday : isToday && kept[fail.step]?.rig === this.#rig; // answered here, in another session
      if (fail.guide === guide && isHere && !this.#fails.has(fail.id)) this.#fails.set(fail.id, fail.step); // what is cleared here stays so: a view may be late
    }
    const found = all.find((p) => p.guide === guide && (p.in ?? "") === this.#session);
    if (!found || (!this.#session && Date.now() - found.last > sameDay)) return {};
    this.#opened = true;
    /** @type {Record<string, import("../guide/shapes.js").Answer>} */
    const answers = Object.create(null); // steps are what another phone wrote
    for (const [step, a] of Object.entries(/** @type {Record<string, import("../types/journal.js").StepAnswer>} */ (found.steps))) {
      answers[step] = { result: a.result, readings: numbersOf(a.body?.readings) };
    }
    return answers;
  }

  /** What was read but not yet answered is this phone's draft: leaving the step loses nothing. @param {{guide: string, step: string, readings: Record<string, number>}} reading */
  #keepReading({ guide, step, readings }) {
    this.deps.drafts.keep(`guide.${guide}`, { ...this.deps.drafts.of(`guide.${guide}`), [step]: { at: Date.now(), readings } });
  }

  /**
   * Lays what this phone keeps under the answers: readings without an answer, and the day's answers on this
   * rig from another session. What makes the torch dead is done anew in each.
   * @param {string} guide @param {Record<string, import("../guide/shapes.js").Answer>} answers
   */
  #withKept(guide, answers) {
    /** @type {Record<string, Kept>} */
    const kept = this.deps.drafts.of(`guide.${guide}`);
    for (const [step, { at, readings, result, rig, in: session }] of Object.entries(kept)) {
      if (Date.now() - at > sameDay || answers[step] && result) continue;
      const holds = result && rig === this.#rig && (session === this.#session ? !this.#opened : !this.#again.has(step));
      if (result && !holds) continue;
      answers[step] = { result: result ?? answers[step]?.result ?? "", readings: { ...answers[step]?.readings, ...readings } };
    }
    return answers;
  }

  /** @param {{guide: string, step: string, result: string, readings?: Record<string, number>, slot?: string, left: number}} answer */
  async #answered({ guide, step, result, readings, slot, left }) {
    this.#given.add(step);
    const now = { at: Date.now(), rig: this.#rig };
    this.deps.drafts.keep(`guide.${guide}`, { ...this.deps.drafts.of(`guide.${guide}`), [step]: { ...now, in: this.#session, result, readings } });
    this.deps.today.left = { ...this.deps.today.left, [guide]: { ...now, n: left } };
    const at = this.#session ? { in: this.#session } : {};
    const part = this.#parts.find((p) => p.slot === slot);
    /** @type {Entry[]} */
    const entries = [];
    if (!this.#opened) entries.push({ kind: "guide.opened", ...at, body: { guide } });
    this.#opened = true;
    const id = newId();
    const some = readings && Object.keys(readings).length > 0;
    entries.push({ kind: "check.answered", ...at, id, body: { guide, step, result, ...(slot ? { slot } : {}), ...(part ? { part: part.part } : {}), ...(some ? { readings } : {}) } });
    const own = Object.fromEntries(Object.entries(readings ?? {}).filter(([key]) => partReadings.includes(key)));
    if (slot && Object.keys(own).length && this.#rig) {
      const about = part?.part ?? newId();
      if (!part) {
        entries.push({ kind: "part.fitted", ...at, about, body: { slot, rig: this.#rig } });
        this.#parts.push({ part: about, slot });
      }
      entries.push({ kind: "part.reading", ...at, about, body: own });
    }
    const isFail = ["change", "not-done", "fail"].includes(result);
    if (!isFail && result !== "unsure") entries.push(...this.#cleared(step, at, say("guide.cleared.answer")));
    if (isFail) this.#fails.set(id, step); // before it is stored: a correction may come meanwhile
    await this.#put(entries);
  }

  /** A new part went in: the old one comes out, and the failed check is cleared by name. @param {{step: string, slot?: string}} fitted */
  async #fitted({ step, slot }) {
    const at = this.#session ? { in: this.#session } : {};
    /** @type {Entry[]} */
    const entries = [];
    if (slot && this.#rig) {
      const from = await (await stockOf(this.deps, this.#rig))(slot);
      if (!from) return;
      const old = this.#parts.find((p) => p.slot === slot);
      if (old) entries.push({ kind: "part.pulled", ...at, about: old.part, body: { why: "inspection", rig: this.#rig } });
      const about = newId();
      entries.push({ kind: "part.fitted", ...at, about, body: { slot, rig: this.#rig, ...from } });
      this.#parts = [...this.#parts.filter((p) => p !== old), { part: about, slot }];
    }
    entries.push(...this.#cleared(step, at, say("guide.cleared.part")));
    await this.#put(entries);
    this.deps.toasts.show(slot ? say("entry.part.done", { slot: sayKnown(`slot.${slot}`) }) : say("guide.cleared"));
  }

  /** Clears the step's failed checks by name. @param {string} step @param {{in?: string}} at @param {string} why @returns {Entry[]} */
  #cleared(step, at, why) {
    const ids = [...this.#fails].filter(([, of]) => of === step).map(([id]) => id);
    for (const id of ids) this.#fails.set(id, "");
    return ids.map((of) => ({ kind: "check.cleared", ...at, body: { of, why } }));
  }

  /** @param {Entry[]} entries */
  async #put(entries) {
    try {
      if (entries.length) await this.deps.journal.tap(entries);
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
  }

  /** @param {{label: string, quantity: string, unit: string, value: number|null}} question @returns {Promise<number|null>} in question.unit */
  async #ask({ label, quantity, unit, value }) {
    if (quantity === "count") {
      const text = await this.deps.pad.ask({ label, value: value === null ? "" : String(value) });
      return text ? Math.max(0, Math.round(Number(text)) || 0) : null;
    }
    const { bare, us } = own(shownIn, quantity) ?? { bare: unit, us: unit };
    const units = this.deps.settings.values.units === "us" ? [us, bare] : [bare, us];
    const read = (/** @type {string} */ text, /** @type {string} */ into = "") => this.deps.call("read-value", { quantity, text, bare, us, sort: sortOf(quantity), units: this.deps.settings.values.units, in: into });
    let given = value === null ? "" : `${Number(value.toFixed(3))}${unit}`;
    while (!this.deps.life.aborted) {
      const text = await this.deps.pad.ask({ label, value: given, units: [...new Set(units)], read });
      if (!text) return null;
      // Lengths come back in µm, so that no sum is done here but the point's shift.
      const { whole } = await read(text, unit === "mm" ? "µm" : unit).catch(() => ({ whole: undefined }));
      if (whole !== undefined) return unit === "mm" ? whole / 1000 : whole;
      given = text; // the pad comes back with it, and says what is wrong
    }
    return null;
  }
}

/** The card for the worst day. */
export class WorstDayPage extends GuidePage {
  /** @param {Record<string, string>} params */
  async start({ hash }) {
    await super.start({ id: "worst-day", hash });
  }
}

/** How finely a reading is told: lengths are bores and pits. @param {string} quantity */
function sortOf(quantity) {
  return quantity === "length" ? "bore" : "";
}

/** The one place where HTML from the server is put into the page. @param {Element} element @param {string} markup */
function insert(element, markup) {
  element.innerHTML = guideHTML(markup);
}

/** The numbers of what another phone may have written. @param {unknown} readings @returns {Record<string, number>} */
function numbersOf(readings) {
  return Object.fromEntries(Object.entries(readings ?? {}).filter(([, value]) => Number.isFinite(value)));
}
