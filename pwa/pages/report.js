// @ts-check
/**
 * A report of the Book as calc/journal/book makes it: sentences, figures, plots, lists, tables and buttons. This page
 * lays it out, asks what a button asks, enters what comes of it, and prints. What is said stands there.
 */
import { caution, make, clone, onActions, onePress, refs } from "../parts/dom.js";
import { reading } from "../parts/answer.js";
import { handOver, shared } from "../parts/download.js";
import { enlarge, showPhoto, thumbnail } from "../parts/photos.js";
import { lookOf, onNews } from "../parts/look.js";
import { QuickEntries } from "../parts/quick-entries.js";
import { renderRows } from "../parts/rows.js";
import { settled } from "../parts/settled.js";
import { tableOf } from "../parts/sorted-table.js";
import { unlessLeft } from "../browser/leaving.js";
import { newId } from "../journal/id.js";
import { say, sayTrouble } from "../words/words.js";

/** @typedef {import("../types/journal.js").Report} Report */
/** @typedef {import("../types/journal.js").Section} Section */
/** @typedef {import("../types/journal.js").Action} Action */
/** @typedef {import("../types/journal.js").Ask} Ask */

/** Where a long table stands open, px. */
const wide = 900;

/** What begins the name of a thing that is new, in an entry that a button makes. */
const newThing = "new:";

