// @ts-check
/**
 * One job: its cut list, what it takes of time, parts and money, and, once it was begun, what was done of it.
 * Every change is kept at once, row by row; what rig, site and crew know is filled in.
 */
import { bringUp, clone, make, onActions, onePress, refs, setText, wrongWords } from "../parts/dom.js";
import { AnswerView, wordsOf } from "../parts/answer.js";
import { crewKnows, isPrice, keepPrice } from "../parts/crew-knows.js";
import { declarationOf, undeclared } from "../parts/declared.js";
import { Form } from "../parts/form.js";
import { askedOf, changesOf, keptJob, plannedOf } from "../parts/kept-jobs.js";
import { keptOf, noSite, readOf, rigInUse, rigsOf, siteInUse, sitesOf } from "../parts/rig-and-site.js";
import { renderRows } from "../parts/rows.js";
import { settled } from "../parts/settled.js";
import { isAbort } from "../calc/calls.js";
import { newId } from "../journal/id.js";
import { say } from "../words/words.js";
import { comparedOf } from "./job-compared.js";

/** @typedef {import("../calc/trouble.js").Trouble} Trouble */
/** @typedef {import("../parts/rig-and-site.js").Rig} Thing */
/** @typedef {import("../parts/kept-jobs.js").KeptJob} KeptJob */

/** With so many other rigs a job is reckoned beside its own. */
const mostOthers = 2;

