// @ts-check
/**
 * One field of a form, made from its declaration. It shows a value and what is
 * wrong with it, and tells "field:change" {key, value} when it was changed.
 */
import { clone, emit, make, refs, wrongWords } from "./dom.js";
import { Radios } from "./radios.js";
import { say } from "../words/words.js";

/**
 * As in gen/calculators.json; empty is what stands in it while nothing does; from says where
 * what it begins with was taken from; open: its common values stand below it, a tap each.
 * @typedef {Omit<import("../types/calc.js").FieldDescription, "allowed"> & {empty?: string, from?: string, open?: boolean}} Declared
 *
 * @typedef {object} FieldDeps
 * @property {Pick<import("./pad.js").Pad, "ask">} pad
 * @property {Pick<import("./chooser.js").Chooser, "ask">} chooser
 * @property {() => "metric"|"us"} units
 * @property {Pick<import("./toasts.js").Toasts, "show">} [toasts]  for Undo
 * @property {(key: string, text: string) => Promise<{text: string, also?: string}|null>} read
 */

/** How many there are, for the ids of their errors. */
let made = 0;

/** Choices up to this many stand as buttons, more in a list of their own. */
const fewChoices = 4;

export class Field {
  #value = "";
  #touched = false;
  /** @type {import("./dom.js").Refs} */ #at;
  /** Of few choices. @type {Radios|null} */ #radios = null;

  /** @param {Declared} declared @param {FieldDeps} deps */
  constructor(declared, deps) {
    this.declared = declared;
    this.deps = deps;
    this.element = clone("part-field");
    this.element.dataset.key = declared.key;
    this.#at = refs(this.element);
    const help = [declared.help && `${declared.help.replace(/\.$/, "")}.`, declared.basis && declared.default && !declared.open ? say("field.basis", { value: this.usual, basis: declared.basis }) : ""].filter(Boolean).join(" ");
    this.#at.help.textContent = help;
    this.#at.help.hidden = !help;
    this.#at.wrong.id = `wrong-${++made}`;
    this.#draw();
  }

  get value() {
    return this.#value;
  }

  /** Puts a stored value in, unless somebody has entered one here: that stands. @param {string} text  "" for the default */
  fill(text) {
    if (this.#touched) return;
    this.#value = text;
    this.#draw();
  }

  /** What holds: entered or default. */
  get effective() {
    return this.#value || this.declared.default || "";
  }

  /** What holds, as a row of a list reads it: "35 % at 45 A"; "" for nothing. */
  get said() {
    const { kind, choices = [], right } = this.declared;
    if (kind === "choice") return choices.find((c) => c.word === this.effective)?.label ?? "";
    if (kind === "yes-no") return this.effective && say(/* yes | no */ this.effective);
    if (kind !== "pairs" || !right) return spaced(this.#value);
    return this.pairs.map(([left, other]) => right.row.replace("{left}", spaced(left)).replace("{right}", spaced(other) || (right.known ?? ""))).join(", ");
  }

  /** The default, as it is shown. */
  get usual() {
    return this.declared.usual?.[this.deps.units()] ?? this.declared.default ?? "";
  }

  /** @param {{msg: string, hint?: string}|null|undefined} problem @param {unknown[]} [_]  of rows, which it has none of */
  wrong(problem, _) {
    this.#at.wrong.hidden = !problem;
    this.#at.wrong.replaceChildren(...wrongWords(problem));
    this.element.toggleAttribute("data-wrong", Boolean(problem));
  }

  // Private

  #draw() {
    const { label, optional, from } = this.declared;
    this.#at.label.textContent = label + (optional ? say("field.optional") : "") + (from && this.#value && !this.#touched ? ` · ${from}` : "");
    const { kind, choices = [] } = this.declared;
    const few = kind === "yes-no" || (kind === "choice" && choices.length <= fewChoices);
    if (few) this.#drawFew(kind === "yes-no" ? [{ word: "yes", label: say("yes") }, { word: "no", label: say("no") }] : choices);
    else if (kind === "choice") this.#drawButton(choices.find((c) => c.word === this.effective)?.label ?? "", () => this.#choose());
    else if (kind === "text") this.#drawText();
    else if (kind === "pairs") this.#drawPairs();
    else if (this.declared.open && this.chips.length) this.#drawChips();
    else this.#drawButton(this.#value || this.usual, () => this.enter(), this.#value === "" && this.effective !== "" ? say("field.default") : "");
    this.#at.control.querySelector("button, input, [role=radiogroup]")?.setAttribute("aria-describedby", this.#at.wrong.id);
  }

  /** @param {{word: string, label: string}[]} options */
  #drawFew(options) {
    if (!this.#radios) {
      this.#radios = new Radios({ label: this.declared.label, options, pick: (word) => this.set(word) });
      this.#at.control.replaceChildren(this.#radios.element);
    }
    this.#radios.value = this.effective;
  }

