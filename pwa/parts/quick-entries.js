// @ts-check
/**
 * The quick entries of a session: each asks what it must, stores, says so and
 * offers Undo. Lengths are stored in µm, pressures in Pa, speeds in µm/s.
 */
import { newId } from "../journal/id.js";
import { clockTime, span, startsOf } from "./times.js";
import { stockOf } from "./stock.js";
import { storeOnceRead, retryDeferred } from "./deferred-entries.js";
import { say, sayKnown } from "../words/words.js";

/** @typedef {import("../journal/shapes.js").Entry} Entry */
/** @typedef {{session: string, rig: string, parts: (Pick<import("../types/journal.js").PartNow, "part"|"slot"> & Partial<Pick<import("../types/journal.js").PartNow, "ms"|"starts">>)[]}} Context */

export const slots = ["cup", "tip", "diffuser", "electrode", "o-ring"];
/** How a length is read, into µm. */
const length = { quantity: "length", bare: "mm", us: "in", in: "µm" };
export const verdicts = ["good", "too-slow", "too-fast", "did-not-sever"];

export class QuickEntries {
  /** @param {Pick<import("../app.js").Deps, "journal"|"chooser"|"pad"|"textPrompt"|"toasts"|"call"|"sumsRun"|"drafts"|"settings"|"go">} deps */
  constructor(deps) {
    this.deps = deps;
  }

