// @ts-check
/** One session: its figures and every entry, each to be put right or taken out. */
import { clone, onActions, refs, setText } from "../parts/dom.js";
import { reading } from "../parts/answer.js";
import { Corrections } from "../parts/corrections.js";
import { aboutRow, entryRow } from "../parts/entry-row.js";
import { QuantityTexts, shownIn } from "../parts/quantity-texts.js";
import { rigsOf } from "../parts/rig-and-site.js";
import { renderRows } from "../parts/rows.js";
import { settled } from "../parts/settled.js";
import { clockTime, dayAndTime, span } from "../parts/times.js";
import { own, plain, say, sayTrouble } from "../words/words.js";
/** @typedef {import("../types/journal.js").SessionView} SessionView */

/** What a session keeps of its plan, in this order. */
const settings = ["current", "pressure", "speed"];

export class SessionPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {SessionView|null} */ #session = null;
  #id = "";
  /** @type {symbol|null} */ #job = null;
  /** @type {Corrections|null} */ #corrections = null;
  /** The name of its rig. */ #rig = "";
  /** What was planned for it, as it was kept. */ #planned = "";

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
    this.texts = new QuantityTexts({ call: deps.call, units: () => deps.settings.values.units });
    this.show = this.texts.say.bind(this.texts);
  }

  /** @param {Record<string, string>} params */
  async start({ id }) {
    this.#id = id;
    this.#corrections = new Corrections(this.deps, { show: this.show, lines: () => this.#session?.entries ?? [], session: id, isOpen: () => Boolean(this.#session?.open), job: () => this.#session?.job ?? "" });
    const root = clone("page-session");
    this.#at = refs(root);
    this.element.append(root);
    onActions(root, {
      rename: () => this.#try(() => this.#rename()),
      note: () => this.#try(() => this.#note()),
      reopen: () => this.#try(() => this.#reopen()),
      change: (el) => this.#try(async () => this.#corrections?.ask(String(el.dataset.id))),
    });
    // A corrected word changes no stored view, so "views" alone would miss it.
    this.deps.journal.addEventListener("change", () => this.#read(), { signal: this.deps.life });
    this.#at.when.textContent = say("session.reading");
    await this.#read();
  }

  // Private

  async #read() {
    const job = (this.#job = Symbol());
    await settled(this.#at.entries);
    let session, views;
    try {
      [session, { views }] = await Promise.all([this.deps.call("journal-session", { id: this.#id }), this.deps.journal.read(["rigs"])]);
    } catch (trouble) {
      if (job !== this.#job || this.deps.life.aborted) return;
      if (this.#session) this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble)); // what is shown is from before
      else this.#at.when.textContent = sayTrouble(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
      return;
    }
    if (job !== this.#job || this.deps.life.aborted) return;
    this.#session = session;
    this.#rig = plain(rigsOf(views.rigs).find((r) => r.id === session.rig)?.fields.name);
    this.#paint();
    if ((await this.texts.learn()) && !this.deps.life.aborted) this.#paint();
  }

  #paint() {
    const s = /** @type {SessionView} */ (this.#session);
    const at = this.#at;
    at.title.textContent = s.title || say("session.untitled");
    const when = s.open ? say("session.since", { time: dayAndTime(s.opened) }) : say("session.was", { from: dayAndTime(s.opened), to: clockTime(s.closed) });
    at.when.textContent = [this.#rig, when].filter(Boolean).join(" · ");
    at.readings.replaceChildren(reading(say("session.arc"), span(s.ms)), reading(say("session.starts"), String(s.starts)), ...(s.cuts ? [reading(say("session.cuts"), String(s.cuts))] : []));
    at.job.hidden = !s.job;
    if (s.job) at.job.href = `/job/${s.job}`;
    at.plan.hidden = !s.fields?.plan_current;
    this.#paintPlan(settings.map((key) => plain(s.fields?.[`plan_${key}`])));
    at.reopen.hidden = false;
    setText(at.reopen, say(s.open ? "cut.end" : "session.reopen"));
    renderRows(at.entries, s.entries, (e) => entryRow(e, { deps: this.deps, show: this.show }), aboutRow);
  }

  /** What was set, in the units of now; what is no quantity, and all until the sums have read it, as it was kept. @param {string[]} kept */
  async #paintPlan(kept) {
    const paint = (/** @type {string[]} */ texts) => (this.#at.plan.textContent = texts.filter(Boolean).join(" · "));
    if (this.#planned !== String(kept)) paint(kept);
    this.#planned = String(kept);
    const { units } = this.deps.settings.values;
    const read = await Promise.all(kept.map((text, i) => (text && own(shownIn, settings[i]) ? this.deps.call("read-value", { quantity: settings[i], ...shownIn[settings[i]], text, units }).catch(() => null) : null)));
    if (this.#planned === String(kept) && !this.deps.life.aborted) paint(read.map((value, i) => value?.text ?? kept[i]));
  }

  async #rename() {
    const title = await this.deps.textPrompt.ask({ label: say("session.rename"), value: this.#session?.title ?? "", key: `title.${this.#id}` });
    if (title) await this.deps.journal.tap({ kind: "session.set", about: this.#id, body: { title } });
  }

  async #note() {
    const text = await this.deps.textPrompt.ask({ label: say("entry.note"), key: `note.${this.#id}` });
    if (text) await this.deps.journal.tap({ kind: "note.added", in: this.#id, body: { text } });
  }

  async #reopen() {
    const { open, rig } = /** @type {SessionView} */ (this.#session);
    await this.deps.journal.tap({ kind: open ? "session.closed" : "session.opened", about: this.#id, body: open ? {} : { rig } });
  }

  /** @param {() => Promise<unknown>} act */
  async #try(act) {
    try {
      await act();
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
  }
}
