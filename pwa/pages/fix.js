// @ts-check
/**
 * Fix: pick what you see, make the check that is worth its minutes, mend what
 * it was. The reasoning is the calculator fault-rank; what is entered here is
 * kept as a draft until the fault is settled, so it can be left and resumed.
 */
import { clone, make, onActions, onePress, refs } from "../parts/dom.js";
import { inertWhile } from "../parts/inert-while.js";
import { settled } from "../parts/settled.js";
import { rigIdInUse } from "../parts/rig-and-site.js";
import { renderRows } from "../parts/rows.js";
import { stockOf } from "../parts/stock.js";
import { dayAndTime } from "../parts/times.js";
import { opened } from "../browser/overlays.js";
import { newId } from "../journal/id.js";
import { say, sayKnown } from "../words/words.js";
import { contextOf, plannedIn, describeContext } from "./fix-context.js";
import { FixHow } from "./fix-how.js";
import { FixSigns } from "./fix-signs.js";
import { find, FixAdvice, labelOf } from "./fix-advice.js";

/** Where the draft is kept, and those of faults that were left. */
const draftName = "fix";
const leftName = "fix.left";

/** So many faults that were left are resumed where they were; of older ones the signs. */
const mostLeft = 9;

/** @typedef {import("../journal/shapes.js").Entry} Entry @typedef {import("./fix-advice.js").Step} Step @typedef {import("./fix-advice.js").List} List @typedef {import("./fix-advice.js").Kept} Kept */

/** A search as some version kept it; checks: as one did that had no steps. @typedef {Partial<Kept> & {checks?: unknown}} Draft */

/** What the draft begins with. @type {Kept} */
const nothing = { signs: [], absent: [], steps: [], asks: false, fault: "", seen: "", session: "", told: "", metal: "" };

