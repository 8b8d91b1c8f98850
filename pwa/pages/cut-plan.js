// @ts-check
/**
 * The plan that Ready handed on, as Cut shows it: what to set, what the site is short of, how long to cut and
 * to wait. Stored are values; their texts are asked for in the units of now. Until the sums have told them the
 * last ones stand, each in its own unit.
 */
import { afterPaint, setText } from "../parts/dom.js";
import { QuantityTexts } from "../parts/quantity-texts.js";
import { say, sayKnown } from "../words/words.js";

/** @typedef {import("../types/calc.js").Value} Value */
/** @typedef {"current"|"pressure"|"speed"|"pace"} Setting */

/** What is shown of a plan, in this order. @type {Setting[]} */
const settings = ["current", "pressure", "speed", "pace"];
/** Verdicts of the site that Cut says a word about. */
const told = ["fails", "doubt", "tight", "unknown"];

export class CutPlan {
  /** @type {QuantityTexts} */ #texts;

  /** @param {Pick<import("../app.js").Deps, "call"|"settings"|"today">} deps */
  constructor(deps) {
    this.today = deps.today;
    this.#texts = new QuantityTexts({ call: deps.call, units: () => deps.settings.values.units });
  }

  /** The text of a setting; "" where the plan has none. @param {Setting} key */
  text(key) {
    const value = this.today.begun.results?.[key] ?? "";
    if (typeof value !== "object") return value;
    return typeof value.value === "number" && key !== "current" ? this.#texts.say(value.value, key, value.unit, "", value.text) : value.text;
  }

  /** @param {import("../parts/dom.js").Refs} at */
  paint(at) {
    const { results, day } = this.today.begun;
    if (at.job.hidden) setText(at.plan, settings.map((key) => this.text(key).replaceAll(" ", "\u00a0")).filter(Boolean).join(" · "));
    setText(at.site, day?.binding && told.includes(day.verdict) ? say(`cut.site.${day.verdict}`, { what: sayKnown(`cut.limit.${day.binding}`) }) : "");
    const { arc_on: on, arc_rest: rest } = day ?? {};
    at.duty.hidden = !on || !rest;
    if (on && rest) setText(at.duty, rest.value ? say("cut.duty", { on: on.text, rest: rest.text }) : say("cut.duty.all"));
    return results?.standing ?? "";
  }

  /** Asks for the texts in the units of now, when what stands is drawn; says whether that told anything new. */
  async learn() {
    if (!this.today.begun.results) return false;
    await afterPaint();
    return this.#texts.learn();
  }
}
