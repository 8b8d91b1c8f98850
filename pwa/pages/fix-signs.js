// @ts-check
/**
 * The signs to pick from: what is seen, with a picture each, then, folded, what else is so.
 * After a cause was mended and helped in part, those that were picked, to let go of what is gone.
 */
import { caution, make, setText } from "../parts/dom.js";
import { signPicture } from "../draw/signs.js";
import { say } from "../words/words.js";

/** @typedef {import("../types/server.js").Assets["gen/faults.json"]} Faults */

export class FixSigns {
  /** Signs to let go of, null while they are picked. @type {string[]|null} */ #left = null;
  /** @type {Map<string, Faults["signs"][number]>} */ #signs;

  /** @param {import("../parts/dom.js").Refs} at  what carries data-ref @param {Faults} faults */
  constructor(at, faults) {
    this.at = at;
    this.faults = faults;
    this.#signs = new Map(faults.signs.map((s) => [s.key, s]));
  }

  /** @param {string[]} picked @param {string[]|null} left  signs to let go of */
  draw(picked, left) {
    this.#left = left;
    const { at } = this;
    const ofFacts = (/** @type {Faults["groups"][number]} */ g) => g.signs.every(this.#isFact);
    const groups = this.faults.groups.filter((g) => !ofFacts(g));
    const facts = this.faults.groups.filter(ofFacts).flatMap((g) => g.signs);
    at.title.textContent = say(left ? "fix.still" : "fix.see");
    at.several.textContent = say(left ? "fix.letgo" : "fix.several");
    const sections = groups.map((g) => make("section", { class: "stack" }, make("h3", { text: g.label }), this.#grid(g.signs)));
    at.groups.replaceChildren(...(left ? [this.#grid(left)] : [...sections.slice(0, -1), at.facts, ...sections.slice(-1)])); // before what is no fault
    at.facts.hidden = Boolean(left) || facts.length === 0;
    at.fact.replaceChildren(this.#grid(left ? [] : facts));
    at.unhelp.hidden = !left;
    at.go.dataset.action = left ? "left" : "think";
    this.mark(picked);
  }

  /** Shows what is picked, and at once what a sign just pressed asks for. @param {string[]} picked @param {string} [pressed] */
  mark(picked, pressed = "") {
    const { at } = this;
    for (const el of /** @type {NodeListOf<HTMLElement>} */ (at.look.querySelectorAll("[data-sign]"))) el.setAttribute("aria-pressed", String(picked.includes(String(el.dataset.sign))));
    const facts = picked.filter(this.#isFact).length;
    setText(at.so, say(facts ? "fix.facts.n" : "fix.facts", { n: facts }));
    /** @type {{stop?: string, now?: any}} now: a text where there is no stop */
    const { stop, now } = (picked.includes(pressed) && this.#signs.get(pressed)) || {};
    at.warned.replaceChildren(...(stop || now ? [caution(stop ?? now, Boolean(stop))] : []));
    const seen = facts < picked.length;
    at.more.hidden = this.#left !== null || seen || facts === 0;
    at.go.hidden = this.#left === null && !seen;
    const n = picked.length;
    setText(at.go, this.#left ? say(seen ? "fix.on" : "fix.all", { n }) : say(n === 1 ? "fix.go.one" : "fix.go", { n }));
  }

  // Private

  /** @param {string} key */
  #isFact = (key) => Boolean(this.#signs.get(key)?.fact);

  /** @param {string[]} keys */
  #grid(keys) {
    return make("div", { class: "grid" }, ...keys.map((key) => this.#button(key)));
  }

  /** @param {string} key */
  #button(key) {
    const { stop = "", fact = false, label = key } = this.#signs.get(key) ?? {};
    return make("button", { class: `button ${fact ? "fix-fact" : "fix-sign"}${stop ? " button--stop" : ""}`, type: "button", "data-action": "sign", "data-sign": key }, signPicture(key), make("span", { text: label }));
  }
}