export class FixPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {import("./fix-advice.js").Faults} */ #faults = { signs: [], groups: [], causes: [], checks: [], pictures: {} };
  /** @type {FixSigns|null} */ #picker = null;
  /** @type {FixAdvice|null} */ #thought = null;
  /** @type {import("../journal/shapes.js").ReadModelBase["views"]} */ #views = {};
  /** @type {Kept} */ #kept = { ...nothing };
  #rig = "";
  /** What the guides had told when the ranking that is shown was asked for. */ #guided = "";
  /** Takes back the step of the history that an open group is. @type {(() => void)|null} */ #inGroup = null;
  /** The newest ranking that was asked for. @type {symbol|null} */ #job = null;

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
    const check = (/** @type {HTMLElement} */ el) => this.#try(() => this.#check(el));
    onActions(root, {
      sign: (el) => this.#toggle(String(el.dataset.sign)),
      group: (el) => this.#turnToSigns(el.dataset.key),
      think: () => this.#try(() => this.#begin()),
      look: () => this.#turnToSigns(),
      yes: check, no: check, skip: check, tried: check,
      undo: onePress(() => this.#try(() => this.#undo())),
      it: (el) => settle(() => this.#found(String(el.dataset.key))),
      helped: (el) => settle(() => this.#helped(String(el.dataset.key))),
      left: onePress(() => this.#try(() => this.#leftOver())),
      other: () => settle(() => this.#pickCause()),
      gone: () => settle(() => this.#mended(say("fix.wentaway"), { how: say("fix.how.wentaway") })),
      afresh: () => this.#leave(),
      metal: () => this.#try(() => this.#switchMetal()),
      open: (el) => this.#reopen(String(el.dataset.id)),
    });
    this.#faults = await this.deps.asset("gen/faults.json");
    this.#picker = new FixSigns(this.#at, this.#faults);
    this.#thought = new FixAdvice(this.#at, this.#faults, (fold) => new FixHow(fold, this.deps, () => this.#views));
    this.#take(this.deps.drafts.of(draftName));
    this.deps.journal.addEventListener("views", () => this.#read(), { signal: this.deps.life });
    await this.#read();
    if (this.#kept.fault && !this.#kept.asks) await this.#try(() => this.#think());
    else this.#showSigns();
  }

  // Private

  get #in() {
    const id = this.#views.now?.session?.id;
    return id ? { in: id } : {};
  }

  /** Drafts of faults that were left, by their ids. @returns {Record<string, Draft>} */
  get #left() {
    return this.deps.drafts.of(leftName);
  }

  #keep() {
    this.deps.drafts.keep(draftName, { ...this.#kept });
  }

  /** Takes up what was kept; what this version does not know is left out. @param {Draft} draft */
  #take(draft) {
    const known = (/** @type {unknown} */ keys) => listOf(keys).filter((key) => this.#sign(key));
    const steps = draft.steps ?? listOf(draft.checks).map((c) => c.split(":")).map(([key, answer]) => /** @type {Step} */ ({ key, answer })); // as an older version kept them
    this.#kept = { ...nothing, ...draft, signs: known(draft.signs), absent: known(draft.absent), steps: steps.filter(({ key }) => this.#of("checks", key) ?? this.#of("causes", key)) };
    this.#kept.asks &&= this.#kept.steps.length > 0;
  }

  async #read() {
    const { views } = await this.deps.journal.read(["now", "rigs", "guides"]);
    if (this.deps.life.aborted) return;
    this.#views = views;
    this.#rig = rigIdInUse(views, this.deps.settings.values.rig);
    const open = (views.now?.faults ?? []).filter((f) => f.id !== this.#kept.fault);
    this.#at.faults.hidden = open.length === 0;
    renderRows(this.#at.list, open, (f) => make("li", {}, make("button", { class: "list__item", type: "button", "data-action": "open", "data-id": f.id },
      make("b", { text: signsOf(f).map((key) => this.#label("signs", key)).join(", ") || say("fix.unsaid") }), make("span", { text: dayAndTime(f.at) }))), (f) => ({ name: say("fix.unsaid"), at: f.at }));
    if (this.#at.thought.hidden || this.#guided === guidedBy(this.#known)) return;
    await settled(this.#at.thought);
    if (!this.deps.life.aborted && !this.#at.thought.hidden) await this.#try(() => this.#think()); // answered in a guide just now
  }

  get #known() {
    return contextOf(this.#views, this.deps, this.#faults, Boolean(this.#kept.metal));
  }

  /** @template {List} L @param {L} list @param {string} key */
  #of(list, key) {
    return find(this.#faults, list, key);
  }

  /** @param {List} list @param {string} key */
  #label(list, key) {
    return labelOf(this.#faults, list, key);
  }

  /** @param {string} key */
  #sign(key) {
    return this.#of("signs", key);
  }

  /** @param {string} sign */
  #toggle(sign) {
    this.#kept.signs = this.#kept.signs.includes(sign) ? this.#kept.signs.filter((s) => s !== sign) : [...this.#kept.signs, sign];
    this.#kept.absent = this.#kept.absent.filter((s) => s !== sign);
    this.#keep();
    this.#picker?.mark(this.#kept.signs, sign)?.scrollIntoView({ block: "nearest" });
  }

  /** @param {string} [group]  which of them; else the groups. Back leads from one to the groups. */
  #showSigns(group) {
    if (!group) this.#leaveGroup();
    else this.#inGroup ??= opened(() => {
      this.#inGroup = null;
      this.#turnToSigns();
    });
    this.#at.look.hidden = false;
    this.#at.thought.hidden = true;
    this.#picker?.draw(this.#kept.signs, this.#kept.asks ? this.#kept.steps.at(-1)?.signs ?? [] : null, group);
    scrollTo(0, 0);
  }

  #leaveGroup() {
    const left = this.#inGroup;
    this.#inGroup = null;
    left?.();
  }

  /** The same after a tap: the thumb that gave it picks nothing there. @param {string} [group] */
  #turnToSigns(group) {
    return inertWhile([this.#at.look], async () => this.#showSigns(group));
  }

  /** Logs what was seen, once, and starts to reason. What is no fault is not logged; signs changed later amend the entry. */
  async #begin() {
    const all = [...this.#kept.signs, ...this.#kept.absent];
    const troubles = all.filter((key) => !this.#sign(key)?.noFault && !this.#sign(key)?.fact);
    const seen = { symptom: troubles[0] ?? all[0], signs: all };
    const signs = all.join(",");
    if (troubles.length > 0 && !this.#kept.fault) {
      const [about, id] = [newId(), newId()];
      this.#kept.fault = about;
      Object.assign(this.#kept, { seen: id, session: this.#in.in ?? "", told: signs });
      this.#keep(); // before it is stored, so that coming back meanwhile logs it no second time
      try {
        await this.deps.journal.tap({ kind: "fault.seen", ...this.#in, about, id, body: { ...seen, ...(this.#rig ? { rig: this.#rig } : {}) } });
      } catch (trouble) {
        if (!this.deps.journal.failed.some(({ entries }) => entries.some((e) => e.id === id))) { // else it is stored yet, and is no second fault
          this.#kept.fault = "";
          Object.assign(this.#kept, { seen: "", session: "", told: "" });
          this.#keep();
        }
        throw trouble;
      }
    } else if (this.#kept.seen && signs !== this.#kept.told) {
      await this.deps.journal.amend(this.#kept.seen, seen, say("fix.why.signs"), this.#kept.session || undefined);
      this.#kept.told = signs;
    }
    await this.#goOn();
  }

  /** The bad cut was in the plan's metal, or was not: with another, its limits and verdicts say nothing. */
  async #switchMetal() {
    this.#kept.metal = this.#kept.metal ? "" : "other";
    this.#keep();
    await this.#think();
  }

  /** Keeps what was answered, and asks for what follows from it. */
  async #goOn() {
    this.#keep();
    await this.#think();
    if (!this.deps.life.aborted) scrollTo(0, 0);
  }

  /** What a ranking says anew stands still, and hears a thumb again when it has come. */
  #think() {
    const { next, also, bar, ranked, settle, faults } = this.#at;
    return inertWhile([next, also, bar, ranked, settle, faults], () => this.#rank());
  }

  async #rank() {
    const job = (this.#job = Symbol());
    const known = this.#known;
    const steps = (/** @type {string[]} */ ...answers) => this.#kept.steps.filter(({ answer }) => answers.includes(answer));
    const keys = (/** @type {Step[]} */ list) => list.map(({ key }) => key).join(",");
    const answer = await this.deps.calculate("fault-rank", {
      ...known, signs: this.#kept.signs.join(","), absent: this.#kept.absent.join(","), checks: steps("yes", "no").map((s) => `${s.key}:${s.answer}`).join(","),
      skipped: keys(steps("skip")), mended: keys(steps("helped", "tried")), open: this.#of("checks", this.#kept.steps.at(-1)?.key ?? "")?.hands === "dead" ? "yes" : "no",
    }, { units: this.deps.settings.values.units });
    if (this.deps.life.aborted || job !== this.#job) return;
    this.#guided = guidedBy(known);
    this.#leaveGroup();
    this.#at.look.hidden = true;
    this.#at.thought.hidden = false;
    const planned = plannedIn(this.deps);
    this.#thought?.paint(answer, this.#kept, { known: describeContext(known, planned), planned });
  }

  /** The answer stays with the check that it was given to. @param {HTMLElement} el */
  async #check(el) {
    const { key, label, action } = el.dataset;
    if (!key) return;
    el.setAttribute("aria-pressed", "true");
    const step = /** @type {Step} */ ({ key, label, answer: action });
    this.#kept.steps = [...this.#kept.steps.filter((s) => s.key !== key), step];
    await this.#goOn();
  }

  /** Takes the last answer back. */
  async #undo() {
    const last = this.#kept.steps.at(-1);
    if (!last) return;
    if (last.entry) await this.deps.journal.voidEntry(last.entry, "undone", this.#in.in);
    this.#kept.steps = this.#kept.steps.slice(0, -1);
    this.#kept.signs = [...new Set([...(last.signs ?? []), ...this.#kept.signs])]; // with those picked since
    this.#kept.absent = last.absent ?? this.#kept.absent;
    this.#kept.asks = false;
    await this.#goOn();
  }

  async #pickCause() {
    const cause = await this.deps.chooser.ask({ label: say("fix.what"), options: this.#faults.causes.map((c) => ({ word: c.key, label: c.label })) });
    if (cause) await this.#found(cause);
  }

  /** @param {string} cause */
  async #found(cause) {
    await this.deps.journal.tap([
      { kind: "fault.found", ...this.#in, about: this.#kept.fault, body: { cause } },
      { kind: "fault.mended", ...this.#in, about: this.#kept.fault, body: {} },
    ]);
    this.#sayLogged(cause);
    this.#afresh();
  }

  /** It was one of several causes: asks what is left of the signs. @param {string} cause */
  async #helped(cause) {
    const entry = newId();
    await this.deps.journal.tap({ kind: "fault.found", ...this.#in, about: this.#kept.fault, id: entry, body: { cause, helped: "in part" } });
    this.#kept.steps = [...this.#kept.steps.filter(({ key }) => key !== cause), { key: cause, answer: "helped", signs: this.#kept.signs, absent: this.#kept.absent, entry }];
    this.#kept.asks = true;
    this.#keep();
    this.#sayLogged(cause);
    this.#turnToSigns();
  }

  /** Goes on with what is left of the signs; nothing, and all is good again. */
  async #leftOver() {
    const { signs = [], absent = [] } = this.#kept.steps.at(-1) ?? {};
    if (!this.#kept.signs.some((key) => !this.#sign(key)?.fact)) return this.#mended(say("fix.allgood"), {});
    this.#kept.absent = [...absent, ...signs.filter((key) => !this.#kept.signs.includes(key))];
    this.#kept.asks = false;
    await this.#goOn();
  }

  /** @param {string} cause */
  #sayLogged(cause) {
    const slot = this.#of("causes", cause)?.part;
    const logged = say("fix.logged", { cause: this.#label("causes", cause) });
    if (slot && this.#rig) this.deps.toasts.show(logged, { action: say("fix.fitted", { slot: sayKnown(`slot.${slot}`) }), stay: 20_000, undo: () => this.#try(() => this.#fitted(slot)) });
    else this.deps.toasts.show(logged);
  }

  /** A new part went in: the one before comes out. @param {string} slot */
  async #fitted(slot) {
    const from = await (await stockOf(this.deps, this.#rig))(slot);
    if (!from) return;
    const { views } = await this.deps.journal.read(["now"]); // the tap may come when this page is gone
    const old = views.now?.rigs?.find((r) => r.rig === this.#rig)?.parts?.find((p) => p.slot === slot);
    await this.deps.journal.tap([
      .../** @type {Entry[]} */ (old ? [{ kind: "part.pulled", ...this.#in, about: old.part, body: { why: "worn", rig: this.#rig } }] : []),
      { kind: "part.fitted", ...this.#in, about: newId(), body: { slot, rig: this.#rig, ...from } },
    ]);
    this.deps.toasts.show(say("entry.part.done", { slot: sayKnown(`slot.${slot}`) }));
  }

  /** It works again. @param {string} said @param {{how?: string}} body */
  async #mended(said, body) {
    await this.deps.journal.tap({ kind: "fault.mended", ...this.#in, about: this.#kept.fault, body });
    this.deps.toasts.show(said);
    this.#afresh();
  }

  /** Leaves a fault as it is: it stands in the list, with all that was found out. */
  #leave() {
    this.#putAside();
    this.#afresh();
  }

  #putAside() {
    if (!this.#kept.fault) return;
    const others = Object.entries(this.#left).filter(([id]) => id !== this.#kept.fault);
    this.deps.drafts.keep(leftName, Object.fromEntries([...others, [this.#kept.fault, this.deps.drafts.of(draftName)]].slice(-mostLeft)));
  }

  #afresh() {
    this.deps.drafts.drop(draftName);
    this.#take({});
    this.#turnToSigns();
    this.#read();
  }

  /** Takes up a fault that was left. @param {string} id */
  #reopen(id) {
    const fault = this.#views.now?.faults?.find((f) => f.id === id);
    if (!fault) return;
    this.#putAside();
    const signs = signsOf(fault);
    this.#take(this.#left[id] ?? { signs, fault: id, seen: fault.seen, session: fault.in, told: signs.join(",") });
    this.#keep();
    if (this.#kept.signs.length && !this.#kept.asks) this.#try(() => this.#think());
    else this.#showSigns();
    this.#read();
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

/**
 * All signs of a fault that is not settled.
 * @param {{symptom: string, signs?: string[]}} fault
 */
function signsOf(fault) {
  return fault.signs?.length ? fault.signs : [fault.symptom];
}

/** Keys as they are kept: a list, or a text with commas. @param {unknown} keys @returns {string[]} */
function listOf(keys = []) {
  return [keys].flat().join(",").split(",").filter(Boolean);
}

/** What the guides tell of it. @param {Pick<ReturnType<typeof contextOf>, "passed"|"worn"|"failed">} known */
function guidedBy({ passed, worn, failed }) {
  return `${passed} ${worn} ${failed}`;
}
