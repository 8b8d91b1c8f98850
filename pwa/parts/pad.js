// @ts-check
/**
 * The number pad: big keys instead of the system's keyboard, with units,
 * fractions and gauges. What is typed shows large at once, in both systems.
 *
 *   const text = await pad.ask({ label: "Metal thickness", value: "6mm", units: ["mm", "in"], gauge: true });
 *
 * resolves with the text as a person would write it ("1/4in"), or null if the
 * pad was left. read, if given, says what a text means or rejects with a
 * problem that is shown beside it; without it (the sums have not started yet)
 * any text is taken.
 */
import { Asking } from "./asking.js";
import { make, onActions, wrongWords } from "./dom.js";
import { say } from "../words/words.js";

/**
 * @typedef {object} Question
 * @property {string} label
 * @property {string} [value]     what stands there now
 * @property {string[]} [units]   units to offer, the usual one first; none for a plain number
 * @property {boolean} [gauge]    offer sheet gauge as a unit
 * @property {string[]} [chips]   common values
 * @property {(text: string) => Promise<{text: string, also?: string}|null>} [read]
 */

/** Steps of the − and + keys by unit; inches go by sixteenths. */
const steps = /** @type {Record<string, number>} */ ({ mm: 0.5, A: 1, psi: 1, bar: 0.1, "°": 5, ga: 1, m: 0.5, ft: 1, V: 1, "%": 1 });

const keys = ["7", "8", "9", "back", "4", "5", "6", "/", "1", "2", "3", "-", "0", ".", "less", "more"];

export class Pad extends Asking {
  /** @type {Question} */ #question = { label: "" };
  #number = "";
  #unit = "";
  #fresh = true; // the first key replaces what stood there
  /** @type {symbol|null} */ #job = null;

