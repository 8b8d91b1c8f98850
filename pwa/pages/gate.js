// @ts-check
/**
 * The gate: what could kill, one question a screen, one tap an answer. Nothing is
 * answered beforehand. What it tells goes into the journal: each stop is a
 * failed check until somebody says what was done about it (parts/stops.js).
 */
import { caution, clone, make, onActions, onePress, refs, setText, showWrong, wrongWords } from "../parts/dom.js";
import { declarationOf } from "../parts/declared.js";
import { QuickEntries } from "../parts/quick-entries.js";
import { rigIdInUse, siteInUse, sitesOf } from "../parts/rig-and-site.js";
import { forThisJob, jobOf, ofThisJob } from "../parts/job.js";
import { Radios } from "../parts/radios.js";
import { isAbort } from "../calc/calls.js";
import { say } from "../words/words.js";

/** What has just moved under the finger is deaf this long, ms: gloves bounce. */
const deaf = 350;

/** More answers than these stand under their question, and the page scrolls: docked they would cover it. */
const docked = 6;

/** @typedef {{key: string, label: string, help?: string, hazard?: boolean, choices: {word: string, label: string}[]}} Question */
/** @typedef {import("../types/calc.js").Together} Together */
/** @typedef {Pick<import("../calc/calls.js").Answer<"may-i-cut">, "results" | "cautions">} Told */
/** @typedef {import("../calc/trouble.js").Trouble} Trouble */

