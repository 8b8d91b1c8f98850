// @ts-check
/**
 * One job: its cut list, what it takes of time, parts and money, and, once it was begun, what was done of it.
 * Every change is kept at once, row by row; what rig, site and crew know is filled in.
 */
import { bringUp, clone, onActions, onePress, refs, setText, wrongWords } from "../parts/dom.js";
import { AnswerView } from "../parts/answer.js";
import { declarationOf } from "../parts/declared.js";
import { Form } from "../parts/form.js";
import { askedOf, changesOf, keptJob, plannedOf } from "../parts/kept-jobs.js";
import { keptOf, noSite, readOf, rigInUse, rigsOf, siteInUse, sitesOf } from "../parts/rig-and-site.js";
import { settled } from "../parts/settled.js";
import { isAbort } from "../calc/calls.js";
import { newId } from "../journal/id.js";
import { say } from "../words/words.js";
import { comparedOf } from "./job-compared.js";

/** @typedef {import("../calc/trouble.js").Trouble} Trouble */
/** @typedef {import("../parts/rig-and-site.js").Rig} Thing */
/** @typedef {import("../parts/kept-jobs.js").KeptJob} KeptJob */

export class JobPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {KeptJob} */ #job = keptJob("");
  /** @type {import("../types/journal.js").JobItem[]} */ #others = [];
  /** What was done of it; null while nothing of it is kept. @type {import("../types/journal.js").JobView|null} */ #view = null;
  /** How often something was entered here, and how much of it is not stored yet. */ #entered = 0;
  #going = 0;
  /** @type {Thing[]} */ #rigs = [];
  /** @type {Thing[]} */ #sites = [];
  /** @type {import("../journal/shapes.js").ShownNow|null|undefined} */ #now = null;
  /** The cut list, and all else that is asked. @type {Form[]} */ #forms = [];
  /** @type {AnswerView|null} */ #told = null;
  /** @type {import("../calc/calls.js").Answer|null} */ #answer = null;
  #sum = new AbortController();

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  /** @param {Record<string, string>} params */
  async start({ id }) {
    const root = clone("page-job");
    this.#at = refs(root);
    this.element.append(root);
    this.#job = keptJob(id);
    onActions(root, { about: () => this.#try(() => this.#changeAbout()), begin: onePress(() => this.#try(() => this.#begin())) });
    const [all] = await Promise.all([this.deps.asset("gen/calculators.json"), this.#read()]);
    if (this.deps.life.aborted) return;
    this.#keepTyped();
    this.#makeForms(declarationOf(all, "job-plan"));
    for (const type of ["views", "change"]) this.deps.journal.addEventListener(type, () => this.#learn(), { signal: this.deps.life });
    this.deps.settings.addEventListener("change", () => this.#reckon(), { signal: this.deps.life });
    await this.#reckon();
  }

  stop() {
    this.#sum.abort();
  }

  // Private

  /** Reads what is kept; not over what was just entered here. */
  async #read() {
    const { id } = this.#job;
    const entered = this.#entered;
    if (this.#going > 0) return; // once it is stored, all is read again
    const [{ views }, view] = await Promise.all([this.deps.journal.read(["rigs", "now", "jobs"]), this.deps.journal.job(id).catch(unlessNew)]);
    if (this.deps.life.aborted || entered !== this.#entered) return;
    this.#others = views.jobs?.jobs.filter((job) => job.id !== id) ?? [];
    this.#view = view;
    if (view) this.#job = keptJob(id, view.fields);
    this.#rigs = rigsOf(views.rigs);
    this.#sites = sitesOf(views.rigs);
    this.#now = views.now;
    this.#paint();
  }

  get #rig() {
    return rigInUse(this.#rigs, this.#job.fields.rig || this.deps.settings.values.rig);
  }

  get #site() {
    return siteInUse(this.#sites, this.#job.fields.site || this.deps.settings.values.site);
  }

  /** A name for a new one that none has: Job 2. */
  get #name() {
    if (this.#job.fields.name) return this.#job.fields.name;
    for (let n = this.#others.length + 1; ; n++) {
      const name = say("job.called", { n });
      if (!this.#others.some((other) => other.name === name)) return name;
    }
  }

  #paint() {
    this.deps.title(this.#name);
    setText(this.#at.about, [this.#job.fields.customer || this.#name, this.#rig?.fields.name ?? say("rig.unnamed"), this.#site?.fields.name ?? say("ready.noplace")].join(" · "));
    const compared = this.#view ? comparedOf(this.#view) : [];
    this.#at.kept.hidden = compared.length === 0;
    this.#at.kept.replaceChildren(...compared);
    setText(this.#at.begin, say(this.#isOpen ? "job.goon" : "job.begin"));
  }

  /** Whether the open session is one of this job. */
  get #isOpen() {
    return this.#now?.session?.job === this.#job.id;
  }

  /** @param {import("../types/calc.js").Description} declared */
  #makeForms(declared) {
    this.#told = new AnswerView(declared.results);
    this.#at.told.append(this.#told.element);
    const fields = declared.fields.filter((f) => !f.owner);
    const make = (/** @type {typeof fields} */ some) => new Form(some, {
      pad: this.deps.pad, chooser: this.deps.chooser, toasts: this.deps.toasts, units: () => this.deps.settings.values.units,
      read: (key, text) => this.deps.call("read-value", { calculator: declared.name, field: key, text, units: this.deps.settings.values.units }),
    }, { values: this.#values, changed: () => {} });
    this.#forms = [make(fields.filter((f) => f.key === "cuts")), make(fields.filter((f) => f.key !== "cuts"))];
    for (const form of this.#forms) form.element.addEventListener("field:change", (event) => this.#keep(/** @type {CustomEvent} */ (event).detail));
    this.#at.cuts.replaceChildren(this.#forms[0].element);
    this.#at.form.replaceChildren(this.#forms[1].element);
  }

  /** What is kept of the job, as its forms have it. @returns {Record<string, string>} */
  get #values() {
    const { fields, rows } = this.#job;
    return { ...fields, cuts: rows.length ? JSON.stringify(rows) : "" };
  }

  /** Another phone may have entered something, or the fold tells more. */
  async #learn() {
    await settled(this.#at.told);
    const before = JSON.stringify(this.#values);
    await this.#read();
    if (this.deps.life.aborted || JSON.stringify(this.#values) === before) return;
    for (const form of this.#forms) form.fill(this.#values);
    await this.#reckon();
  }

  /** Keeps what was entered; words that are being typed once they are whole. @param {{key: string, value: string}} entered */
  #keep(entered) {
    const typing = document.activeElement?.matches("input") ? document.activeElement : null;
    if (!typing) return this.#store(entered);
    this.deps.drafts.keep(`job.${this.#job.id}`, entered);
    typing.addEventListener("change", () => this.#keepTyped(), { once: true });
  }

  /** Keeps what was typed, also if the page was left over it. */
  #keepTyped() {
    const typed = this.deps.drafts.of(`job.${this.#job.id}`);
    this.deps.drafts.drop(`job.${this.#job.id}`);
    if (typed.key) this.#store(/** @type {{key: string, value: string}} */ (typed));
  }

  /** @param {{key: string, value: string}} entered */
  #store({ key, value }) {
    this.#set(key === "cuts" ? changesOf(this.#job.rows, JSON.parse(value || "[]")) : { [key]: value || null });
  }

  /** @param {Record<string, unknown>} body */
  #set(body) {
    if (Object.keys(body).length === 0) return;
    const { id, rows } = this.#job;
    const isNew = rows.length === 0 && Object.keys(this.#job.fields).length === 0;
    const all = isNew ? { name: this.#name, rig: this.#rig?.id, site: this.#site?.id ?? noSite, ...body } : body;
    const kept = Object.fromEntries(rows.map(({ _key, _at, ...texts }) => [`cut.${_key}`, { ...texts, at: _at }]));
    this.#job = keptJob(id, Object.fromEntries(Object.entries({ ...this.#job.fields, ...kept, ...all }).filter(([, value]) => value !== null)));
    this.#entered++;
    this.#going++;
    this.#try(() => this.deps.journal.tap({ kind: "job.set", about: id, body: /** @type {any} */ (all) }).finally(() => this.#going--));
    this.#paint();
    this.#reckon();
  }

  async #reckon() {
    this.#sum.abort();
    if (this.deps.life.aborted || this.#forms.length === 0) return;
    const { signal } = (this.#sum = new AbortController());
    const { units } = this.deps.settings.values;
    try {
      const answer = await this.deps.calculate("job-plan", this.#asked, { units, signal });
      if (signal.aborted) return;
      this.#show(/** @type {import("../calc/calls.js").Answer} */ (/** @type {unknown} */ (answer)), null);
    } catch (problem) {
      if (!signal.aborted && !isAbort(problem)) this.#show(null, /** @type {Trouble} */ (problem));
    }
  }

  /** What job-plan is asked: all that is kept of rig, site and job, and what the parts were read at. */
  get #asked() {
    const parts = this.#now?.rigs?.find(({ rig }) => rig === this.#rig?.id)?.parts ?? [];
    return { ...keptOf(this.#rig, this.#site), ...readOf(parts), ...askedOf(this.#job, this.#view) };
  }

  /** @param {import("../calc/calls.js").Answer|null} answer @param {Trouble|null} problem */
  #show(answer, problem) {
    this.#answer = answer;
    const open = problem ? [problem, ...(problem.also ?? [])] : [];
    const rest = this.#forms.reduce((left, form) => left.filter((one) => form.wrong(one).includes(one)), open);
    const missing = open.filter(({ kind }) => kind === "missing");
    const other = rest.find(({ kind }) => kind !== "missing");
    this.#at.missing.hidden = missing.length === 0;
    this.#at.missing.textContent = missing.slice(0, 2).map(({ msg }) => `${msg}.`).join(" ");
    this.#at.wrong.hidden = !other;
    this.#at.wrong.replaceChildren(...wrongWords(other));
    this.#told?.show(answer);
  }

  async #changeAbout() {
    const { fields } = this.#job;
    const options = [{ word: "name", more: this.#name }, { word: "customer", more: fields.customer }, { word: "rig", more: this.#rig?.fields.name }, { word: "site", more: this.#site?.fields.name ?? say("ready.noplace") }];
    const word = await this.deps.chooser.ask({ label: this.#name, options: options.map((one) => ({ ...one, label: say(/* name | customer | rig | site */ `job.${one.word}`) })) });
    if (word === "rig" || word === "site") await this.#pick(word);
    else if (word) {
      const text = await this.deps.textPrompt.ask({ label: say(/* name | customer */ `job.${word}`), value: word === "name" ? this.#name : (fields[word] ?? ""), key: `job.${this.#job.id}.${word}` });
      if (text) this.#set({ [word]: text });
    }
  }

  /** @param {"rig"|"site"} word */
  async #pick(word) {
    const options = word === "rig" ? this.#rigs.map((r) => ({ word: r.id, label: r.fields.name ?? say("rig.unnamed") })) : [...this.#sites.map((s) => ({ word: s.id, label: s.fields.name ?? say("site.unnamed") })), { word: noSite, label: say("ready.noplace") }];
    const id = await this.deps.chooser.ask({ label: say(word === "rig" ? "ready.whichrig" : "ready.whichsite"), value: (word === "rig" ? this.#rig?.id : this.#site?.id) ?? noSite, options });
    if (id) this.#set({ [word]: id });
  }

  /** Opens a session of the job; one that is open and of no job becomes its own, and one of another job ends. */
  async #begin() {
    if (!this.#isOpen) {
      if (!this.#answer && this.#job.rows.length === 0) return bringUp(this.#at.missing);
      const { session } = this.#now ?? {};
      const body = { rig: this.#rig?.id ?? "", title: this.#name, job: this.#job.id, ...(this.#answer && { planned: plannedOf(this.#answer.results, this.#job) }) };
      const takesOver = session && !session.job && session.rig === body.rig;
      const ended = session?.job ? [{ kind: /** @type {const} */ ("session.closed"), about: session.id, body: {} }] : [];
      await this.deps.journal.tap([...ended, takesOver ? { kind: "session.set", about: session.id, body } : { kind: "session.opened", about: newId(), body }]);
    }
    this.deps.go("/cut");
  }

  /** @param {() => Promise<unknown>|unknown} act */
  async #try(act) {
    try {
      await act();
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {Trouble} */ (trouble));
    }
  }
}

/** A job of which nothing is kept yet is a new one. @param {Trouble} trouble */
function unlessNew(trouble) {
  if (trouble.kind !== "not-found") throw trouble;
  return null;
}
