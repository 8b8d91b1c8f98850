// @ts-check
/**
 * Puts an entry right where it stands: a value that its kind declares as asked for
 * (calc/journal/event/asked.go), when it was, how long the arc burned; or takes it out.
 * What was entered stays in the journal: a correction is an entry of its own, and can be taken back.
 */
import { request } from "../journal/crew/request.js";
import { millis } from "../journal/clock.js";
import { describe, isOfNewerVersion } from "./entry-words.js";
import { isCorrected, stands } from "./entry-row.js";
import { rowWords } from "./kept-jobs.js";
import { shownIn } from "./quantity-texts.js";
import { clearStop } from "./stops.js";
import { clockTime, dayAndTime, span } from "./times.js";
import { own, plain, say, sayKnown } from "../words/words.js";

/** @typedef {import("./entry-row.js").Line} Line */
/** @typedef {import("../types/journal.js").AskedField} Field */
/** @typedef {import("../journal/shapes.js").Entry} Entry */
/** A cut of a job's list, in words. @typedef {{cut: string, words: string}} Cut */

/** How a length or a span is read, and in which unit it is asked of the sums. @type {Record<string, {bare: string, us: string}>} */
const units = { ...shownIn, time: { bare: "min", us: "min" } };

export class Corrections {
  /**
   * @param {import("../app.js").Deps} deps
   * @param {{show: import("./entry-words.js").Show, lines: () => Line[], session?: string, isOpen?: () => boolean, job?: () => string}} list
   *   lines: all that stand beside it; session: the one that they are in; job: its job, "" for none
   */
  constructor(deps, { show, lines, session, isOpen = () => false, job = () => "" }) {
    this.deps = deps;
    this.show = show;
    this.lines = lines;
    this.session = session;
    this.isOpen = isOpen;
    this.job = job;
  }