  /** @param {string} text @param {() => void} act @param {string} [note] */
  #drawButton(text, act, note = "") {
    const shown = spaced(text) || this.declared.empty || say("field.empty");
    const button = make("button", { class: "field__value", type: "button", onclick: act },
      make("span", { class: "unseen", text: `${this.declared.label}: ` }), make("span", { text: shown }), note ? make("small", { text: note }) : null);
    this.#at.control.replaceChildren(button);
  }

  /** Common values, what stands there among them, and any other. */
  #drawChips() {
    const now = this.effective;
    const all = now && !this.chips.includes(now) ? [...this.chips, now] : this.chips;
    const other = make("button", { class: "chip", type: "button", text: "…", "aria-label": `${this.declared.label}: ${say("ask.other")}`, onclick: () => this.enter() });
    const isOn = this.#at.control.contains(document.activeElement);
    this.#at.control.replaceChildren(make("div", { class: "chips", role: "group", "aria-label": this.declared.label },
      ...all.map((text) => make("button", { class: "chip", type: "button", text: spaced(text), "aria-pressed": String(text === now), onclick: () => this.set(text) })), other));
    if (isOn) /** @type {HTMLElement} */ (this.#at.control.querySelector("[aria-pressed=true]") ?? other).focus({ preventScroll: true }); // what the keys were on is drawn anew
  }

  #drawText() {
    const old = /** @type {HTMLInputElement|null} */ (this.#at.control.querySelector("input"));
    if (old) {
      if (old.value !== this.#value) old.value = this.#value;
      return;
    }
    const input = make("input", { class: "field__text", type: "text", value: this.#value, placeholder: this.declared.default ?? "", "aria-label": this.declared.label, autocomplete: "off" });
    input.addEventListener("input", () => {
      this.#touched = true;
      this.#value = input.value;
      emit(this.element, "field:change", { key: this.declared.key, value: input.value });
    });
    const chips = this.chips.map((c) => make("button", { class: "chip", type: "button", text: c, onclick: () => this.set(c) }));
    this.#at.control.className = "stack";
    this.#at.control.replaceChildren(input, ...(chips.length ? [make("div", { class: "chips" }, ...chips)] : []));
  }

  #drawPairs() {
    const rows = this.pairs.map((pair, i) => make("div", { class: "pairs" }, this.#half(pair, i, 0), this.#half(pair, i, 1),
      make("button", { class: "button", type: "button", text: "×", "aria-label": say("field.drop", { value: pair.map(spaced).join(" ") }), onclick: () => this.setPairs(this.pairs.filter((_, j) => j !== i)) })));
    this.#at.control.className = "stack";
    this.#at.control.replaceChildren(...rows, make("button", { class: "button", type: "button", text: say("field.add"), onclick: () => this.#addPair() }));
  }

  /** The pairs that hold now; others may have come while the pad was open. */
  get pairs() {
    return splitPairs(this.effective);
  }

  /** @param {string[]} pair @param {number} i @param {0|1} half */
  #half(pair, i, half) {
    const { right } = this.declared;
    const text = spaced(pair[half]) || (right?.known ?? "");
    const name = half ? right?.right : right?.left;
    return make("button", {
      class: "field__value", type: "button", "aria-label": `${this.#titleOf(i, half)}: ${text}`,
      onclick: async () => {
        const answer = await this.#askHalf(i, half, pair[half]);
        if (answer !== null && (answer || (half && right?.known))) this.setPairs(this.pairs.map((p, j) => (j === i ? p.map((old, k) => (k === half ? answer : old)) : p)));
      },
    }, make("span", {}, make("small", { text: `${name} ` }), text));
  }

  /** "Tip 1: bore". @param {number} i @param {0|1} half */
  #titleOf(i, half) {
    const { right } = this.declared;
    return say("field.half", { name: right?.name ?? "", n: i + 1, half: (half ? right?.right : right?.left) ?? "" });
  }

  /** @param {number} i @param {0|1} half @param {string} [value] */
  #askHalf(i, half, value) {
    const { bare, us, right } = this.declared;
    return this.deps.pad.ask({ label: this.#titleOf(i, half), value, ...(half ? { units: this.#order(right?.bare, right?.us), chips: right?.rightChips } : { units: this.#order(bare, us), chips: right?.leftChips }) });
  }

  async #addPair() {
    const i = this.pairs.length;
    const left = await this.#askHalf(i, 0);
    if (!left) return;
    const right = await this.#askHalf(i, 1);
    if (right || (right !== null && this.declared.right?.known)) this.setPairs([...this.pairs, [left, right]]);
  }

  /** A comma parts pairs, so that a decimal one becomes a point. @param {string[][]} pairs */
  setPairs(pairs) {
    this.set(pairs.map((p) => p.filter(Boolean).join(":").replaceAll(",", ".")).join(","));
  }

  /** The device's own unit first. @param {string} [bare] @param {string} [us] */
  #order(bare = "", us = "") {
    const both = this.deps.units() === "us" ? [us, bare] : [bare, us];
    return [...new Set(both.filter(Boolean))];
  }

  /** Common values of the device's own units. */
  get chips() {
    const { chips, chips_us: us } = this.declared;
    return (this.deps.units() === "us" && us) || (chips ?? []);
  }

  /** Asks for a number on the pad; says whether one was entered. */
  async enter() {
    const { key, label, bare, us, gauge, kind } = this.declared;
    const text = await this.deps.pad.ask({
      label, value: this.effective, units: kind === "number" ? this.#order(bare, us) : [], gauge, chips: this.chips,
      read: (value) => this.deps.read(key, value),
    });
    if (text !== null) this.set(text);
    return text !== null;
  }

  async #choose() {
    const word = await this.deps.chooser.ask({ label: this.declared.label, options: this.declared.choices ?? [], value: this.effective });
    if (word !== null) this.set(word);
  }

  /** Enters a text. @param {string} text */
  set(text) {
    this.#touched = true;
    this.#value = text;
    this.#draw();
    emit(this.element, "field:change", { key: this.declared.key, value: text });
  }
}

/** Parts a number from its unit, as it is read: 6mm is shown as 6 mm. @param {string} text */
export function spaced(text) {
  return text.replace(/([\d½¼¾⅛⅜⅝⅞])(?=[a-zA-Zµ°%"'])/g, "$1\u00a0");
}

/** @param {string} text @returns {string[][]} */
function splitPairs(text) {
  if (!text) return [];
  return text.split(text.includes(";") ? ";" : ",").map((entry) => {
    const [left = "", right = ""] = entry.split(":");
    return [left.trim(), right.trim()];
  });
}
