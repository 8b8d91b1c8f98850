// @ts-check
/**
 * One rig or one site: what its plates, manuals and gauges say. A new one is asked one question a screen, each a
 * step back in the history; then, and of one that is kept, all that is known stands in rows, each to be tapped and
 * changed. The fields are those of the site check that belong to it, checked by the same sum.
 */
import { stillDrawings } from "../draw/still.js";
import { clone, fill, make, onActions, onePress, refs, setText, wrongWords } from "../parts/dom.js";
import { declarationOf } from "../parts/declared.js";
import { spaced } from "../parts/field.js";
import { Form } from "../parts/form.js";
import { forPlan, onForm, rigInUse, rigsOf, sitesOf, withPressure } from "../parts/rig-and-site.js";
import { uncover } from "../browser/overlays.js";
import { newId } from "../journal/id.js";
import { say, sayIfKnown } from "../words/words.js";
import { paintRows } from "./equipment-rows.js";
import { lent, markOf, rigQuestions, siteQuestions, truckHas, twoVolts, waysOf } from "./questions.js";

/** @typedef {import("../calc/trouble.js").Trouble} Trouble */
/** @typedef {import("../parts/rig-and-site.js").Rig} Thing */
/** @typedef {import("../parts/field.js").Field} Field */
/** What sets a rig's page and a site's page apart. @typedef {{kind: "rig.set"|"site.set", owners: string[], setting: "rig"|"site", of: typeof rigsOf, questions: typeof rigQuestions, check: Record<string, string>, words: "rig"|"site"}} Sort */
/** A common answer. @typedef {{text: string, on: boolean, pick: () => void}} Chip */

/** The rows of all that is known, in the place of a question. */
const rows = "rows";

class EquipmentPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {Form|null} */ #form = null;
  /** @type {Thing|null} */ #thing = null;
  /** Those of its sort. @type {Thing[]} */ #others = [];
  /** @type {Thing|null} */ #truck = null;
  /** Where a new site has its power, cord and air from. @type {Record<string, string>} */ #ways = {};
  /** @type {Trouble[]} */ #troubles = [];
  #isNew = false;
  #id = "";
  #draft = "";
  /** What is asked, or rows. */
  #asked = "";
  /** @type {Promise<void>} */ #loaded = Promise.resolve();
  /** @type {symbol|null} */ #job = null;

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps @param {Sort} sort */
  constructor(element, deps, sort) {
    this.element = element;
    this.deps = deps;
    this.sort = sort;
  }

  /** @param {Record<string, string>} params */
  async start({ id }) {
    const root = clone("page-equipment");
    this.#at = refs(root);
    this.element.append(root);
    setText(this.#at.save, say(/* rig | site */ `${this.sort.words}.save`));
    setText(this.#at.copy, say("rig.copy"));
    this.#draft = `${this.sort.words}.${id}`;
    this.#isNew = id === "new";
    onActions(root, {
      save: onePress(() => this.#save()), copy: () => this.#copy(), next: () => this.#goOn(), unknown: () => this.#unknown(), other: () => this.#other(),
      row: (el) => this.#step(String(el.dataset.row), true),
    });
    this.#at.name.addEventListener("input", () => this.#keep());
    addEventListener("popstate", () => this.#popped(), { signal: this.deps.life });
    this.#loaded = this.#load(id);
    this.deps.journal.addEventListener("views", () => this.#learn(id), { signal: this.deps.life });
    await this.#loaded;
    await this.#check();
  }

  // Private

  /** @param {string} id */
  async #load(id) {
    const [all] = await Promise.all([this.deps.asset("gen/calculators.json"), this.#read(id).then(() => this.#showName())]);
    if (this.deps.life.aborted) return;
    const draft = this.deps.drafts.of(this.#draft);
    const values = { ...this.#thing?.fields, ...draft };
    const { owners } = this.sort;
    const fields = declarationOf(all, "site-check").fields.filter((f) => owners.includes(f.owner ?? "") || (f.owner && this.#thing?.fields[f.key])); // also what was once kept here
    this.#form = new Form(withPressure(fields), {
      pad: this.deps.pad, chooser: this.deps.chooser, units: () => this.deps.settings.values.units,
      read: (key, text) => this.deps.call("read-value", { calculator: "site-check", field: key, text, units: this.deps.settings.values.units }),
    }, { values: onForm(values), changed: () => this.#keep() });
    for (const way of Object.keys(sources)) this.#ways[way] = values[`way.${way}`] ?? "";
    const last = history.state?.ask ?? draft["way.at"];
    const stands = last === rows ? Object.keys(draft).length > 0 : this.#form.fields.has(last) || this.#questions.includes(last);
    this.#show(stands ? last : this.#isNew ? this.#questions[0] : rows);
    history.replaceState({ ...history.state, ask: this.#asked }, "");
  }

  /** The name of one that is kept can be changed before its fields are there. */
  #showName() {
    if (this.deps.life.aborted || !this.#thing || (history.state?.ask ?? rows) !== rows) return;
    fill(this.#at.name, this.deps.drafts.of(this.#draft).name ?? this.#thing.fields.name ?? "");
    this.#at.copy.hidden = true;
    this.#at.all.hidden = false;
  }

  /** Reads what is kept. @param {string} id */
  async #read(id) {
    const { views } = await this.deps.journal.read(["rigs"]);
    this.#others = this.sort.of(views.rigs);
    this.#thing = this.#others.find((r) => r.id === id) ?? null;
    this.#truck = this.sort.words === "site" ? rigInUse(rigsOf(views.rigs), this.deps.settings.values.rig) : null;
    const maybe = !views.rigs || views.rigs.partial; // no fold has told yet which there are
    this.#id ||= this.#thing || (maybe && !this.#isNew) ? id : newId();
  }

  /** Fills in what is known of it only now, where nothing was typed. @param {string} id */
  async #learn(id) {
    await this.#loaded;
    if (this.#thing) return;
    await this.#read(id);
    if (this.deps.life.aborted || !this.#form) return;
    const thing = /** @type {Thing|null} */ (this.#thing);
    if (thing) this.#form.fill(onForm({ ...thing.fields, ...this.deps.drafts.of(this.#draft) }));
    this.#paint();
    await this.#check();
  }

  get #questions() {
    return this.sort.questions({ values: this.#form?.values ?? {}, ways: this.#ways, truck: this.#truck?.fields ?? null });
  }

  get #values() {
    /** @type {Record<string, string>} */
    const values = forPlan(this.#form?.asked ?? {});
    const name = this.#at.name.value.trim();
    if (name) values.name = name;
    return values;
  }

  /** A name for a new one, that none has: Truck 2. */
  get #proposed() {
    for (let n = 1; ; n++) {
      const name = say(/* rig | site */ `${this.sort.words}.called`, { n });
      if (!this.#others.some((other) => other.fields.name === name)) return name;
    }
  }

  /** @param {string} asked */
  #show(asked) {
    this.#asked = asked;
    this.#paint();
  }

  /** Asks something, a step further in the history. @param {string} asked @param {boolean} [fromRow]  to come back to the rows */
  async #step(asked, fromRow = false) {
    await uncover(); // the pad's own step
    if (this.deps.life.aborted) return;
    history.pushState({ ...history.state, ask: asked, fromRow }, "");
    this.#show(asked);
    scrollTo(0, 0);
    this.#at.title.focus();
  }

  /** The browser went back or forward, to another question or to what lay over this one. */
  #popped() {
    const { ask } = history.state ?? {};
    if (ask && ask !== this.#asked) this.#show(ask);
  }

  /** What was asked is answered. */
  async #goOn() {
    await uncover();
    if (history.state?.fromRow) return history.back();
    const questions = this.#questions;
    const next = questions[questions.indexOf(this.#asked) + 1] ?? rows;
    this.#keep(next);
    await this.#step(next);
  }

  /** What was typed before the fields were there is kept beside what an earlier visit left. @param {string} [at]  the question that comes next */
  #keep(at) {
    const before = this.#form ? emptied(this.#thing) : this.deps.drafts.of(this.#draft);
    const ways = Object.fromEntries(Object.entries({ ...this.#ways, at: at ?? (this.#isNew ? this.#asked : "") }).filter(([, word]) => word).map(([way, word]) => [`way.${way}`, word]));
    this.deps.drafts.keep(this.#draft, { ...before, ...ways, ...this.#values });
    this.#paint();
    this.#check();
  }

  #paint() {
    if (!this.#form) return;
    const at = this.#at;
    const all = this.#asked === rows;
    at.all.hidden = !all;
    at.ask.hidden = all;
    if (all) this.#paintRows();
    else this.#paintQuestion(this.#form);
  }

  /** @param {Form} form */
  #paintQuestion(form) {
    const at = this.#at;
    const key = this.#asked;
    const field = form.fields.get(key);
    const n = history.state?.fromRow ? 0 : this.#questions.indexOf(key) + 1;
    at.count.textContent = n ? say("ask.count", { n, all: this.#questions.length }) : "";
    setText(at.title, this.#titleOf(key));
    at.help.textContent = this.#helpOf(key);
    at.picture.hidden = !markOf(key);
    if (markOf(key)) this.#draw(markOf(key));
    const chips = this.#chipsOf(key);
    at.chips.dataset.of = key;
    const shown = [...at.chips.children];
    if (shown.length === chips.length && shown.every((el, i) => el.textContent === chips[i].text)) shown.forEach((el, i) => el.setAttribute("aria-pressed", String(chips[i].on)));
    else at.chips.replaceChildren(...chips.map(({ text, on }, i) => make("button", { class: "chip", type: "button", text, "aria-pressed": String(on), onclick: () => this.#chipsOf(this.#asked)[i].pick() })));
    const typed = Boolean(field && !["number", "count", "factor"].includes(field.declared.kind));
    if (!typed) at.field.replaceChildren();
    else if (at.field.firstChild !== field?.element) at.field.replaceChildren(/** @type {Field} */ (field).element);
    const trouble = this.#troubles.find((t) => t.field === key && t.kind !== "missing");
    at.askWrong.hidden = !trouble;
    at.askWrong.replaceChildren(...wrongWords(trouble));
    at.other.hidden = typed || !field;
    at.other.setAttribute("aria-label", `${at.title.textContent}: ${say("ask.other")}`);
    setText(at.other, field?.value && !chips.some((c) => c.on) ? spaced(field.value) : say("ask.other"));
    at.next.hidden = !field || (!typed && !field.value) || (typed && !field.said);
    at.unknown.hidden = !field || !at.next.hidden || key.startsWith("max_current");
  }

  /** @param {string} mark */
  async #draw(mark) {
    const drawings = stillDrawings(await this.deps.asset("gen/drawings.json"));
    if (!this.deps.life.aborted && markOf(this.#asked) === mark && this.#at.picture.dataset.mark !== mark) this.#at.picture.replaceChildren(drawings[`rating-plate-${mark}`]());
    this.#at.picture.dataset.mark = mark;
  }

  /** @param {string} key */
  #titleOf(key) {
    const fields = this.#form?.fields;
    const second = key.endsWith("_2") && key !== "plate_volts_2";
    const label = fields?.get(second ? key.slice(0, -2) : key)?.declared.label ?? say(/* power | cord | air */ `ask.${key}`);
    const volts = ["max_current", "duty_points"].includes(key.replace("_2", "")) && fields?.get("plate_volts_2")?.value && fields.get(second ? "plate_volts_2" : "plate_volts")?.value;
    return volts ? say("ask.at", { label, volts: spaced(volts) }) : label;
  }

  /** @param {string} key */
  #helpOf(key) {
    const help = this.#form?.fields.get(key)?.declared.help ?? "";
    return [help, sayIfKnown(`cost.${key}`)].filter(Boolean).map((text) => `${text.replace(/\.$/, "")}.`).join(" ");
  }

  /** @param {string} key @returns {Chip[]} */
  #chipsOf(key) {
    const fields = /** @type {Form} */ (this.#form).fields;
    const field = fields.get(key);
    if (!field) return waysOf(key, this.#truck?.fields ?? null).map((word) => ({ text: this.#wayWords(key, word), on: this.#ways[key] === word, pick: () => this.#go(key, word) }));
    const set = (/** @type {Record<string, string>} */ values) => {
      for (const [k, text] of Object.entries(values)) fields.get(k)?.set(text);
      this.#goOn();
    };
    const { declared } = field;
    const own = field.chips;
    const one = (/** @type {string} */ text) => ({ text: spaced(text), on: field.value === text, pick: () => set({ [key]: text }) });
    if (declared.kind === "pairs") return this.#pairChips(field);
    if (key === "plate_volts") {
      const second = fields.get("plate_volts_2");
      return [...own.map((text) => ({ ...one(text), on: field.value === text && !second?.value, pick: () => set({ [key]: text, plate_volts_2: "", max_current_2: "", duty_points_2: "" }) })),
        ...twoVolts.map(([low, high]) => ({ text: say("ask.both", { low: low.slice(0, -1), high: spaced(high) }), on: field.value === high && second?.value === low, pick: () => set({ [key]: high, plate_volts_2: low }) }))];
    }
    if (key === "pressure") {
      const kind = fields.get("pressure_kind");
      return [...own.map(one), { text: say("rig.automatic"), on: kind?.value === "automatic", pick: () => set({ pressure: "", pressure_kind: "automatic" }) }];
    }
    return own.map(one);
  }

  /** Of duty cycles the one at the largest amps; of tips those on the truck. @param {Field} field @returns {Chip[]} */
  #pairChips(field) {
    const { key, right } = field.declared;
    const { pairs } = field;
    if (key === "tips") {
      return (right?.leftChips ?? []).map((amps) => {
        const on = pairs.some(([left]) => left === amps);
        return { text: spaced(amps), on, pick: () => field.setPairs(on ? pairs.filter(([left]) => left !== amps) : [...pairs, [amps]]) };
      });
    }
    const amps = this.#form?.values[key.replace("duty_points", "max_current")];
    if (!amps) return [];
    return (right?.rightChips ?? []).map((duty) => ({ text: spaced(duty), on: pairs[0]?.[0] === amps && pairs[0][1] === duty, pick: () => field.setPairs([[amps, duty], ...pairs.slice(1)]) }));
  }

  /** @param {string} way @param {string} word */
  #wayWords(way, word) {
    const truck = this.#truck?.fields;
    if (word !== "truck" || !truck) return say(/* power | cord | air */ `ask.${way}.${word}`);
    const has = truckHas(truck, way) ? lent[way].map((key) => truck[key]).filter(Boolean).map(spaced).join(", ") : say("ask.truck.new");
    return say(/* cord | air */ `ask.${way}.truck`, { truck: truck.name ?? say("rig.unnamed"), has });
  }

  /** @param {string} way @param {string} word */
  #go(way, word) {
    const fields = this.#form?.fields;
    this.#ways[way] = word;
    for (const [answer, keys] of Object.entries(sources[way])) if (answer !== word) for (const key of keys) fields?.get(key)?.set("");
    if (word === "none") fields?.get("cord_length")?.set("0m");
    this.#goOn();
  }

  async #other() {
    if (await this.#form?.fields.get(this.#asked)?.enter()) this.#goOn();
  }

  #unknown() {
    this.#form?.fields.get(this.#asked)?.set("");
    this.#goOn();
  }

  #paintRows() {
    const at = this.#at;
    fill(at.name, this.#values.name ?? this.#thing?.fields.name ?? this.#proposed);
    at.copy.hidden = this.#isNew || this.sort.words !== "rig";
    const also = this.#thing?.also ?? [];
    at.also.hidden = also.length === 0;
    at.also.replaceChildren(make("span", { text: say(/* rig | site */ `${this.sort.words}.also`, { what: also.map((a) => `${a.field}: ${a.value}`).join(", ") }) }));
    paintRows(at, { sort: this.sort.words, fields: [...(this.#form?.fields.values() ?? [])], questions: this.#questions, truck: this.#truck, troubles: this.#troubles });
  }

  /** Runs the plan on a thin plate, to hear what it says of the rig. @returns {Promise<boolean>} */
  async #check() {
    if (!this.#form) return true;
    const { name, ...fields } = this.#values;
    const job = (this.#job = Symbol());
    /** @type {Trouble[]} */
    let troubles = [];
    try {
      await this.deps.calculate("site-check", { ...this.sort.check, ...fields, metal: "mild-steel", thickness: "1mm" });
    } catch (problem) {
      const first = /** @type {Trouble} */ (problem);
      const keys = [...this.#form.fields.keys(), "pressure"];
      troubles = [first, ...(first.also ?? [])].filter((p) => keys.includes(p.field ?? ""));
    }
    if (job === this.#job && !this.deps.life.aborted) {
      this.#troubles = troubles;
      if (troubles.length === 0) this.#at.wrong.hidden = true;
      this.#paint();
    }
    return troubles.length === 0;
  }

  #copy() {
    const { name, ...values } = this.#values;
    this.deps.drafts.keep(`${this.sort.words}.new`, { ...values, "way.at": rows });
    this.deps.go("/rig/new");
  }

  /** Waits until the stored values are there, for a save over them is told from a new one by them. */
  async #save() {
    try {
      await this.#loaded;
      await this.#store();
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {Trouble} */ (trouble));
    }
  }

  async #store() {
    if (this.deps.sumsRun() && !(await this.#check())) {
      const [trouble] = this.#troubles;
      this.#at.wrong.hidden = false;
      this.#at.wrong.replaceChildren(...wrongWords(trouble));
      this.element.querySelector(`[data-row="${trouble.field}"]`)?.scrollIntoView({ block: "center" });
      return;
    }
    /** @type {Record<string, string>} */
    const values = { ...this.#values, name: this.#values.name ?? this.#proposed };
    const truck = this.#truck;
    for (const way of Object.keys(lent)) {
      if (!truck || this.#ways[way] !== "truck" || truckHas(truck.fields, way)) continue;
      /** @type {Record<string, any>} */
      const lend = Object.fromEntries(lent[way].filter((key) => values[key]).map((key) => [key, values[key]]));
      for (const key of lent[way]) delete values[key];
      if (Object.keys(lend).length) await this.deps.journal.tap({ kind: "rig.set", about: truck.id, body: lend });
    }
    const before = this.#thing?.fields ?? {};
    /** @type {Record<string, any>} */
    const body = {};
    for (const key of ["name", ...forPlanKeys(this.#form)]) {
      if (values[key] !== undefined && values[key] !== before[key]) body[key] = values[key];
      else if (values[key] === undefined && before[key] !== undefined) body[key] = null;
    }
    const over = Object.keys(body).map((k) => this.#thing?.by?.[k]).find(Boolean);
    if (Object.keys(body).length) await this.deps.journal.tap({ kind: this.sort.kind, about: this.#id, body, ...(over ? { over } : {}) });
    this.deps.drafts.drop(this.#draft);
    this.deps.settings.set({ [this.sort.setting]: this.#id });
    this.deps.toasts.show(say(/* rig | site */ `${this.sort.words}.saved`));
    history.replaceState({ ...history.state, ask: undefined }, "", `/${this.sort.words}/${this.#id}`); // Back leads to what was kept
    this.deps.go("/ready");
  }
}

/** The fields that each answer to a way goes with: those of another answer are emptied. @type {Record<string, Record<string, string[]>>} */
const sources = {
  power: { socket: ["breaker"], generator: ["generator"] },
  cord: { here: lent.cord },
  air: { here: lent.air },
};

/** Keys under which a form's fields are stored. @param {Form|null} form */
function forPlanKeys(form) {
  return [...(form?.fields.keys() ?? [])].filter((key) => key !== "pressure_points");
}

/** What is stored, each field as if it had been emptied. @param {Thing|null} thing @returns {Record<string, string>} */
function emptied(thing) {
  return Object.fromEntries(Object.keys(thing?.fields ?? {}).map((key) => [key, ""]));
}

export class RigPage extends EquipmentPage {
  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    super(element, deps, { kind: "rig.set", owners: ["rig", "plate", "truck"], setting: "rig", of: rigsOf, questions: rigQuestions, check: {}, words: "rig" });
  }
}

export class SitePage extends EquipmentPage {
  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    // Any rig will do to hear what the sum says of the site's figures.
    super(element, deps, { kind: "site.set", owners: ["truck", "site"], setting: "site", of: sitesOf, questions: siteQuestions, check: { max_current: "40A" }, words: "site" });
  }
}