  /** @param {string} id */
  async ask(id) {
    const entry = this.lines().find((e) => e.id === id);
    if (!entry) return;
    const [fields, cuts] = await Promise.all([this.#fieldsOf(entry), this.#cutsFor(entry)]);
    const word = await this.deps.chooser.ask({ label: describe(entry, this.show), options: this.#options(entry, fields, cuts) });
    const field = fields.find(({ key }) => `.${key}` === word);
    if (field) await this.#changeField(entry, field);
    else if (word === "back") await this.deps.journal.bringBack(id);
    else if (word === "remove") await this.#remove(id);
    else if (word === "clear") await clearStop(this.deps, /** @type {Parameters<typeof clearStop>[1]} */ ({ ...entry.body, id }), this.isOpen() ? (this.session ?? "") : "");
    else if (word === "erase") await this.#erase(id);
    else if (word === "time") await this.#changeTime(entry);
    else if (word === "long") await this.#changeLength(entry);
    else if (word === "cut") await this.#changeCut(entry, cuts);
    else if (word === "undo") await this.deps.journal.voidEntry(/** @type {string} */ (entry.history.findLast((h) => h.set)?.id));
    else if (word === "open") this.deps.go(`/${entry.kind.slice(0, -4)}/${entry.about}`);
  }

  // Private

  /** What can be put right in an entry. @param {Line} entry @returns {Promise<Field[]>} */
  async #fieldsOf({ kind, v, body, arc }) {
    if (isOfNewerVersion({ v }) || body.guide === "may-i-cut") return []; // a stop is cleared, not reworded
    const all = await this.deps.asset("gen/corrections.json").catch(() => ({}));
    const fields = /** @type {Field[]} */ (own(all, kind === "arc.started" && arc?.by ? "arc.stopped" : kind) ?? []);
    return fields.filter(({ key, as }) => as === "text" || as === "word" || body[key] !== undefined || arc); // a word may be added: why a part came out
  }

  /** The cuts of the job that an arc or a piece may be of. @param {Line} entry @returns {Promise<Cut[]>} */
  async #cutsFor({ kind, about }) {
    const job = kind === "cut.done" ? about : /^arc\.(started|run)$/.test(kind) ? this.job() : "";
    if (!job) return [];
    const { cuts } = await this.deps.call("journal-job", { id: job }).catch(() => ({ cuts: [] }));
    return cuts.flatMap(({ cut, row }) => (row ? { cut, words: rowWords(/** @type {import("./kept-jobs.js").CutRow} */ (row)) } : []));
  }

  /** @param {Line} entry @param {Field[]} fields @param {Cut[]} cuts */
  #options(entry, fields, cuts) {
    if (entry.void) return [{ word: "back", label: say("entry.bringback") }, ...(entry.n ? [{ word: "erase", label: say("entry.erase"), more: say("entry.erase.more") }] : [])];
    return [
      ...(stands(entry) ? [{ word: "clear", label: say("stop.clear") }] : []),
      ...fields.map((f) => ({ word: `.${f.key}`, label: sayKnown(`entry.change.${f.key}`), more: this.#valueOf(entry, f) })),
      ...(cuts.length > 0 ? [{ word: "cut", label: say("entry.change.cut"), more: cuts.find(({ cut }) => cut === entry.body.cut)?.words ?? "" }] : []),
      ...(entry.arc && !entry.arc.running ? [{ word: "long", label: say("entry.change.long"), more: span(entry.arc.ms) }] : []),
      ...(/^(rig|site)\.set$/.test(entry.kind) ? [{ word: "open", label: say("entry.change.open") }] : []),
      { word: "time", label: say("entry.change.time"), more: clockTime(entry.at) },
      ...(isCorrected(entry) ? [{ word: "undo", label: say("entry.change.undo") }] : []),
      { word: "remove", label: say("entry.remove") },
    ];
  }

  /** What stands under a key, in words. @param {Line} entry @param {Field} field */
  #valueOf({ body, arc }, { key, as, sort }) {
    const value = key === "starts" ? (arc?.starts ?? body.starts) : body[key];
    if (as === "word") return sayKnown(/* slot | verdict | why | result */ `${key}.${plain(value)}`);
    if (typeof value !== "number") return "";
    return as === "length" ? this.show(value, "length", "µm", sort) : as === "time" ? span(value) : String(value);
  }

  /** @param {Line} entry @param {Field} field */
  async #changeField(entry, field) {
    const value = await this.#askValue(entry, field);
    if (value === null || value === entry.body[field.key]) return;
    const of = field.key === "starts" ? (entry.arc?.by ?? entry.id) : entry.id;
    await this.#store([amend(of, { [field.key]: value }), ...(field.key === "slot" ? await this.#partsBeside(entry, String(value)) : [])]);
  }

  /** @param {Line} entry @param {Field} field @returns {Promise<string|number|null>} */
  async #askValue(entry, field) {
    const { key, as, words = [], sort } = field;
    const label = sayKnown(`entry.change.${key}`);
    const value = this.#valueOf(entry, field);
    if (as === "text") return (await this.deps.textPrompt.ask({ label, value: plain(entry.body[key]), key: `amend.${entry.id}` })) || null;
    if (as === "word") {
      const list = words.find((all) => all.includes(plain(entry.body[key]))) ?? words[0];
      return this.deps.chooser.ask({ label, value: plain(entry.body[key]), options: list.map((word) => ({ word, label: sayKnown(/* slot | verdict | why | result */ `${key}.${word}`) })) });
    }
    if (as === "count") {
      const n = Math.round(Number((await this.deps.pad.ask({ label, value })) ?? NaN));
      return n > 0 ? n : null;
    }
    return this.#askAmount(label, as, value, sort);
  }

  /** In µm, or in ms. @param {string} label @param {string} quantity @param {string} value @param {string} [sort] @returns {Promise<number|null>} */
  async #askAmount(label, quantity, value, sort) {
    const isTime = quantity === "time";
    const read = (/** @type {string} */ text) => this.deps.call("read-value", { quantity, text, ...units[quantity], units: this.deps.settings.values.units, in: isTime ? "s" : "µm", sort });
    const text = await this.deps.pad.ask({ label, value: isTime ? "" : value, units: isTime ? ["min", "s"] : this.deps.settings.values.units === "us" ? ["in", "mm"] : ["mm", "in"], read });
    if (!text) return null;
    const whole = /** @type {number} */ ((await read(text)).whole);
    return isTime ? whole * 1000 : whole;
  }

