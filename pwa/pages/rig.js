// @ts-check
/**
 * One rig: what its plates and manuals say. The fields are those of the cut
 * plan that belong to a rig, checked by the same sums.
 */
import { clone, make, onActions, refs } from "../parts/dom.js";
import { Form } from "../parts/form.js";
import { forPlan, onForm, rigKeys, rigsOf, withPressure } from "../parts/rig.js";
import { newId } from "../journal/id.js";
import { say } from "../words/words.js";

export class RigPage {
  /** @type {Record<string, any>} */ #at = {};
  /** @type {Form|null} */ #form = null;
  /** @type {import("../parts/rig.js").Rig|null} */ #rig = null;
  #id = "";
  #draft = "";

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  /** @param {Record<string, string>} params */
  async start({ id }) {
    const root = clone("page-rig");
    this.#at = refs(root);
    this.element.append(root);
    this.#draft = `rig.${id}`;
    onActions(root, { save: () => this.#save() });
    const { views } = await this.deps.journal.paint(["rigs"]);
    this.#rig = rigsOf(views.rigs).find((r) => r.id === id) ?? null;
    this.#id = this.#rig ? id : newId();
    const all = await this.deps.asset("gen/calculators.json");
    const plan = all.find((/** @type {any} */ c) => c.name === "cut-plan");
    const values = { ...this.#rig?.fields, ...this.deps.drafts.of(this.#draft) };
    this.#at.name.value = values.name ?? "";
    this.#at.name.addEventListener("input", () => this.#keep());
    this.#form = new Form(withPressure(plan.fields.filter((/** @type {any} */ f) => rigKeys.includes(f.key))), {
      pad: this.deps.pad, chooser: this.deps.chooser, units: () => this.deps.settings.values.units,
      read: (key, text) => this.deps.call("read-value", { calculator: "cut-plan", field: key, text, units: this.deps.settings.values.units }),
    }, { values: onForm(values), changed: () => this.#keep() });
    this.#at.form.append(this.#form.element);
    this.#showAlso();
    await this.#check();
  }

  stop() {}

  // Private

  get #values() {
    /** @type {Record<string, string>} */
    const values = forPlan(this.#form?.asked ?? {});
    const name = this.#at.name.value.trim();
    if (name) values.name = name;
    return values;
  }

  #showAlso() {
    const also = this.#rig?.also ?? [];
    this.#at.also.hidden = also.length === 0;
    this.#at.also.replaceChildren(make("span", { text: say("rig.also", { what: also.map((a) => `${a.field}: ${a.value}`).join(", ") }) }));
  }

  #keep() {
    this.deps.drafts.keep(this.#draft, this.#values);
    this.#check();
  }

  /** Runs the plan on a thin plate, to hear what it says of the rig. @returns {Promise<boolean>} */
  async #check() {
    const { name, ...fields } = this.#values;
    try {
      await this.deps.calculate("cut-plan", { ...fields, metal: "mild-steel", thickness: "1mm" });
      this.#wrong(null);
      return true;
    } catch (problem) {
      const all = [problem, .../** @type {any} */ (problem).also ?? []].filter((p) => rigKeys.includes(p.field));
      this.#wrong(all.length ? { ...all[0], also: all.slice(1) } : null);
      return all.length === 0;
    }
  }

  /** @param {any} problem */
  #wrong(problem) {
    const rest = this.#form?.wrong(problem) ?? [];
    const first = rest[0] ?? (problem?.kind === "missing" ? problem : null);
    this.#at.wrong.hidden = !first;
    this.#at.wrong.replaceChildren(...(first ? [first.msg, make("span", { text: first.hint ?? "" })] : []));
  }

  async #save() {
    const named = Boolean(this.#values.name);
    this.#at.nameWrong.hidden = named;
    this.#at.nameWrong.textContent = named ? "" : say("rig.name.missing");
    if (!(await this.#check()) || !named) return;
    const before = this.#rig?.fields ?? {};
    const values = this.#values;
    /** @type {Record<string, string|null>} */
    const body = {};
    for (const key of ["name", ...rigKeys]) {
      if (values[key] !== undefined && values[key] !== before[key]) body[key] = values[key];
      else if (values[key] === undefined && before[key] !== undefined) body[key] = null;
    }
    try {
      const over = Object.keys(body).map((k) => this.#rig?.by?.[k]).find(Boolean);
      if (Object.keys(body).length) await this.deps.journal.tap({ kind: "rig.set", about: this.#id, body, ...(over ? { over } : {}) });
      this.deps.drafts.drop(this.#draft);
      this.deps.settings.set({ rig: this.#id });
      this.deps.toasts.show(say("rig.saved"));
      this.deps.go("/ready");
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {any} */ (trouble));
    }
  }
}