export class GatePage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {Question[]} */ #questions = [];
  /** @type {Together[]} */ #together = [];
  /** @type {Record<string, string>} */ #answers = {};
  /** What the answers amount to: a whole verdict, or stops found so far. @type {Told|null} */ #told = null;
  /** Where it is asked. @type {{rig: string, site: string, session: string}} */ #here = { rig: "", site: "", session: "" };
  #job = "";
  #opened = 0;
  #sum = new AbortController();

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  async start() {
    const root = clone("page-gate");
    this.#at = refs(root);
    onActions(root, { change: () => this.#change(), keep: onePress(() => this.#keep()), together: (el) => this.#answer(this.#together[Number(el.dataset.n)].says) });
    const [all, { views }] = await Promise.all([this.deps.asset("gen/calculators.json"), this.deps.journal.read(["now", "book", "rigs"])]);
    if (this.deps.life.aborted) return;
    const declared = declarationOf(all, "may-i-cut");
    this.#questions = declared.fields.map((f) => ({ ...f, choices: f.choices ?? [{ word: "yes", label: say("yes") }, { word: "no", label: say("no") }] }));
    this.#together = declared.together ?? [];
    const { rig, site } = this.deps.settings.values;
    this.#here = {
      session: views.now?.session?.id ?? "",
      rig: rigIdInUse(views, rig),
      site: siteInUse(sitesOf(views.rigs), site)?.id ?? "",
    };
    this.#job = jobOf(views);
    this.#opened = Date.now();
    this.#answers = ofThisJob(this.deps.drafts.of("gate"), declared.fields, this.#job);
    this.#paint();
    this.element.append(root);
    document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && this.#isOld() && this.#changed(), { signal: this.deps.life });
    await this.#reckon();
  }

  stop() {
    this.#sum.abort();
  }

  // Private

  /** The questions that are still open. */
  get #open() {
    return this.#questions.filter((q) => !this.#answers[q.key]);
  }

  /** Whether the answers are another job's, on a screen that was left open: then they are dropped. */
  #isOld() {
    const held = ofThisJob(this.deps.drafts.of("gate"), this.#questions, this.#job);
    const isOld = Object.keys(held).length < Object.keys(this.#answers).length;
    if (isOld) this.#answers = held;
    return isOld;
  }

  /** Takes answers, one or several. @param {Record<string, string>} answers */
  #answer(answers) {
    this.#isOld();
    this.#answers = { ...this.#answers, ...answers };
    this.#changed();
  }

  #changed() {
    this.deps.drafts.keep("gate", forThisJob(this.#answers, this.deps.drafts.of("gate"), this.#job));
    this.#told = null;
    this.#paint();
    scrollTo(0, 0);
    this.#rest();
    return this.#reckon();
  }

  /** Lets the finger and the focus come to rest after the screen has moved. */
  #rest() {
    const { ask, choices, keep, change } = this.#at;
    choices.inert = keep.inert = change.inert = true;
    setTimeout(() => {
      choices.inert = keep.inert = change.inert = false;
      if (document.activeElement !== document.body) return;
      const next = /** @type {HTMLElement} */ (ask.firstElementChild ?? this.#at.told); // what is asked or told, never a button: keys repeat
      next.tabIndex = -1;
      next.focus({ preventScroll: true });
    }, deaf);
  }

  async #reckon() {
    this.#sum.abort();
    const { signal } = (this.#sum = new AbortController());
    const whole = this.#open.length === 0;
    try {
      const told = await this.deps.call(whole ? "may-i-cut" : "stops-so-far", this.#answers, { signal });
      if (signal.aborted) return;
      this.#told = whole ? /** @type {Told} */ (told) : told.results.stop.length > 0 ? { ...told, results: { ...told.results, verdict: "stop", meaning: "", conditions: [] } } : null;
      this.#wrong(null);
      this.#paintTold();
    } catch (problem) {
      if (!signal.aborted && !isAbort(problem)) this.#wrong(/** @type {Trouble} */ (problem));
    }
  }

  #paint() {
    const given = this.#questions.filter((q) => this.#answers[q.key]);
    this.#at.answers.hidden = this.#at.change.hidden = given.length === 0;
    this.#at.answers.replaceChildren(...given.map((q) => make("div", {}, make("dt", { text: q.label }), " ", make("dd", { text: this.#wordOf(q) }))));
    this.#ask();
    this.#paintTold();
  }

  /** Asks the first open question, its answers docked; before them the one sentence that answers all that belong to it. */
  #ask() {
    const { ask, choices } = this.#at;
    const [q] = this.#open;
    if (!q) {
      ask.replaceChildren();
      choices.replaceChildren();
      return;
    }
    const n = this.#together.findIndex((t) => q.key in t.says);
    const { title, label, says } = this.#together[n] ?? { title: "", label: "", says: {} };
    const untouched = title && Object.keys(says).every((key) => !this.#answers[key]);
    ask.replaceChildren(
      ...(title ? [make("p", { text: title })] : []),
      make("h2", { text: q.label }),
      ...(q.help ? [make("p", { class: "field__help", text: `${q.help}.` })] : []));
    if (q.choices.length > docked) ask.after(choices);
    else this.#at.dock.prepend(choices);
    choices.replaceChildren(
      ...(untouched ? [make("button", { class: "choice choice--together", type: "button", text: label, "data-action": "together", "data-n": n })] : []),
      new Radios({ label: q.label, options: q.choices, pick: (word) => this.#answer({ [q.key]: word }) }).element);
  }

  #paintTold() {
    const at = this.#at;
    const r = this.#told?.results;
    at.keep.hidden = !r;
    at.dock.hidden = !r && this.#open.length === 0;
    const isDocked = this.#open.length === 0;
    if (isDocked !== (at.keep.parentElement === at.dock)) isDocked ? at.dock.append(at.keep) : at.told.after(at.keep);
    at.rest.hidden = !r || this.#open.length === 0;
    at.cautions.replaceChildren(...(this.#told?.cautions ?? []).map((text) => caution(text)));
    if (!r) {
      at.told.replaceChildren();
      return;
    }
    const isStop = r.verdict === "stop";
    setText(at.keep, say(isStop ? "gate.keep.stop" : "gate.keep"));
    at.keep.classList.toggle("button--stop", isStop);
    at.told.replaceChildren(
      make("p", { class: isStop ? "told told--stop" : "told" }, make("b", { text: say(`gate.told.${r.verdict}`) }), make("span", { text: say(`gate.meaning.${r.verdict}`) })),
      ...r.stop.map((s) => finding(s, s.why)),
      ...r.conditions.map((c) => finding(c, c.do)));
  }

  /** @param {Question} q */
  #wordOf(q) {
    return q.choices.find((c) => c.word === this.#answers[q.key])?.label ?? "";
  }

  async #change() {
    const key = await this.deps.chooser.ask({
      label: say("gate.change.which"),
      options: this.#questions.filter((q) => this.#answers[q.key]).map((q) => ({ word: q.key, label: q.label, more: this.#wordOf(q) })),
    });
    if (!key) return;
    delete this.#answers[key];
    this.#changed();
  }

  async #keep() {
    if (this.#isOld()) {
      this.deps.toasts.show(say("gate.old"), { bad: true });
      return this.#changed();
    }
    const r = this.#told?.results;
    if (!r) return;
    const { session, rig, site } = this.#here;
    const common = { guide: "may-i-cut", ...(rig ? { rig } : {}), ...(site ? { site } : {}), answers: this.#answers, took: Date.now() - this.#opened };
    /** @type {(body: Pick<import("../types/journal.js").Bodies["check.answered"], "step"|"result"|"says"|"by">) => import("../journal/shapes.js").Entry} */
    const entry = (body) => ({ kind: "check.answered", ...(session ? { in: session } : {}), body: { ...common, ...body } });
    const says = r.conditions.map((c) => c.name).join("; ");
    const entries = r.verdict === "stop"
      ? r.stop.map((s) => entry({ step: s.key, result: "fail", says: s.name, by: s.cleared_by }))
      : entry({ step: "asked", result: r.verdict, ...(says ? { says } : {}) });
    try {
      await new QuickEntries(this.deps).put(entries, say(r.verdict === "stop" ? "gate.kept.stop" : "gate.kept"));
    } catch (trouble) {
      this.#wrong(/** @type {Trouble} */ (trouble));
      return showWrong(this.element);
    }
    this.deps.drafts.drop("gate");
    this.deps.go("/ready");
  }

  /** @param {{msg: string, hint?: string}|null} problem */
  #wrong(problem) {
    this.#at.wrong.hidden = !problem;
    this.#at.wrong.replaceChildren(...wrongWords(problem));
  }
}

/** What to do about it and who clears it. @param {{name: string, cleared_by: string}} f @param {string} text */
function finding(f, text) {
  return make("div", { class: "finding" }, make("b", { text: f.name }), make("span", { text }), make("span", { class: "finding__by", text: say("stop.by", { by: f.cleared_by }) }));
}