  /**
   * The part that a change took out by its wrong name goes back in, and the one of the right name came out.
   * @param {Line} fitted @param {string} slot @returns {Promise<Entry[]>}
   */
  async #partsBeside({ id, about, at, wall, device, body }, slot) {
    const pulled = this.lines().find((l) => l.kind === "part.pulled" && !l.void && l.device === device && String(l.wall) === String(wall) && l.id !== id);
    if (!pulled) return []; // it took out none
    const { views } = await this.deps.journal.read(["now"]);
    const old = views.now?.rigs?.find(({ rig }) => rig === (pulled.body.rig ?? body.rig))?.parts.find((p) => p.slot === slot && p.part !== about && p.at <= at);
    return [
      { kind: "void", body: { of: pulled.id, on: true } },
      ...(old ? [/** @type {Entry} */ ({ kind: "part.pulled", in: this.session, about: old.part, at, body: pulled.body })] : []),
    ];
  }

  /** Nothing can have happened after it was entered. @param {Line} entry */
  async #changeTime(entry) {
    const label = say("entry.change.time");
    const earlier = [5, 15, 60].map((m) => ({ word: String(m), label: say("entry.earlier", { m }), more: clockTime(entry.at - m * 60_000) }));
    const word = await this.deps.chooser.ask({ label, options: [...earlier, { word: "clock", label: say("entry.clock") }, { word: "1440", label: say("entry.dayearlier"), more: dayAndTime(entry.at - 86_400_000) }] });
    if (!word) return;
    const at = word === "clock" ? await this.#askClock(label, entry) : entry.at - Number(word) * 60_000;
    if (at === null || at === entry.at) return;
    const by = at - entry.at;
    const { id, kind, arc } = entry;
    if (arc && kind === "arc.run") await this.#store([amend(id, { at, start: arc.start + by, stop: arc.stop + by })]);
    else await this.#store([amend(id, { at }), ...(arc?.by ? [amend(arc.by, { at: arc.stop + by })] : [])]);
  }

  /** Asks for a time of that day, as 1430. @param {string} label @param {Line} entry @returns {Promise<number|null>} */
  async #askClock(label, { at, o }) {
    const read = async (/** @type {string} */ text) => {
      const [, h, m] = /^(\d{1,2})[.]?(\d\d)$/.exec(text) ?? [];
      if (h === undefined || Number(h) > 23 || Number(m) > 59) throw { kind: "malformed", msg: say("entry.clock.how") };
      const then = new Date(at).setHours(Number(h), Number(m), 0, 0);
      if (then > millis(o)) throw { kind: "range", msg: say("entry.clock.late", { time: dayAndTime(millis(o)) }) };
      return { at: then, text: dayAndTime(then) };
    };
    const text = await this.deps.pad.ask({ label: `${label}: ${say("entry.clock.how")}`, read });
    return text ? (await read(text)).at : null;
  }

  /** A shorter arc stopped sooner, a longer one began sooner. @param {Line} entry */
  async #changeLength({ id, kind, arc }) {
    const ms = await this.#askAmount(say("entry.change.long"), "time", "");
    if (!arc || !ms || ms === arc.ms) return;
    if (kind === "arc.run") await this.#store([amend(id, { start: arc.stop - ms })]);
    else if (ms < arc.ms && arc.by) await this.#store([amend(arc.by, { at: arc.start + ms })]);
    else await this.#store([amend(id, { at: arc.stop - ms })]);
  }

  /** @param {Line} entry @param {Cut[]} cuts */
  async #changeCut({ id, body }, cuts) {
    const cut = await this.deps.chooser.ask({ label: say("entry.change.cut"), value: plain(body.cut), options: cuts.map((c) => ({ word: c.cut, label: c.words })) });
    if (cut && cut !== body.cut) await this.#store([amend(id, { cut })]);
  }

  /** Stores what corrects, all or nothing, and offers to take it back. @param {Entry[]} entries */
  async #store(entries) {
    const { ids } = await this.deps.journal.tap(entries);
    const undo = () => this.deps.journal.tap(entries.map((e, i) => ({ kind: "void", body: e.kind === "void" ? { of: e.body.of, on: false } : { of: ids[i], on: true } })))
      .catch((trouble) => this.deps.toasts.problem(trouble));
    this.deps.toasts.show(say("entry.corrected.done"), { about: ids, undo });
  }

  /** @param {string} id */
  async #remove(id) {
    await this.deps.journal.voidEntry(id);
    this.deps.toasts.show(say("entry.removed.done"), { about: [id], undo: () => this.deps.journal.bringBack(id).catch((trouble) => this.deps.toasts.problem(trouble)) });
  }

  /** What was removed stays in the journal; the server takes it out for good, for an owner. @param {string} id */
  async #erase(id) {
    const options = [{ word: "erase", label: say("entry.erase"), more: say("entry.erase.where") }];
    if (!(await this.deps.chooser.ask({ label: say("entry.erase.why"), options }))) return;
    await request("DELETE", `/api/entries/${encodeURIComponent(id)}`);
    this.deps.journal.syncNow();
    this.deps.toasts.erased(id);
    this.deps.toasts.show(say("entry.erased.done"));
  }
}

/** @param {string} of @param {Record<string, string|number>} set @returns {Entry} */
function amend(of, set) {
  return { kind: "amend", body: { of, set } };
}