  /** Stores an entry, or several that belong together, and offers Undo. @param {Entry|Entry[]} entry @param {string} said */
  async put(entry, said) {
    const { ids } = await this.deps.journal.tap(entry);
    const session = [entry].flat()[0].in;
    this.deps.toasts.show(said, { about: ids, undo: () => this.#undo(ids, session) });
  }

  /** @param {Context} at */
  drained(at) {
    return this.put({ kind: "trap.drained", in: at.session, body: { rig: at.rig } }, say("entry.drained", { time: clockTime(Date.now()) }));
  }

  /** Stored as soon as it is said which part: those in the torch stand first. @param {Context} at */
  async partChanged(at) {
    const take = await stockOf(this.deps, at.rig);
    const inside = at.parts.map((p) => p.slot).filter((slot) => slots.includes(slot));
    const slot = await this.deps.chooser.ask({ label: say("entry.part.which"), options: [...new Set([...inside, ...slots])].map((word) => {
      const part = at.parts.find((p) => p.slot === word);
      return { word, label: sayKnown(`slot.${word}`), more: part?.ms === undefined ? "" : say("cut.part.worn", { arc: span(part.ms), starts: startsOf({ starts: part.starts ?? 0 }) }) };
    }) });
    const from = slot && (await take(slot));
    if (!slot || !from) return;
    const old = at.parts.find((p) => p.slot === slot);
    /** @type {Entry[]} */
    const pulled = old ? [{ kind: "part.pulled", in: at.session, about: old.part, body: { rig: at.rig } }] : [];
    await this.put([...pulled, { kind: "part.fitted", in: at.session, about: newId(), body: { slot, rig: at.rig, ...from } }], say("entry.part.done", { slot: sayKnown(`slot.${slot}`) }));
  }

  /** @param {Context} at */
  async reading(at) {
    const slot = await this.deps.chooser.ask({ label: say("entry.reading.which"), options: ["tip", "tip-photo", "electrode"].map((s) => ({ word: s, label: sayKnown(`slot.${s}`) })) });
    if (!slot) return;
    if (slot === "tip-photo") {
      this.deps.go("/photo-gauge");
      return;
    }
    const keys = slot === "tip" ? ["dmax", "dmin"] : ["pit"];
    /** @type {Record<string, import("./deferred-entries.js").Typed>} */
    const typed = {};
    for (const key of keys) {
      const text = await this.#askLength(say(`reading.${key}`));
      if (!text) return;
      typed[key] = { ...length, text };
    }
    const part = at.parts.find((p) => p.slot === slot);
    const about = part?.part ?? newId();
    /** @type {Entry[]} */
    const entries = part ? [] : [{ kind: "part.fitted", in: at.session, about, body: { slot, rig: at.rig } }];
    await this.#putOnceRead([...entries, { kind: "part.reading", in: at.session, about, body: {} }], typed, say("entry.reading.done"));
  }

  /**
   * @param {Context} at @param {import("../today.js").Today["begun"]} plan
   * @param {{verdict?: string, speed?: number}} [seen]  how it was, if that is said already; and how fast, in m/s, if that was timed
   */
  async tried(at, plan, seen = {}) {
    const verdict = seen.verdict ?? await this.deps.chooser.ask({ label: say("entry.tried.how"), options: verdicts.map((v) => ({ word: v, label: sayKnown(`verdict.${v}`) })) });
    if (!verdict) return;
    const r = plan.results ?? {};
    const whole = (/** @type {import("../types/calc.js").Value|string|undefined} */ v, /** @type {number} */ size) => (v && typeof v === "object" ? Math.round(v.value * size) : undefined);
    /** @type {Record<string, string|number|undefined>} */
    const body = { rig: at.rig, verdict, metal: plan.fields?.metal ?? (plan.results ? "mild-steel" : undefined), amps: whole(r.current, 1), pressure: whole(r.pressure, 1), speed: seen.speed ? Math.round(seen.speed * 1e6) : whole(r.speed, 1e6) };
    for (const key of Object.keys(body)) if (body[key] === undefined) delete body[key];
    const text = plan.fields?.thickness ?? "";
    /** @type {Record<string, import("./deferred-entries.js").Typed>} */
    const typed = text ? { thickness: { ...length, text, optional: true } } : {}; // what a gauge is hangs on the metal
    await this.#putOnceRead([{ kind: "cut.tried", in: at.session || undefined, body }], typed, say("entry.tried.done", { verdict: sayKnown(`verdict.${verdict}`) }));
  }

  /** @param {Context} at */
  async note(at) {
    const text = await this.deps.textPrompt.ask({ label: say("entry.note"), key: `note.${at.session}` });
    if (text) await this.put({ kind: "note.added", in: at.session, body: { text } }, say("entry.note.done"));
  }

  /** Arc time entered afterwards: how long, how many starts. @param {Context} at */
  async arcLater(at) {
    const long = await this.deps.pad.ask({ label: say("entry.later.long"), units: ["min", "s"], read: (text) => this.#read("time", text, "min", "min") });
    if (!long) return;
    const starts = await this.deps.pad.ask({ label: say("entry.later.starts"), value: "1" });
    if (!starts) return;
    const count = Math.max(1, Math.round(Number(starts)) || 1);
    const body = { rig: at.rig, stop: this.deps.journal.now(), starts: count };
    await this.#putOnceRead([{ kind: "arc.run", in: at.session, body }], { seconds: { quantity: "time", text: long, bare: "min", us: "min", in: "s" } }, say("entry.later.done"));
  }

  /** Takes up what was tapped before the sums ran, and left. */
  takeUp() {
    return retryDeferred(this.deps, (entries, said) => this.put(entries, said));
  }

  // Private

  /** Takes all of them back or none. @param {string[]} ids newest last @param {string} [session] */
  async #undo(ids, session) {
    try {
      await this.deps.journal.tap([...ids].reverse().map((of) => ({ kind: "void", in: session, body: { of, on: true, why: "undone" } })));
      this.deps.toasts.show(say("undone"));
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
  }

  /** @param {import("./deferred-entries.js").Unread[]} entries @param {Record<string, import("./deferred-entries.js").Typed>} typed @param {string} said */
  #putOnceRead(entries, typed, said) {
    return storeOnceRead(this.deps, { entries, typed, said }, (read, done) => this.put(read, done));
  }

  /** Asks for a length, as it is typed. @param {string} label @returns {Promise<string|null>} */
  #askLength(label) {
    const units = this.deps.settings.values.units === "us" ? ["in", "mm"] : ["mm", "in"];
    return this.deps.pad.ask({ label, units, read: (value) => this.#read("length", value, "mm", "in") });
  }

  /** @param {string} quantity @param {string} text @param {string} bare @param {string} us */
  #read(quantity, text, bare, us) {
    return this.deps.call("read-value", { quantity, text, bare, us, sort: quantity === "length" ? "bore" : "", units: this.deps.settings.values.units });
  }
}
