// @ts-check
/**
 * One calculator: what it tells, and the form made from its declaration under that, what is
 * missing first. What rig, site, plan and readings know is filled in, unless it was typed here.
 */
import { bringUp, clone, onActions, onePress, refs, wrongWords } from "../parts/dom.js";
import { Form } from "../parts/form.js";
import { AnswerView } from "../parts/answer.js";
import { undeclared } from "../parts/declared.js";
import { forThisJob, jobOf, ofThisJob } from "../parts/job.js";
import { forPlan, fieldsKept, keptOf, onForm, readOf, rigInUse, rigsOf, siteInUse, sitesOf, withPressure } from "../parts/rig-and-site.js";
import { settled } from "../parts/settled.js";
import { clockTime, dayAndTime } from "../parts/times.js";
import { isAbort } from "../calc/calls.js";
import { unlessLeft } from "../browser/leaving.js";
import { own, say } from "../words/words.js";
/** @typedef {import("../calc/trouble.js").Trouble} Trouble */

export class SumPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {Form|null} */ #form = null;
  /** @type {AnswerView|null} */ #view = null;
  /** @type {AbortController} */ #sum = new AbortController();
  /** @type {Promise<void>} */ #loaded = Promise.resolve();
  /** Where each of these comes from, in a word. @type {Record<string, string>} */ #from = {};
  /** What rig, site and plan say of its fields. @type {Record<string, string>} */ #own = {};
  #job = "";
  /** Of the calculator. */ name = "";
  declared = undeclared;
  /** What was last told, for pages that do something with it. @type {import("../calc/calls.js").Answer|null} */ answer = null;
  /** What a page knows of its fields from the plan that was handed on. @type {Record<string, string>} */ handed = {};

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  /** @param {Record<string, string>} params */
  async start({ name }) {
    const root = clone("page-sum");
    this.#at = refs(root);
    this.element.append(root);
    const onward = (/** @type {"print"|"cut"} */ what) => onePress(async () => {
      const { LayoutOnward } = await unlessLeft(import("./layout-onward.js"));
      if (this.answer) await new LayoutOnward(this.deps, this.declared, this.answer, forPlan(this.#form?.asked ?? {}))[what]();
    });
    onActions(root, { clear: () => this.#clear(), print: onward("print"), onward: onward("cut") });
    this.name = name;
    this.#loaded = this.#load(name);
    await this.#loaded;
  }

  stop() {
    this.#sum.abort();
  }

  /** What was typed here. @returns {Record<string, string>} */
  get typed() {
    return this.deps.drafts.of(`sum.${this.name}`);
  }

  /** @param {Record<string, string>|null} values */
  set typed(values) {
    if (values) this.deps.drafts.keep(`sum.${this.name}`, values);
    else this.deps.drafts.drop(`sum.${this.name}`);
  }

  /** Called when an answer was told, or none. */
  told() {
    const { templates = [], cuts = [] } = this.answer ?? {};
    this.#at.print.hidden = templates.length === 0;
    this.#at.onward.hidden = cuts.length === 0;
    this.#at.dock.hidden = templates.length + cuts.length === 0;
  }

  // Private

  /** @param {string} name */
  async #load(name) {
    const [all, { views }] = await Promise.all([this.deps.asset("gen/calculators.json"), this.deps.journal.read(["rigs", "now", "book"])]);
    const declared = all.find((c) => c.name === name);
    if (!declared) {
      this.#at.about.textContent = say("sum.unknown", { name });
      return;
    }
    this.declared = declared;
    this.deps.title(this.declared.title);
    this.#at.about.textContent = this.declared.about;
    const { rig: rigPicked, site: sitePicked } = this.deps.settings.values;
    const rig = rigInUse(rigsOf(views.rigs), rigPicked);
    const site = siteInUse(sitesOf(views.rigs), sitePicked);
    const parts = views.now?.rigs?.find((r) => r.rig === rig?.id)?.parts ?? [];
    const today = name === "site-check" ? this.deps.today.plan : {};
    const { told, entered } = this.#planned(keptOf(rig, site));
    const elsewhere = all.flatMap((c) => c.fields).filter((f) => f.owner && f.owner !== "plate"); // which plate holds here, only who asks for both can tell
    const known = { ...fieldsKept([...elsewhere, ...this.declared.fields], rig, site), ...today };
    const read = readOf(parts);
    for (const { key, known: as = "", hazard } of this.declared.fields) {
      const [of, what] = as.split(".");
      const text = of === "plan" ? textOf(own(told, what)) || own(entered, what) : of === "kept" ? own(known, what) : { "tip.dmax": read.tip_reading, "electrode.pit": read.pit }[as];
      if (!text || hazard || known[key]) continue;
      known[key] = text;
      if (of === "kept") this.#from[key] = say(text === site?.fields[what] ? "sum.from.site" : "sum.from.rig");
      else this.#from[key] = of === "plan" ? say("sum.from.plan") : say("sum.from.reading", { time: when(parts.find((p) => p.slot === of)?.readAt ?? 0) });
    }
    for (const { key } of this.declared.fields) this.#from[key] ??= key in today ? say("sum.from.plan") : key in known ? say(known[key] === site?.fields[key] ? "sum.from.site" : "sum.from.rig") : "";
    for (const [key, text] of Object.entries(this.handed)) {
      known[key] = text;
      this.#from[key] = say("sum.from.plan");
    }
    this.#own = Object.fromEntries(Object.entries(known).filter(([key]) => this.declared.fields.some((f) => f.key === key)));
    this.#job = jobOf(views);
    this.#view = new AnswerView(this.declared.results);
    this.#at.told.append(this.#view.element);
    this.#makeForm();
    document.addEventListener("visibilitychange", () => this.#seen(), { signal: this.deps.life });
  }

  /** Today's plan, if it is of what is kept here now: what it told, and what was entered for it. @param {object} kept */
  #planned(kept) {
    const { answer, plan } = this.deps.today;
    const [of] = JSON.parse(answer?.asked || "[]");
    const isOurs = JSON.stringify(of) === JSON.stringify(kept) && !answer?.day && answer?.asked.endsWith(`"${this.deps.settings.values.units}"]`); // what is short here is not told to be set
    return { told: (isOurs && answer?.results) || {}, entered: plan };
  }

  /** Hazards that were answered for another job are not there any more when the phone is taken out again. */
  #seen() {
    const draft = this.typed;
    const held = ofThisJob(draft, this.declared.fields, this.#job);
    if (document.visibilityState === "visible" && Object.keys(draft).some((key) => key[0] !== "_" && !(key in held))) this.#makeForm();
  }

  /** The form, with what is known of rig and site, and the draft over that. */
  async #makeForm() {
    const { fields, name } = this.declared;
    const asksHazards = fields.some((f) => f.hazard);
    const draft = this.typed;
    const form = this.#form = new Form(withPressure(fields).map((f) => ({ ...f, from: f.key in draft ? "" : this.#from[f.key] })), {
      pad: this.deps.pad, chooser: this.deps.chooser, toasts: this.deps.toasts, units: () => this.deps.settings.values.units,
      read: (key, text) => this.deps.call("read-value", { calculator: name, field: key, text, units: this.deps.settings.values.units }),
    }, {
      values: onForm({ ...this.#own, ...(asksHazards ? ofThisJob(draft, fields, this.#job) : draft) }),
      changed: (values) => {
        const kept = forPlan(values);
        this.typed = asksHazards ? forThisJob(kept, this.typed, this.#job) : kept;
        this.#reckon(true);
      },
    });
    const isMissing = form.missingFirst();
    const due = !isMissing && this.deps.sumsRun() && !this.#at.form.firstChild;
    const reckoned = this.#reckon();
    if (due) await reckoned; // it comes above the form, which would move
    if (form === this.#form) this.#at.form.replaceChildren(form.element);
  }

  /** @param {boolean} [entered]  here, just now */
  async #reckon(entered = false) {
    this.#sum.abort();
    if (this.deps.life.aborted) return;
    const { signal } = (this.#sum = new AbortController());
    try {
      const answer = await this.deps.calculate(this.declared.name, forPlan(this.#form?.asked ?? {}), { units: this.deps.settings.values.units, signal });
      if (signal.aborted) return;
      const pictures = await this.#pictures(answer);
      const isNew = !this.answer && entered;
      if (isNew) await settled(this.#at.form);
      if (signal.aborted) return;
      this.answer = answer;
      this.#form?.wrong(null);
      this.#wrong(null);
      this.#missing(null);
      this.#view?.show(answer, { pictures });
      this.told();
      if (isNew) bringUp(this.#at.told);
    } catch (problem) {
      if (this.answer) await settled(this.#at.form);
      if (signal.aborted || isAbort(problem)) return;
      this.answer = null;
      const rest = this.#form?.wrong(/** @type {Trouble} */ (problem)) ?? [];
      this.#wrong(rest[0] ?? null);
      this.#missing(/** @type {Trouble} */ (problem));
      this.#view?.show(null);
      this.told();
    }
  }

  /** The drawings that the answer asks for. @param {import("../calc/calls.js").Answer} answer */
  async #pictures(answer) {
    if (!answer.pictures) return [];
    const [{ picturesOf }, still] = await Promise.all([unlessLeft(import("../draw/beside.js")), this.deps.asset("gen/drawings.json")]);
    return picturesOf(answer, still);
  }

  /** Says what is still to be entered, which is no fault. @param {Trouble|null} problem */
  #missing(problem) {
    const open = problem ? [problem, ...(problem.also ?? [])].filter((p) => p.kind === "missing") : [];
    this.#at.missing.hidden = open.length === 0;
    this.#at.missing.textContent = open.slice(0, 2).map((p) => `${p.msg}.`).join(" ") + (open.length > 2 ? ` ${say("sum.open", { n: open.length - 2 })}` : "");
  }

  /** @param {{msg: string, hint?: string}|null} problem */
  #wrong(problem) {
    this.#at.wrong.hidden = !problem;
    this.#at.wrong.replaceChildren(...wrongWords(problem));
  }

  async #clear() {
    await this.#loaded;
    if (!this.#form) return;
    const before = this.typed;
    this.typed = null;
    this.#makeForm();
    this.deps.toasts.show(say("sum.cleared"), {
      undo: () => {
        this.typed = before;
        this.#makeForm();
      },
    });
  }
}

/** When a reading was taken: today the time says it. @param {number} at */
function when(at) {
  return new Date(at).toDateString() === new Date().toDateString() ? clockTime(at) : dayAndTime(at);
}

/** A quantity that was told, to be read again; nothing finer than it was told. @param {unknown} told */
function textOf(told) {
  const { text = "" } = /** @type {{text?: string}} */ (told ?? {});
  return /^\d/.test(text) ? text : "";
}

/** The whole cut plan behind the few figures of Ready: what is entered is the same, all fields, the sum. */
export class PlanPage extends SumPage {
  async start() {
    await super.start({ name: "cut-plan" });
  }

  get typed() {
    return this.deps.today.plan;
  }

  set typed(values) {
    this.deps.today.plan = values;
  }
}
