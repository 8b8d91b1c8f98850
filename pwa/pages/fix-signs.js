// @ts-check
/**
 * The signs to pick from: six everyday groups and what can hurt; then the signs of a group, what else
 * is so, or all of them. What was picked elsewhere stands on top. After a cause was mended and helped
 * in part, those that were picked, to let go of what is gone.
 */
import { caution, make, setText } from "../parts/dom.js";
import { signPicture } from "../draw/signs.js";
import { say } from "../words/words.js";

/** @typedef {import("../types/server.js").Assets["gen/faults.json"]} Faults */
/** @typedef {Faults["groups"][number]} Group */

export class FixSigns {
  /** Signs to let go of, null while they are picked. @type {string[]|null} */ #left = null;
  /** @type {Map<string, Faults["signs"][number]>} */ #signs;

  /** @param {import("../parts/dom.js").Refs} at  what carries data-ref @param {Faults} faults */
  constructor(at, faults) {
    this.at = at;
    this.faults = faults;
    this.#signs = new Map(faults.signs.map((s) => [s.key, s]));
  }

  /**
   * @param {string[]} picked
   * @param {string[]|null} left  signs to let go of
   * @param {string} [open]  the group to pick from, "facts" or "all"; "" the groups
   */
  draw(picked, left, open = "") {
    this.#left = left;
    const { at } = this;
    const { groups } = this.faults;
    const group = groups.find((g) => g.key === open);
    const facts = groups.filter(this.#isOfFacts);
    const shown = group ? [group] : open === "facts" ? facts : open ? groups : [];
    const isHere = (/** @type {string} */ key) => shown.some((g) => g.signs.includes(key));
    at.title.textContent = left ? say("fix.still") : group?.label ?? say(open === "facts" ? "fix.facts" : "fix.see");
    at.several.textContent = say(left ? "fix.letgo" : "fix.several");
    at.several.hidden = !left && !open;
    at.picked.replaceChildren(...(left ? [] : picked.filter((key) => !isHere(key))).map((key) => this.#button(key)));
    at.groups.replaceChildren(...(left ? [this.#grid(left)] : group ? [this.#grid(group.signs)] : shown.length ? shown.map((g) => this.#section(g)) : this.#tiles()));
    at.groups[open ? "before" : "after"](at.turn); // above the signs of a group, where nothing that opens moves it
    for (const [ref, to] of /** @type {const} */ ([["fewer", ""], ["facts", "facts"], ["every", "all"]])) at[ref].hidden = Boolean(left) || open === to;
    at.every.hidden ||= Boolean(open);
    at.unhelp.hidden = !left;
    at.go.dataset.action = left ? "left" : "think";
    this.mark(picked);
  }

  /**
   * Shows what is picked, and below each sign here what it asks for at once. Returns what a sign just pressed asks for.
   * @param {string[]} picked @param {string} [pressed]
   */
  mark(picked, pressed = "") {
    const { at } = this;
    let told = null;
    for (const el of at.look.querySelectorAll(".caution")) el.remove();
    for (const el of /** @type {NodeListOf<HTMLElement>} */ (at.look.querySelectorAll("[data-sign]"))) {
      const key = String(el.dataset.sign);
      const isPicked = picked.includes(key);
      el.setAttribute("aria-pressed", String(isPicked));
      /** @type {{stop?: string, now?: any}} now: a text where there is no stop */
      const { stop, now } = (isPicked && this.#signs.get(key)) || {};
      if (!stop && !now) continue;
      const words = caution(stop ?? now, Boolean(stop));
      el.after(words);
      if (key !== pressed) continue;
      words.setAttribute("role", "alert");
      told = words;
    }
    const facts = picked.filter(this.#isFact).length;
    setText(at.facts, say(facts ? "fix.facts.n" : "fix.facts", { n: facts }));
    const seen = facts < picked.length;
    at.more.hidden = this.#left !== null || seen || facts === 0;
    at.go.hidden = this.#left === null && !seen;
    const n = picked.length;
    setText(at.go, this.#left ? say(seen ? "fix.on" : "fix.all", { n }) : say("fix.go", { n }));
    return told;
  }

  // Private

  /** @param {string} key */
  #isFact = (key) => Boolean(this.#signs.get(key)?.fact);

  /** @param {Group} group */
  #isOfFacts = (group) => group.signs.every(this.#isFact);

  /** What can hurt, across; then the groups for any day. */
  #tiles() {
    const tiles = this.faults.groups.filter((g) => !this.#isOfFacts(g)).map(({ key, label, picture, signs }) => {
      const isStop = signs.every((sign) => this.#signs.get(sign)?.stop);
      return make("button", { class: `button fix-group${isStop ? " button--stop" : ""}`, type: "button", "data-action": "group", "data-key": key }, isStop ? null : signPicture(this.faults.pictures[picture]), make("span", { text: label }));
    });
    return [make("div", { class: "fix-grid" }, ...tiles)];
  }

  /** @param {Group} group */
  #section({ label, signs }) {
    return make("section", { class: "stack" }, make("h3", { text: label }), this.#grid(signs));
  }

  /** @param {string[]} keys */
  #grid(keys) {
    return make("div", { class: "fix-grid" }, ...keys.map((key) => this.#button(key)));
  }

  /** @param {string} key */
  #button(key) {
    const { stop = "", fact = false, label = key } = this.#signs.get(key) ?? {};
    return make("button", { class: `button ${fact ? "fix-fact" : "fix-sign"}${stop ? " button--stop" : ""}`, type: "button", "data-action": "sign", "data-sign": key }, signPicture(this.faults.pictures[key]), make("span", { text: label }));
  }
}
