// @ts-check
/**
 * One rig or one site: what its plates, manuals and gauges say. The fields are
 * those of the site check that belong to it, checked by the same sum.
 */
import { clone, fill, make, onActions, refs, setText } from "../parts/dom.js";
import { declarationOf } from "../parts/declared.js";
import { spaced } from "../parts/field.js";
import { Form } from "../parts/form.js";
import { forPlan, onForm, rigInUse, rigsOf, sitesOf, withPressure } from "../parts/rig-and-site.js";
import { newId } from "../journal/id.js";
import { say } from "../words/words.js";

/** What sets a rig's page and a site's page apart. @typedef {{kind: "rig.set"|"site.set", owners: string[], setting: "rig"|"site", of: typeof rigsOf, brings: (view: Parameters<typeof rigsOf>[0], rig: string) => import("../parts/rig-and-site.js").Rig|null|undefined, check: Record<string, string>, words: string}} Sort */
/** @typedef {import("../calc/trouble.js").Trouble} Trouble */

class EquipmentPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {Form|null} */ #form = null;
  /** @type {import("../parts/rig-and-site.js").Rig|null} */ #thing = null;
  /** Keys of its fields. @type {string[]} */ #keys = [];
  /** Fields by what they are parts of. @type {Map<string, import("../parts/field.js").Declared[]>} */ #parts = new Map();
  #id = "";
  #draft = "";
  #saving = false;
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
    const root = clone("page-rig");
    this.#at = refs(root);
    this.element.append(root);
    this.#at.why.textContent = say(`${this.sort.words}.why`);
    setText(this.#at.save, say(`${this.sort.words}.save`));
    this.#draft = `${this.sort.words}.${id}`;
    onActions(root, { save: () => this.#save() });
    this.#at.name.addEventListener("input", () => this.#keep());
    this.#loaded = this.#load(id);
    this.deps.journal.addEventListener("views", () => this.#learn(id), { signal: this.deps.life });
    await this.#loaded;
    await this.#check();
  }

  // Private

  /** @param {string} id */
  async #load(id) {
    const [all, { views }] = await Promise.all([this.deps.asset("gen/calculators.json"), this.deps.journal.read(["rigs"])]);
    const sums = declarationOf(all, "site-check");
    this.#thing = this.sort.of(views.rigs).find((r) => r.id === id) ?? null;
    const maybe = !views.rigs || views.rigs.partial; // no fold has told yet which there are
    this.#id = this.#thing || (maybe && id !== "new") ? id : newId();
    const values = { ...this.#thing?.fields, ...this.deps.drafts.of(this.#draft) };
    fill(this.#at.name, values.name ?? "");
    const fields = sums.fields.filter((f) => this.sort.owners.includes(f.owner ?? "") || (f.owner && this.#thing?.fields[f.key])); // also what was once kept here
    this.#keys = fields.map((f) => f.key);
    for (const f of fields) if (f.item) this.#parts.set(f.item, [...(this.#parts.get(f.item) ?? []), f]);
    this.#form = new Form(withPressure(fields).map((f) => (f.item ? { ...f, fold: this.#title(f.item) } : f)), {
      pad: this.deps.pad, chooser: this.deps.chooser, units: () => this.deps.settings.values.units,
      read: (key, text) => this.deps.call("read-value", { calculator: "site-check", field: key, text, units: this.deps.settings.values.units }),
    }, { values: onForm(values), changed: () => this.#keep() });
    this.#at.form.append(this.#form.element);
    this.#showFolds(this.sort.brings(views.rigs, this.deps.settings.values.rig));
    this.#showAlso();
  }

  /** Fills in what is known of it only now, where nothing was typed. @param {string} id */
  async #learn(id) {
    await this.#loaded;
    if (this.#thing || id !== this.#id) return;
    const { views } = await this.deps.journal.read(["rigs"]);
    const thing = this.sort.of(views.rigs).find((r) => r.id === id);
    if (!thing || this.deps.life.aborted) return;
    this.#thing = thing;
    const values = { ...thing.fields, ...this.deps.drafts.of(this.#draft) };
    fill(this.#at.name, values.name ?? "");
    this.#form?.fill(onForm(values));
    this.#showFolds();
    this.#showAlso();
    await this.#check();
  }

  /** @param {string} item */
  #title(item) {
    return say(`${this.sort.words}.item.${item}`);
  }

  /**
   * Opens what something is known of here, and what has to be asked here as no truck brings it; of the rest it says
   * what that has.
   * @param {import("../parts/rig-and-site.js").Rig|null} [truck]  none on the rig's own page
   */
  #showFolds(truck) {
    for (const [item, fields] of this.#parts) {
      const fold = /** @type {HTMLElement} */ (this.#form?.folds.get(this.#title(item)));
      const brought = fields.filter((f) => truck?.fields[f.key]).map((f) => `${f.label}: ${spaced(truck?.fields[f.key] ?? "")}`);
      if (fields.some((f) => this.#form?.values[f.key]) || (truck !== undefined && !brought.length)) fold.setAttribute("open", "");
      if (brought.length) fold.before(make("p", { text: say("site.brought", { truck: truck?.fields.name ?? say("rig.unnamed"), what: brought.join(" · ") }) }));
    }
  }

  get #values() {
    /** @type {Record<string, string>} */
    const values = forPlan(this.#form?.asked ?? {});
    const name = this.#at.name.value.trim();
    if (name) values.name = name;
    return values;
  }

  #showAlso() {
    const also = this.#thing?.also ?? [];
    this.#at.also.hidden = also.length === 0;
    this.#at.also.replaceChildren(make("span", { text: say(`${this.sort.words}.also`, { what: also.map((a) => `${a.field}: ${a.value}`).join(", ") }) }));
  }

  /** What was typed before the fields were there is kept beside what an earlier visit left. */
  #keep() {
    const before = this.#form ? emptied(this.#thing) : this.deps.drafts.of(this.#draft);
    this.deps.drafts.keep(this.#draft, { ...before, ...this.#values });
    this.#check();
  }

  /** Runs the plan on a thin plate, to hear what it says of the rig. @returns {Promise<boolean>} */
  async #check() {
    if (!this.#form) return true;
    const { name, ...fields } = this.#values;
    const job = (this.#job = Symbol());
    try {
      await this.deps.calculate("site-check", { ...this.sort.check, ...fields, metal: "mild-steel", thickness: "1mm" });
      if (job === this.#job) this.#wrong(null);
      return true;
    } catch (problem) {
      const first = /** @type {Trouble} */ (problem);
      const all = [first, ...(first.also ?? [])].filter((p) => this.#keys.includes(p.field ?? ""));
      if (job === this.#job) this.#wrong(all.length ? { ...all[0], also: all.slice(1) } : null);
      return all.length === 0;
    }
  }

  /** @param {Trouble|null} problem */
  #wrong(problem) {
    const rest = this.#form?.wrong(problem) ?? [];
    const first = rest[0] ?? (problem?.kind === "missing" ? problem : null);
    this.#at.wrong.hidden = !first;
    this.#at.wrong.replaceChildren(...(first ? [first.msg, make("span", { text: first.hint ?? "" })] : []));
  }

  /** Waits until the stored values are there, for a save over them is told from a new one by them. */
  async #save() {
    if (this.#saving) return;
    this.#saving = true;
    try {
      await this.#loaded;
      await this.#store();
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {Trouble} */ (trouble));
    }
    this.#saving = false;
  }

  async #store() {
    const named = Boolean(this.#values.name);
    this.#at.nameWrong.hidden = named;
    this.#at.nameWrong.textContent = named ? "" : say(`${this.sort.words}.name.missing`);
    if ((this.deps.sumsRun() && !(await this.#check())) || !named) return;
    const before = this.#thing?.fields ?? {};
    const values = this.#values;
    /** @type {Record<string, string|null>} */
    const body = {};
    for (const key of ["name", ...this.#keys]) {
      if (values[key] !== undefined && values[key] !== before[key]) body[key] = values[key];
      else if (values[key] === undefined && before[key] !== undefined) body[key] = null;
    }
    const over = Object.keys(body).map((k) => this.#thing?.by?.[k]).find(Boolean);
    if (Object.keys(body).length) await this.deps.journal.tap({ kind: this.sort.kind, about: this.#id, body, ...(over ? { over } : {}) });
    this.deps.drafts.drop(this.#draft);
    this.deps.settings.set({ [this.sort.setting]: this.#id });
    this.deps.toasts.show(say(`${this.sort.words}.saved`));
    this.deps.go("/ready");
  }
}

/** What is stored, each field as if it had been emptied. @param {import("../parts/rig-and-site.js").Rig|null} thing @returns {Record<string, string>} */
function emptied(thing) {
  return Object.fromEntries(Object.keys(thing?.fields ?? {}).map((key) => [key, ""]));
}

export class RigPage extends EquipmentPage {
  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    super(element, deps, { kind: "rig.set", owners: ["rig", "plate", "truck"], setting: "rig", of: rigsOf, brings: () => undefined, check: {}, words: "rig" });
  }
}

export class SitePage extends EquipmentPage {
  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    // Any rig will do to hear what the sum says of the site's figures.
    super(element, deps, { kind: "site.set", owners: ["truck", "site"], setting: "site", of: sitesOf, brings: (view, rig) => rigInUse(rigsOf(view), rig), check: { max_current: "40A" }, words: "site" });
  }
}