export class JobPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {KeptJob} */ #job = keptJob("");
  /** @type {import("../types/journal.js").JobItem[]} */ #others = [];
  /** What was done of it; null while nothing of it is kept. @type {import("../types/journal.js").JobView|null} */ #view = null;
  /** @type {import("../types/journal.js").Taught} */ #taught = { quote: "", planned: "", takes: {}, cuts: [], times: [] };
  /** How often something was entered here, and how much of it is not stored yet. */ #entered = 0;
  #going = 0;
  /** @type {Thing[]} */ #rigs = [];
  /** @type {Thing[]} */ #sites = [];
  /** @type {import("../journal/shapes.js").ShownNow|null|undefined} */ #now = null;
  /** The cut list, and all else that is asked. @type {Form[]} */ #forms = [];
  /** @type {AnswerView|null} */ #told = null;
  /** @type {import("../calc/calls.js").Answer|null} */ #answer = null;
  #declared = undeclared;
  /** What the crew knows for each rig. @type {Map<string, Awaited<ReturnType<typeof crewKnows>>>} */ #knows = new Map();
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
    this.#at.list.setAttribute("href", `/book/cuts/${id}`);
    onActions(root, { about: () => this.#try(() => this.#changeAbout()), begin: onePress(() => this.#try(() => this.#begin())), remedy: (el) => this.#take(Number(el.dataset.n)), price: () => this.#forms[1]?.fields.get("labour")?.enter() });
    this.#declared = declarationOf(await this.deps.asset("gen/calculators.json"), "job-plan");
    await this.#read();
    if (this.deps.life.aborted) return;
    this.#keepTyped();
    this.#makeForms();
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
    const [{ views }, view] = await Promise.all([this.deps.journal.read(["rigs", "now", "jobs"]), this.deps.call("journal-job", { id }).catch(unlessNew)]);
    if (view) this.#taught = await this.deps.call("journal-taught", { id });
    if (this.deps.life.aborted || entered !== this.#entered) return;
    this.#others = views.jobs?.jobs.filter((job) => job.id !== id) ?? [];
    this.#view = view;
    if (view) this.#job = keptJob(id, view.fields);
    this.#rigs = rigsOf(views.rigs);
    this.#sites = sitesOf(views.rigs);
    this.#now = views.now;
    this.#paint();
    this.#knows = new Map(await Promise.all(this.#rigs.map(async (r) => /** @type {const} */ ([r.id, await crewKnows(this.deps, this.#declared, r.id)]))));
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
    setText(this.#at.about, [this.#job.fields.customer, this.#rig?.fields.name ?? say("rig.unnamed"), this.#site?.fields.name ?? say("ready.noplace")].filter(Boolean).join(" · "));
    const compared = this.#view ? comparedOf(this.#view, this.#taught) : [];
    this.#at.kept.hidden = compared.length === 0;
    this.#at.kept.replaceChildren(...compared);
    this.#at.dock.hidden = this.#at.quote.hidden = this.#job.rows.length === 0;
    setText(this.#at.quote, this.#taught.quote || say("job.quote"));
    setText(this.#at.begin, say(this.#isOpen ? "job.goon" : "job.begin"));
  }

  /** Whether the open session is one of this job. */
  get #isOpen() {
    return this.#now?.session?.job === this.#job.id;
  }

  #makeForms() {
    const { fields, results, name } = this.#declared;
    this.#told = new AnswerView(results);
    this.#at.told.append(this.#told.element);
    const make = (/** @type {typeof fields} */ some) => new Form(some.map((f) => ({ ...f, from: this.#fromOf(f.key) })), {
      pad: this.deps.pad, chooser: this.deps.chooser, toasts: this.deps.toasts, units: () => this.deps.settings.values.units,
      read: (key, text) => this.deps.call("read-value", { calculator: name, field: key, text, units: this.deps.settings.values.units }),
    }, { values: this.#values, changed: () => {} });
    const asked = fields.filter((f) => !f.owner && !isCounted(f));
    this.#forms = [make(fields.filter((f) => f.key === "cuts")), make(asked)];
    for (const form of this.#forms) form.element.addEventListener("field:change", (event) => this.#keep(/** @type {CustomEvent} */ (event).detail));
    this.#forms[0].element.addEventListener("list:left", () => { // where the answer stands beside the list, its begin may be out of view
      const first = this.#told?.element.querySelector(".reading");
      if (first && first.getBoundingClientRect().top < this.#at.cuts.getBoundingClientRect().top) bringUp(first);
    });
    this.#at.cuts.replaceChildren(this.#forms[0].element);
    this.#at.form.replaceChildren(this.#forms[1].element);
  }

  get #known() {
    return this.#knows.get(this.#rig?.id ?? "") ?? { prices: {}, history: {} };
  }

  /** Where a value comes from that nobody entered for this job. @param {string} key */
  #fromOf(key) {
    const { prices, history } = this.#known;
    if (key in this.#job.fields) return "";
    return key in prices ? say("job.from.prices") : key in history ? say("job.from.own") : "";
  }

  /** What is known and kept of the job, as its forms have it. @returns {Record<string, string>} */
  get #values() {
    const { fields, rows } = this.#job;
    return { ...this.#known.history, ...this.#known.prices, ...fields, cuts: rows.length ? JSON.stringify(rows) : "" };
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
    if (isPrice(key)) {
      for (const { prices } of this.#knows.values()) prices[key] = value;
      this.#try(() => keepPrice(this.deps, key, value || null));
      this.#reckon();
    } else this.#set(key === "cuts" ? changesOf(this.#job.rows, JSON.parse(value || "[]")) : { [key]: value || null });
  }

  /** Enters what would help. @param {number} n */
  #take(n) {
    const { field = "", value = "" } = /** @type {Record<string, string>[]} */ (this.#answer?.results.remedies)?.[n] ?? {};
    this.#store({ key: field, value });
    for (const form of this.#forms) form.fields.get(field)?.fill(value);
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
    const { customer, ...rest } = /** @type {Record<string, any>} */ (all);
    const bodies = [rest, ...(customer === undefined ? [] : [{ customer }])].filter((body) => Object.keys(body).length > 0); // the customer in an entry of its own, which an export leaves out
    this.#try(() => this.deps.journal.tap(bodies.map((body) => ({ kind: "job.set", about: id, body }))).finally(() => this.#going--));
    this.#paint();
    this.#reckon();
  }

  async #reckon() {
    this.#sum.abort();
    if (this.deps.life.aborted || this.#forms.length === 0) return;
    const { signal } = (this.#sum = new AbortController());
    const { units } = this.deps.settings.values;
    try {
      const answer = await this.deps.calculate("job-plan", this.#askedOf(this.#rig), { units, signal });
      if (!this.#answer) await settled(this.#at.kept); // which it pushes down
      if (signal.aborted) return;
      this.#show(/** @type {import("../calc/calls.js").Answer} */ (/** @type {unknown} */ (answer)), null);
    } catch (problem) {
      if (!signal.aborted && !isAbort(problem)) this.#show(null, /** @type {Trouble} */ (problem));
    }
  }

  /** What job-plan is asked: all that is kept of rig, site and job, what the crew knows, and what the parts were read at. @param {Thing|null} rig */
  #askedOf(rig) {
    const parts = this.#now?.rigs?.find((one) => one.rig === rig?.id)?.parts ?? [];
    const { history = {}, prices = {} } = this.#knows.get(rig?.id ?? "") ?? {};
    return { ...keptOf(rig, this.#site), ...readOf(parts), ...history, ...prices, ...askedOf(this.#job, this.#view) };
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
    this.#told?.show(answer, { leave: ["remedies"] });
    const { value, low, high } = /** @type {Record<string, any>} */ (answer?.results.price ?? {});
    /** @type {HTMLAnchorElement} */ (this.#at.quote).href = `/book/quote/${this.#job.id}${value ? `?price=${value}&low=${low}&high=${high}` : ""}`;
    this.#at.price.hidden = !answer || "price" in answer.results;
    this.#showRemedies(/** @type {Record<string, any>[]} */ (answer?.results.remedies ?? []));
    this.#showOthers(answer);
  }

  /** What would help; what is entered on this page takes one tap. @param {Record<string, any>[]} remedies */
  #showRemedies(remedies) {
    this.#at.help.hidden = remedies.length === 0;
    renderRows(this.#at.remedies, remedies.map(({ do: what, field }, n) => ({ what, n, here: this.#forms.some((form) => form.fields.has(field)) })), ({ what, n, here }) => make("li", {}, here
      ? make("button", { class: "list__item", type: "button", "data-action": "remedy", "data-n": n }, make("b", { text: what }), make("span", { text: say("job.tap") }))
      : make("div", { class: "list__item" }, make("b", { text: what }))), ({ what }) => ({ name: what }));
  }

  /** The same job with the crew's other rigs. @param {import("../calc/calls.js").Answer|null} answer */
  async #showOthers(answer) {
    const others = answer ? this.#rigs.filter((rig) => rig.id !== this.#rig?.id).slice(0, mostOthers) : [];
    this.#at.others.hidden = others.length === 0;
    const { signal } = this.#sum;
    const told = await Promise.all(others.map((rig) => this.deps.calculate("job-plan", this.#askedOf(rig), { units: this.deps.settings.values.units, signal }).then(({ results }) => [results.verdict, wordsOf(results.elapsed), wordsOf(results.price)], (trouble) => [trouble.msg])));
    if (signal.aborted || this.deps.life.aborted) return;
    renderRows(this.#at.trucks, others.map((rig, i) => ({ name: rig.fields.name ?? say("rig.unnamed"), said: told[i].filter(Boolean).join(" · ") })), ({ name, said }) => make("li", { class: "list__item" }, make("b", { text: name }), make("span", { text: said })), ({ name }) => ({ name }));
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

/** What is known by counting is not asked: how parts lasted, and on how many of the crew's own a time rests. @param {import("../types/calc.js").FieldDescription} field */
function isCounted({ key, kind }) {
  return kind === "list" || key.endsWith("_own");
}
