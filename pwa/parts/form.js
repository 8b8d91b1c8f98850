// @ts-check
/**
 * The fields of one calculator, or some of them. It keeps its draft, hides
 * fields that do not apply, and shows each problem beside its field.
 */
import { Field } from "./field.js";
import { ListField } from "./list-field.js";
import { make } from "./dom.js";
import { say } from "../words/words.js";

/** @typedef {import("./field.js").Declared} Declared */
/** @typedef {import("./field.js").FieldDeps} FieldDeps */
/** @typedef {import("../calc/trouble.js").Trouble} Trouble */

export class Form {
  /** @type {Map<string, Field>} */ fields = new Map();

  /**
   * @param {Declared[]} declared
   * @param {FieldDeps} deps
   * @param {{values?: Record<string, string>, changed: (values: Record<string, string>) => void}} options
   */
  constructor(declared, deps, { values = {}, changed }) {
    this.element = make("div", { class: "stack" });
    const fine = make("div", { class: "stack" });
    const heard = () => {
      this.#showAsked();
      changed(this.values);
    };
    for (const d of declared) {
      const field = d.kind === "list" ? /** @type {Field} */ (/** @type {unknown} */ (new ListField(d, deps, (...of) => new Form(...of)))) : new Field(d, deps); // all that forms ask of one, a list has as well
      if (values[d.key]) field.fill(values[d.key]);
      this.fields.set(d.key, field);
      field.element.addEventListener("field:change", heard); // of each, for a page may show one elsewhere
      (d.fine ? fine : this.element).append(field.element);
    }
    /** The fine fields, folded away; nothing if there are none. */
    this.fold = fine.firstChild ? make("details", { class: "fold" }, make("summary", { text: say("form.fine") }), fine) : "";
    this.element.append(this.fold);
    this.#showAsked();
  }

  /** What was entered, by key; empty fields are left out. */
  get values() {
    /** @type {Record<string, string>} */
    const values = {};
    for (const [key, field] of this.fields) if (field.value !== "") values[key] = field.value;
    return values;
  }

  /** What applies now: entered values of fields that are asked. */
  get asked() {
    return Object.fromEntries(Object.entries(this.values).filter(([key]) => !this.fields.get(key)?.element.hidden));
  }

  /** Puts what has to be entered yet before all that is known, with what hangs on it; says whether there is any. */
  missingFirst() {
    /** @type {(field: Field|undefined) => boolean} */
    const isOpen = (field) => Boolean(field) && ((!field?.element.hidden && !field?.declared.optional && !field?.effective) || isOpen(this.fields.get(field?.declared.only?.key ?? "")));
    const open = [...this.fields.values()].filter(isOpen);
    this.element.prepend(...open.map((field) => field.element));
    return open.some((field) => !field.element.hidden);
  }

  /** Puts stored values in where nothing was entered. @param {Record<string, string>} values */
  fill(values) {
    for (const [key, field] of this.fields) if (key in values) field.fill(values[key]);
    this.#showAsked();
  }

  /**
   * Shows a problem and its companions beside their fields. Returns those that
   * belong to no field here.
   * @param {Trouble|null} problem
   * @returns {Trouble[]}
   */
  wrong(problem) {
    const all = problem ? [problem, ...(problem.also ?? [])] : [];
    for (const [key, field] of this.fields) {
      const own = all.find((p) => p.field === key || (key === "pressure_points" && p.field === "pressure"));
      // What is merely not entered yet is no fault; the empty field says it.
      field.wrong(own && own.kind === "missing" ? null : own, all.filter((p) => p.field?.startsWith(`${key}.`)));
      if (own && own.kind !== "missing") field.element.closest("details")?.setAttribute("open", "");
    }
    return all.filter((p) => this.fields.get(p.field?.split(".")[0] ?? "")?.element.hidden ?? true); // of a list: cuts.2.thickness
  }

  // Private

  #showAsked() {
    for (const field of this.fields.values()) {
      const only = field.declared.only;
      field.element.hidden = Boolean(only && this.fields.has(only.key) && !only.words.includes(this.fields.get(only.key)?.effective ?? ""));
    }
  }
}