export class ReportPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {{report: string, id: string, query: Record<string, string>, device: string}} */ #asked = { report: "", id: "", query: {}, device: "" };
  /** @type {Report|null} */ #report = null;
  /** The buttons that are shown, by their number. @type {Action[]} */ #actions = [];
  /** What a button does, by what tells it from others. @type {Map<string, (action: Action) => void>} */ #presses = new Map();
  /** @type {symbol|null} */ #job = null;

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
    this.entries = new QuickEntries(deps);
  }

  /** @param {Record<string, string>} params */
  async start({ report = "jobs", id = "", ...query }) {
    const { device } = await this.deps.journal.read([]);
    this.#asked = { report, id, query, device };
    const root = clone("page-report");
    this.#at = refs(root);
    this.element.append(root);
    onActions(root, {
      act: (el) => this.#press(this.#actions[Number(el.dataset.n)]),
      photo: (el) => this.#try(() => this.#showPhoto(String(el.dataset.id))),
    });
    onNews(this.deps, () => this.#try(() => this.#read()));
    this.deps.settings.addEventListener("change", () => this.#try(() => this.#read()), { signal: this.deps.life });
    await this.#read();
  }

  // Private

  /** Presses of one button within a moment are one; those of another never are. @param {Action} action */
  #press(action) {
    const key = JSON.stringify([action.act, action.with, action.print]);
    const press = this.#presses.get(key) ?? onePress((/** @type {Action} */ one) => this.#try(() => this.#act(one)), action.ask.length > 0 ? 0 : undefined);
    this.#presses.set(key, press);
    press(action);
  }

  get #look() {
    return { ...lookOf(this.deps, this.#asked.report), ...this.#asked };
  }

  /** @param {Report} [shown]  what a button answered; else the report is made anew */
  async #read(shown) {
    const job = (this.#job = Symbol());
    const [report, still] = await Promise.all([shown ?? this.deps.call("journal-report", this.#look), this.deps.asset("gen/drawings.json")]);
    await settled(this.#at.sections);
    const { picturesOf } = await unlessLeft(import("../draw/beside.js"));
    if (job === this.#job && !this.deps.life.aborted) this.#show(report, (section) => picturesOf(section, still));
  }

  /** @param {Report} report @param {(section: Section) => SVGSVGElement[]} picturesOf */
  #show(report, picturesOf) {
    this.#report = report;
    this.#actions = [];
    const at = this.#at;
    this.deps.title(report.title);
    at.title.textContent = report.title;
    at.report.classList.toggle("paper", report.paper);
    at.says.replaceChildren(...report.says.map((text, n) => make("p", { class: n ? null : "report__answer", text })), ...report.cautions.map((text) => caution(text)));
    renderRows(at.sections, report.sections, (section) => this.#section(section, picturesOf(section)), ({ title }) => ({ name: title }));
    at.dock.hidden = report.actions.length === 0;
    at.dock.replaceChildren(...report.actions.map((action) => this.#button(action, report.actions.length === 1)));
  }

  /** @param {Section} s @param {SVGSVGElement[]} pictures */
  #section(s, pictures) {
    const rows = make("ul", { class: "list" });
    renderRows(rows, s.rows, (row) => this.#row(row), ({ title }) => ({ name: title }));
    const table = s.table && tableOf(s.table, s.title);
    return make("section", { class: s.screen ? "section no-print" : "section" }, s.title && !s.folded && make("h2", { text: s.title }),
      ...s.says.map((text) => make("p", { text })), ...s.cautions.map((text) => caution(text)),
      s.figures.length > 0 && make("div", { class: "readings" }, ...s.figures.map(({ label, text, main }) => reading(label, text, "", main))),
      ...pictures.map((picture) => make("figure", { class: "picture" }, make("figcaption", { text: picture.querySelector("title")?.textContent ?? "", "aria-hidden": "true" }), picture)),
      s.rows.length > 0 && rows, table && s.folded ? make("details", { class: "fold", open: innerWidth >= wide }, make("summary", { text: s.title }), table) : table,
      s.photos.length > 0 && make("div", { class: "thumbs" }, ...s.photos.map((photo) => this.#thumb(photo))),
      s.actions.length > 0 && make("div", { class: "stack no-print" }, ...s.actions.map((action) => this.#button(action))),
      ...s.sign.map((text) => make("p", { class: "report__sign", text })));
  }

  /** @param {import("../types/journal.js").Row} row */
  #row({ title, says, tag, href, photo, action }) {
    const inside = [make("b", { text: title }), tag && make("span", { class: "tag", text: tag }), ...says.map((text) => make("span", { text }))];
    return make("li", { class: action ? "report__act" : null }, href ? make("a", { class: "list__item", href }, ...inside) : make("div", { class: "list__item" }, ...inside),
      photo && this.#thumb(photo), action && this.#button(action));
  }

  /** @param {import("../types/journal.js").Photo} photo */
  #thumb({ id, body }) {
    const small = thumbnail(/** @type {any} */ (body));
    if (small && this.#report?.paper) enlarge(this.deps.journal, small, /** @type {any} */ (body));
    return make("button", { class: "button photo-button", type: "button", "data-action": "photo", "data-id": id, "aria-label": say("said.photo") }, small);
  }

  /** @param {Action} action @param {boolean} [main] */
  #button(action, main = false) {
    const look = main ? "button button--primary" : "button";
    if (action.href) return make("a", { class: look, href: action.href, text: action.label });
    const { file: accept } = action;
    if (accept) return make("label", { class: look }, make("span", { text: action.label }), make("input", { class: "unseen", type: "file", accept, onchange: (/** @type {any} */ { target }) => this.#try(() => this.#actOn(action, target)) }));
    const n = this.#actions.push(action) - 1;
    return make("button", { class: look, type: "button", "data-action": "act", "data-n": n, text: action.label });
  }

  /** @param {Action} action @param {Record<string, string>} [answers]  what is known before anything is asked */
  async #act(action, answers = {}) {
    if (action.print) return print();
    for (const ask of action.ask) {
      if (ask.only && !ask.only.words.includes(answers[ask.only.key])) continue;
      const answer = await this.#ask(ask);
      if (answer === null) return;
      answers[ask.key] = answer;
    }
    const done = await this.#do(action, answers);
    if (!done) return;
    if (done.entries.length > 0) await this.#enter(done);
    if (done.text && !done.type && await shared(done.text)) return;
    if (done.name) await this.#handOver(done);
    if (done.report) await this.#read(done.report);
    if (done.href) this.deps.go(done.href.replace(newThing, newId()));
  }

  /** @param {Action} action @param {HTMLInputElement} input */
  async #actOn(action, input) {
    const file = await input.files?.[0]?.text();
    // So that the same file can be picked once more.
    input.value = "";
    if (file !== undefined) await this.#act(action, { file });
  }

  /** What comes of a button; what was answered wrong is asked again, saying why. @param {Action} action @param {Record<string, string>} answers @returns {Promise<import("../types/journal.js").Done|null>} */
  async #do(action, answers) {
    try {
      return await this.deps.call("journal-act", { ...this.#look, act: action.act, with: action.with, answers });
    } catch (err) {
      const trouble = /** @type {import("../calc/trouble.js").Trouble} */ (err);
      const ask = action.ask.find(({ key }) => key === trouble.field);
      if (!ask) throw trouble;
      const answer = await this.#ask({ ...ask, label: sayTrouble(trouble), value: answers[ask.key] });
      return answer === null ? null : this.#do(action, { ...answers, [ask.key]: answer });
    }
  }

  /** @param {import("../types/journal.js").Done} done */
  #enter({ entries, said }) {
    /** @type {Record<string, string>} */
    const ids = {};
    const whole = entries.map(({ kind, about, in: session, body }) => ({ kind, about: about.startsWith(newThing) ? (ids[about] ??= newId()) : about || undefined, in: session || undefined, body }));
    return this.entries.put(/** @type {any} */ (whole), said);
  }

  /** @param {import("../types/journal.js").Done} done */
  async #handOver({ name, text, type, said }) {
    if (await handOver(name, text, type)) this.deps.toasts.show(said || say("book.exported", { name }));
  }

  /** @param {Ask} ask @returns {Promise<string|null>} */
  #ask({ key, label, options, quantity, bare, us, count, value }) {
    const { chooser, pad, textPrompt, settings, call } = this.deps;
    if (options.length > 0) return chooser.ask({ label, options, value });
    if (count) return pad.ask({ label, value });
    const { units } = settings.values;
    if (quantity) return pad.ask({ label, value, units: units === "us" ? [us, bare] : [bare, us], read: (text) => call("read-value", { quantity, text, bare, us, units }) });
    return textPrompt.ask({ label, value, key: `${this.#asked.report}.${this.#asked.id}.${key}` });
  }

  /** @param {string} id */
  async #showPhoto(id) {
    const photos = this.#report?.sections.flatMap((s) => [...s.photos, ...s.rows.flatMap(({ photo }) => photo ?? [])]) ?? [];
    const photo = photos.find((one) => one.id === id);
    if (photo) await showPhoto(this.deps.journal, /** @type {any} */ (photo), say("said.photo"));
  }

  /** @param {() => Promise<unknown>|unknown} act */
  async #try(act) {
    try {
      await act();
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
  }
}