  constructor() {
    super("part-pad");
    onActions(this.dialog, { leave: () => this.close(null), done: () => this.#done() });
    this.dialog.addEventListener("keydown", (event) => this.#typed(event));
    for (const key of keys) this.at.keys.append(this.#key(key));
  }

  /** @param {Question} question @returns {Promise<string|null>} */
  ask(question) {
    this.#question = question;
    this.at.label.textContent = question.label;
    this.#split(question.value ?? "");
    this.#fresh = true;
    const units = this.#units();
    if (!units.includes(this.#unit) && this.#unit) units.push(this.#unit);
    this.at.units.replaceChildren(...units.map((u) => this.#unitKey(u)));
    this.at.units.hidden = units.length === 0;
    this.at.chips.replaceChildren(...(question.chips ?? []).map((c) => make("button", { class: "chip", type: "button", text: c, onclick: () => (this.#split(c), this.#done()) })));
    this.#show();
    return this.open();
  }

  // Private

  #units() {
    return [...(this.#question.units ?? []), ...(this.#question.gauge ? ["ga"] : [])];
  }

  /** Parts a text such as 1-1/2in into number and unit; a unit that is not offered stays what it is, as in 3m. @param {string} text */
  #split(text) {
    const match = /^\s*([-−]?[\d.,/\s-]*)(.*)$/.exec(text);
    this.#number = (match?.[1] ?? "").trim();
    const unit = (match?.[2] ?? "").trim();
    this.#unit = this.#units().includes(unit) ? unit : (this.#units().find((u) => u.toLowerCase() === unit.toLowerCase()) ?? (unit || (this.#units()[0] ?? "")));
  }

  /** @param {string} name */
  #key(name) {
    const label = say(`pad.key.${name}`);
    const el = make("button", { class: "pad__key", type: "button", text: label, "aria-label": say(`pad.say.${name}`) });
    if (name === "less" || name === "more") return this.#holdable(el, name === "more" ? 1 : -1);
    el.addEventListener("click", () => this.#press(name));
    return el;
  }

  /** A stepper that speeds up while it is held. @param {HTMLButtonElement} el @param {number} sign */
  #holdable(el, sign) {
    let pause = 0;
    /** @type {ReturnType<typeof setTimeout>|undefined} */
    let timer;
    const stop = () => clearTimeout(timer);
    const step = () => {
      this.#step(sign);
      pause = Math.max(60, pause * 0.8);
      timer = setTimeout(step, pause);
    };
    el.addEventListener("pointerdown", () => {
      pause = 400;
      timer = setTimeout(step, pause);
    });
    for (const type of ["pointerup", "pointercancel", "pointerleave"]) el.addEventListener(type, stop);
    el.addEventListener("click", () => this.#step(sign));
    return el;
  }

  /** @param {string} unit */
  #unitKey(unit) {
    return make("button", {
      class: "chip", type: "button", text: unit === "ga" ? say("pad.gauge") : unit, "data-unit": unit,
      onclick: () => {
        this.#unit = unit;
        this.#show();
      },
    });
  }

  /** @param {string} name */
  #press(name) {
    if (name === "back") {
      this.#number = this.#fresh ? "" : this.#number.slice(0, -1);
    } else {
      this.#number = (this.#fresh ? "" : this.#number) + name;
    }
    this.#fresh = false;
    this.#show();
  }

  /** @param {number} sign */
  #step(sign) {
    this.#number = this.#unit === "in" ? stepSixteenths(this.#number, sign) : stepDecimal(this.#number, sign * (steps[this.#unit] ?? 1));
    this.#fresh = true;
    this.#show();
  }

  /** @param {KeyboardEvent} event */
  #typed(event) {
    if (event.key === "Enter") this.#done();
    else if (event.key === "Backspace") this.#press("back");
    else if (/^[\d.,/-]$/.test(event.key)) this.#press(event.key);
    else return;
    event.preventDefault();
  }

  #text() {
    return this.#number === "" ? "" : this.#number + this.#unit;
  }

  async #show() {
    const text = this.#text();
    this.at.value.textContent = this.#number === "" ? "–" : `${this.#number} ${this.#unit}`;
    for (const el of /** @type {Iterable<HTMLElement>} */ (/** @type {unknown} */ (this.at.units.children))) el.setAttribute("aria-pressed", String(el.dataset.unit === this.#unit));
    const job = (this.#job = Symbol());
    this.#wrong(null);
    if (text === "" || !this.#question.read) {
      this.at.also.textContent = "";
      return;
    }
    try {
      const value = await this.#question.read(text);
      if (job === this.#job) this.at.also.textContent = value ? [value.text, value.also].filter(Boolean).join("  =  ") : "";
    } catch (err) {
      if (job !== this.#job) return;
      this.at.also.textContent = "";
      this.#wrong(/** @type {import("../calc/trouble.js").Trouble} */ (err));
    }
  }

  /** @param {{msg: string, hint?: string}|null} problem */
  #wrong(problem) {
    this.at.wrong.hidden = !problem;
    this.at.also.hidden = Boolean(problem);
    this.at.chips.hidden = Boolean(problem) || !this.#question.chips?.length;
    this.at.wrong.replaceChildren(...wrongWords(problem));
  }

  #done() {
    this.close(this.#text());
  }
}

/** @param {string} number @param {number} step */
function stepDecimal(number, step) {
  const now = Number(number.replace(",", ".")) || 0;
  const next = Math.max(0, now + step);
  return String(Math.round(next * 1000) / 1000);
}

/** Moves to the next sixteenth of an inch and writes it as a rule does. @param {string} number @param {number} sign */
function stepSixteenths(number, sign) {
  const match = /^(?:(\d+)[-\s])?(\d+)\/(\d+)$/.exec(number.trim());
  const now = match ? Number(match[1] ?? 0) + Number(match[2]) / Number(match[3]) : Number(number.replace(",", ".")) || 0;
  const sixteenths = Math.max(0, sign > 0 ? Math.floor(now * 16 + 1e-6) + 1 : Math.ceil(now * 16 - 1e-6) - 1);
  const whole = Math.floor(sixteenths / 16);
  let top = sixteenths % 16;
  let bottom = 16;
  while (top > 0 && top % 2 === 0) (top /= 2), (bottom /= 2);
  if (top === 0) return String(whole);
  return whole === 0 ? `${top}/${bottom}` : `${whole}-${top}/${bottom}`;
}
