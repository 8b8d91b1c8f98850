// @ts-check
/**
 * Fix: pick what you see, make the check that is worth its minutes, mend what
 * it was. The reasoning is the calculator fault-rank; what is entered here is
 * kept as a draft until the fault is settled, so it can be left and resumed.
 */
import { caution, clone, make, onActions, onePress, refs, setText } from "../parts/dom.js";
import { deafWhile } from "../parts/deaf.js";
import { rigIdInUse } from "../parts/equipment.js";
import { paintRows } from "../parts/rows.js";
import { dayAndTime } from "../parts/times.js";
import { newId } from "../journal/id.js";
import { say, sayKnown } from "../words/words.js";
import { signPicture } from "../draw/signs.js";

/** Where the draft is kept. */
const draftName = "fix";

export class FixPage {
  /** @type {Record<string, any>} */ #at = {};
  /** @type {any} */ #faults = null;
  /** @type {any} */ #now = null;
  /** @type {string[]} */ #signs = [];
  /** Checks answered or skipped, in order. @type {[string, "yes"|"no"|"skip"][]} */ #checks = [];
  #fault = "";
  /** The fault.seen in the journal: its id, session and signs. */ #told = { id: "", in: "", signs: "" };
  /** The bad cut was in another metal than the plan's, so that what the plan knows does not count. */ #otherMetal = false;
  #rig = "";
  /** @type {any} */ #answer = null;

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  async start() {
    const root = clone("page-fix");
    this.#at = refs(root);
    this.element.append(root);
    const settle = onePress((/** @type {() => Promise<unknown>} */ act) => this.#try(act)); // one fault, whichever way
    onActions(root, {
      sign: (el) => this.#toggle(String(el.dataset.sign)),
      think: () => this.#try(() => this.#begin()),
      look: () => this.#showSigns(),
      yes: () => this.#try(() => this.#check("yes")),
      no: () => this.#try(() => this.#check("no")),
      skip: () => this.#try(() => this.#check("skip")),
      undo: () => this.#try(() => this.#uncheck()),
      it: (el) => settle(() => this.#found(String(el.dataset.cause))),
      other: () => settle(() => this.#pickCause()),
      gone: () => settle(() => this.#gone()),
      afresh: () => this.#afresh(),
      metal: () => this.#try(() => this.#switchMetal()),
      open: (el) => this.#reopen(String(el.dataset.id)),
    });
    this.#faults = await this.deps.asset("gen/faults.json");
    const draft = this.deps.drafts.of(draftName);
    this.#signs = (draft.signs ?? "").split(",").filter(Boolean);
    this.#checks = /** @type {any} */ ((draft.checks ?? "").split(",").filter(Boolean).map((c) => c.split(":")));
    this.#fault = draft.fault ?? "";
    this.#told = { id: draft.seen ?? "", in: draft.session ?? "", signs: draft.told ?? "" };
    this.#otherMetal = draft.metal === "other";
    this.deps.journal.addEventListener("views", () => this.#read(), { signal: this.deps.life });
    this.#drawSigns();
    await this.#read();
    if (this.#fault) await this.#try(() => this.#think());
    else this.#showSigns();
  }

  // Private

  get #in() {
    const id = this.#now?.session?.id;
    return id ? { in: id } : {};
  }

  #keep() {
    this.deps.drafts.keep(draftName, { signs: this.#signs.join(","), checks: this.#checks.map((c) => c.join(":")).join(","), fault: this.#fault,
      seen: this.#told.id, session: this.#told.in, told: this.#told.signs, metal: this.#otherMetal ? "other" : "" });
  }

  async #read() {
    const { views } = await this.deps.journal.paint(["now", "rigs"]);
    if (this.deps.life.aborted) return;
    this.#now = views.now;
    this.#rig = rigIdInUse(views, this.deps.settings.values.rig);
    const open = (views.now?.faults ?? []).filter((/** @type {any} */ f) => f.id !== this.#fault);
    this.#at.faults.hidden = open.length === 0;
    paintRows(this.#at.list, open, (/** @type {any} */ f) => make("li", {}, make("button", { class: "list__item", type: "button", "data-action": "open", "data-id": f.id },
      make("b", { text: signsOf(f).map((key) => this.#label("signs", key)).join(", ") || say("fix.unsaid") }), make("span", { text: dayAndTime(f.at) }))), (f) => ({ name: say("fix.unsaid"), at: f.at }));
  }

  /** @param {"signs"|"causes"|"checks"} list @param {string} key */
  #label(list, key) {
    return this.#faults[list].find((/** @type {any} */ f) => f.key === key)?.label ?? key.replaceAll("-", " ");
  }

  /** @param {string} key */
  #sign(key) {
    return this.#faults.signs.find((/** @type {any} */ s) => s.key === key);
  }

  #drawSigns() {
    const signs = new Map(this.#faults.signs.map((/** @type {any} */ s) => [s.key, s]));
    this.#at.groups.replaceChildren(...this.#faults.groups.map((/** @type {any} */ g) => make("section", { class: "stack" }, make("h3", { text: g.label }),
      make("div", { class: "grid" }, ...g.signs.map((/** @type {string} */ key) => make("button", {
        class: signs.get(key).stop ? "button button--stop fix-sign" : "button fix-sign", type: "button",
        "data-action": "sign", "data-sign": key, "aria-pressed": String(this.#signs.includes(key)),
      }, signPicture(key), make("span", { text: signs.get(key).label })))))));
    this.#drawGo();
  }

  #drawGo() {
    this.#at.go.hidden = this.#signs.length === 0;
    setText(this.#at.go, say(this.#signs.length === 1 ? "fix.go.one" : "fix.go", { n: this.#signs.length }));
  }

  /** @param {string} sign */
  #toggle(sign) {
    this.#signs = this.#signs.includes(sign) ? this.#signs.filter((s) => s !== sign) : [...this.#signs, sign];
    for (const el of this.#at.groups.querySelectorAll("[data-sign]")) el.setAttribute("aria-pressed", String(this.#signs.includes(el.dataset.sign)));
    this.#drawGo();
    this.#keep();
  }

  #showSigns() {
    this.#at.look.hidden = false;
    this.#at.thought.hidden = true;
    this.#drawSigns();
  }

  /** Logs what was seen, once, and starts to reason. What is no fault is not logged; signs changed later amend the entry. */
  async #begin() {
    const fault = this.#signs.some((key) => !this.#sign(key)?.noFault);
    const seen = { symptom: this.#signs[0], signs: this.#signs };
    const signs = this.#signs.join(",");
    if (fault && !this.#fault) {
      const [about, id] = [newId(), newId()];
      this.#fault = about;
      this.#told = { id, in: this.#in.in ?? "", signs };
      this.#keep(); // before it is stored, so that coming back meanwhile logs it no second time
      try {
        await this.deps.journal.tap({ kind: "fault.seen", ...this.#in, about, id, body: { ...seen, ...(this.#rig ? { rig: this.#rig } : {}) } });
      } catch (trouble) {
        if (!this.deps.journal.failed.some(({ entries }) => entries.some((e) => e.id === id))) { // else it is stored yet, and is no second fault
          this.#fault = "";
          this.#told = { id: "", in: "", signs: "" };
          this.#keep();
        }
        throw trouble;
      }
    } else if (this.#told.id && signs !== this.#told.signs) {
      await this.deps.journal.amend(this.#told.id, seen, "signs changed", this.#told.in || undefined);
      this.#told.signs = signs;
    }
    this.#keep();
    await this.#think();
    if (!this.deps.life.aborted) scrollTo(0, 0);
  }

  /** What the journal and the day's plan know. @returns {Record<string, string>} */
  get #context() {
    const rig = this.#now?.rigs?.find((/** @type {any} */ r) => r.rig === this.#rig);
    const part = (/** @type {string} */ slot) => rig?.parts?.find((/** @type {any} */ p) => p.slot === slot);
    const seconds = (/** @type {number} */ ms) => `${Math.round(ms / 1000)}s`;
    const day = this.#otherMetal ? {} : this.deps.drafts.of("day.verdicts");
    return {
      ...(part("tip") ? { tip_minutes: seconds(part("tip").ms) } : {}),
      ...(part("electrode") ? { electrode_minutes: seconds(part("electrode").ms) } : {}),
      ...(rig?.drain ? { drain_minutes: seconds(rig.drain.ms) } : {}),
      ...(day.air ? { air: day.air, power: day.power, duty: day.duty } : {}),
      past_plan: (!this.#otherMetal && this.deps.drafts.of("day.plan").past) || "no",
      failed: this.#failed.join(","),
      found: Object.entries(this.#now?.found ?? {}).filter(([cause]) => this.#faults.causes.some((/** @type {any} */ c) => c.key === cause)).map(([cause, n]) => `${cause}:${n}`).join(","),
    };
  }

  /** In words, what the ranking took from the journal and the plan of the day. */
  get #known() {
    const context = this.#context;
    const said = ["tip_minutes", "electrode_minutes", "drain_minutes"].filter((key) => context[key])
      .map((key) => say(`fix.known.${key}`, { min: Math.round(parseInt(context[key]) / 60) }));
    for (const key of ["air", "power", "duty"]) if (context[key] && context[key] !== "unknown") said.push(`${say(`check.${key}`)}: ${say(`verdict.${context[key]}`)}`);
    if (context.past_plan === "yes") said.push(say("fix.known.past", this.#planned));
    if (context.failed) said.push(say("fix.known.failed", { n: context.failed.split(",").length }));
    return said.length ? say("fix.known", { what: said.join("; ") }) : "";
  }

  /** The metal that the plan of the day is for, in words. */
  get #planned() {
    const { metal = "", thickness = "" } = this.deps.drafts.of("day.plan");
    return { metal: metal && sayKnown(`metal.${metal}`).toLowerCase(), thickness };
  }

  /** The bad cut was in the plan's metal, or was not: with another, its limits and verdicts say nothing. */
  async #switchMetal() {
    this.#otherMetal = !this.#otherMetal;
    this.#keep();
    await this.#think();
  }

  /** Guide steps answered worn or change, if a cause is looked for there. @returns {string[]} */
  get #failed() {
    const steps = new Set(this.#faults.causes.map((/** @type {any} */ c) => `${c.guide}#${c.step}`));
    return (this.#now?.fails ?? []).filter((/** @type {any} */ f) => f.result !== "not-done").map((/** @type {any} */ f) => `${f.guide}#${f.step}`).filter((/** @type {string} */ s) => steps.has(s));
  }

  /** The ranking moves what stands below it: there a thumb is heard again when it has come. */
  #think() {
    const { next, ranked, settle, faults } = this.#at;
    return deafWhile([next, ranked, settle, faults], () => this.#rank());
  }

  async #rank() {
    const answered = this.#checks.filter(([, answer]) => answer !== "skip").map((c) => c.join(":")).join(",");
    const skipped = this.#checks.filter(([, answer]) => answer === "skip").map(([key]) => key).join(",");
    const answer = await this.deps.calculate("fault-rank", { ...this.#context, signs: this.#signs.join(","), checks: answered, skipped }, { units: this.deps.settings.values.units });
    if (this.deps.life.aborted) return;
    this.#answer = answer;
    this.#paint();
  }

  #paint() {
    const at = this.#at;
    const { results, cautions } = this.#answer;
    at.look.hidden = true;
    at.thought.hidden = false;
    at.seen.replaceChildren(...this.#signs.map((s) => make("li", { class: "tag", text: this.#label("signs", s) })),
      ...this.#checks.filter(([, a]) => a !== "skip").map(([key, a]) => make("li", { class: "tag", text: `${this.#label("checks", key)} ${this.#faults.checks.find((/** @type {any} */ c) => c.key === key)?.[a] ?? a}` })));
    const stops = this.#signs.map((key) => this.#sign(key)?.stop).filter(Boolean);
    const others = results.state === "check" ? [] : cautions.filter((/** @type {string} */ text) => !stops.includes(text));
    at.state.replaceChildren(...stops.map((text) => caution(text, true)), ...this.#stateWords(results), ...others.map((/** @type {string} */ text) => caution(text)),
      ...results.no_faults.map((/** @type {any} */ f) => make("p", { class: "fix-state", text: `${f.label}: ${f.why}` })));
    this.#paintNext(results);
    at.other.hidden = at.gone.hidden = !this.#fault;
    at.known.textContent = this.#known;
    at.metal.hidden = !this.#planned.thickness;
    setText(at.metal, say(this.#otherMetal ? "fix.metal.plan" : "fix.metal.other", this.#planned));
    at.ranked.hidden = results.causes.length === 0;
    at.causes.replaceChildren(...results.causes.map((/** @type {any} */ c) => this.#cause(c)));
  }

  /** @param {any} results */
  #stateWords(results) {
    switch (results.state) {
      case "service": return [caution(say("fix.service"), true)];
      case "stop": case "no-fault": return [];
      case "none": return [make("p", { class: "fix-state", text: say("fix.none") })];
      case "act": return [make("p", { class: "fix-state", text: say("fix.act", { cause: results.causes[0].label, odds: results.causes[0].words }) })];
      default: return [make("p", { class: "fix-state", text: say("fix.check", { cause: results.causes[0]?.label ?? "", odds: results.causes[0]?.words ?? "" }) })];
    }
  }

  /** The next check. @param {any} results */
  #paintNext(results) {
    const next = ["check", "stop", "none"].includes(results.state) ? results.next[0] : null;
    const at = this.#at;
    at.next.hidden = !next;
    at.undo.hidden = this.#checks.length === 0;
    if (!next) return;
    at.next.dataset.check = next.check;
    at.check.textContent = next.label;
    at.how.textContent = next.do;
    at.takes.textContent = say("fix.takes", { min: next.minutes.text });
    at.show.href = `/guide/${next.guide}#${next.step}`;
    setText(at.yes, next.yes);
    setText(at.no, next.no);
  }

  /** @param {any} c */
  #cause(c) {
    const why = [c.for && say("fix.for", { what: c.for }), c.against && say("fix.against", { what: c.against })].filter(Boolean);
    return make("li", { class: "list__item" }, make("b", { text: c.label }), make("span", { class: "fix-chance", text: c.words }),
      make("details", { class: "fold" }, make("summary", { text: say("fix.why", { cause: c.label }) }), make("div", { class: "stack" }, ...why.map((text) => make("p", { text })),
        make("p", { text: c.do }),
        make("a", { class: "button", href: `/guide/${c.guide}#${c.step}`, text: say("fix.show") }),
        make("button", { class: "button button--primary", type: "button", "data-action": "it", "data-cause": c.cause, text: say("fix.it") }))));
  }

  /** @param {"yes"|"no"|"skip"} answer */
  async #check(answer) {
    const key = this.#at.next.dataset.check;
    if (!key) return;
    this.#checks = [...this.#checks.filter(([k]) => k !== key), [key, answer]];
    this.#keep();
    await this.#think();
    this.#at.state.scrollIntoView({ block: "center" });
  }

  async #uncheck() {
    this.#checks = this.#checks.slice(0, -1);
    this.#keep();
    await this.#think();
  }

  async #pickCause() {
    const cause = await this.deps.chooser.ask({ label: say("fix.what"), options: this.#faults.causes.map((/** @type {any} */ c) => ({ word: c.key, label: c.label })) });
    if (cause) await this.#found(cause);
  }

  /** @param {string} cause */
  async #found(cause) {
    await this.deps.journal.tap([
      { kind: "fault.found", ...this.#in, about: this.#fault, body: { cause } },
      { kind: "fault.mended", ...this.#in, about: this.#fault, body: {} },
    ]);
    const slot = this.#faults.causes.find((/** @type {any} */ c) => c.key === cause)?.part;
    const logged = say("fix.logged", { cause: this.#label("causes", cause) });
    if (slot && this.#rig) this.deps.toasts.show(logged, { action: say("fix.fitted", { slot: sayKnown(`slot.${slot}`) }), stay: 20_000, undo: () => this.#try(() => this.#fitted(slot)) });
    else this.deps.toasts.show(logged);
    this.#afresh();
  }

  /** A new part went in: the one before comes out. @param {string} slot */
  async #fitted(slot) {
    const { views } = await this.deps.journal.paint(["now"]); // the tap may come when this page is gone
    const old = views.now?.rigs?.find((/** @type {any} */ r) => r.rig === this.#rig)?.parts?.find((/** @type {any} */ p) => p.slot === slot);
    await this.deps.journal.tap([
      ...(old ? [{ kind: "part.pulled", ...this.#in, about: old.part, body: { why: "worn", rig: this.#rig } }] : []),
      { kind: "part.fitted", ...this.#in, about: newId(), body: { slot, rig: this.#rig } },
    ]);
    this.deps.toasts.show(say("entry.part.done", { slot: sayKnown(`slot.${slot}`) }));
  }

  async #gone() {
    await this.deps.journal.tap({ kind: "fault.mended", ...this.#in, about: this.#fault, body: { how: "went away" } });
    this.deps.toasts.show(say("fix.wentaway"));
    this.#afresh();
  }

  #afresh() {
    this.#signs = [];
    this.#checks = [];
    this.#fault = "";
    this.#told = { id: "", in: "", signs: "" };
    this.#otherMetal = false;
    this.deps.drafts.drop(draftName);
    this.#showSigns();
    this.#read();
  }

  /** Takes up a fault that was left. @param {string} id */
  #reopen(id) {
    const fault = this.#now?.faults?.find((/** @type {any} */ f) => f.id === id);
    if (!fault) return;
    this.#fault = id;
    this.#signs = signsOf(fault).filter((key) => this.#sign(key));
    this.#checks = [];
    this.#told = { id: fault.seen ?? "", in: fault.in ?? "", signs: signsOf(fault).join(",") };
    this.#otherMetal = false;
    this.#keep();
    if (this.#signs.length) this.#try(() => this.#think());
    else this.#showSigns();
  }

  /** @param {() => Promise<unknown>} act */
  async #try(act) {
    try {
      await act();
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {any} */ (trouble));
    }
  }
}

/**
 * All signs of a fault that is not settled.
 * @param {{symptom: string, signs?: string[]}} fault
 */
function signsOf(fault) {
  return fault.signs?.length ? fault.signs : [fault.symptom];
}
