// @ts-check
/**
 * Numbers in the reader's units, for drawings and readings that cannot wait for
 * the sums. What is not known yet is shown in the unit it came in and asked
 * for, so that drawing once more says it:
 *
 *   const words = { ...english, length: (mm, sort) => quantityTexts.say(mm, "length", "mm", sort) };
 *   draw(words);
 *   if (await quantityTexts.learn()) draw(words);
 */

import { own } from "../words/words.js";

/** The units in which a reader sees a quantity; others keep the unit they came in. @type {Record<string, {bare: string, us: string}>} */
export const shownIn = { length: { bare: "mm", us: "in" }, pressure: { bare: "bar", us: "psi" }, speed: { bare: "mm/min", us: "in/min" }, pace: { bare: "s per 100 mm", us: "s per 4 in" } };

export class QuantityTexts {
  /** @type {Map<string, string>} */ #known = new Map();
  /** @type {Map<string, {quantity: string, unit: string, sort: string, values: Set<number>}>} what to ask for, by quantity, unit and sort */ #wanted = new Map();

  /** @param {{call: typeof import("../calc/calls.js").call, units: () => "metric"|"us"}} deps */
  constructor(deps) {
    this.deps = deps;
  }

  /**
   * @param {number} value @param {string} quantity @param {string} unit
   * @param {string} [sort]  how finely it is told: "bore", "plate", … as calc/unit has them
   * @param {string} [last]  what stands until it is known
   */
  say(value, quantity, unit, sort = "", last) {
    const how = `${quantity} ${unit} ${sort}`, known = this.#known.get(`${this.deps.units()} ${how} ${value}`);
    if (known === undefined && own(shownIn, quantity)) {
      const asked = this.#wanted.get(how) ?? { quantity, unit, sort, values: new Set() };
      asked.values.add(value);
      this.#wanted.set(how, asked);
    }
    return known ?? last ?? `${Number(value.toFixed(3))} ${unit}`;
  }

  /** Asks for what was not known; says whether that told anything new. */
  async learn() {
    const wanted = [...this.#wanted.values()];
    this.#wanted.clear();
    const units = this.deps.units();
    try {
      for (const { quantity, unit, sort, values } of wanted) {
        const asked = [...values];
        const { texts } = await this.deps.call("say-values", { quantity, in: unit, ...shownIn[quantity], units, sort, values: asked });
        asked.forEach((value, i) => this.#known.set(`${units} ${quantity} ${unit} ${sort} ${value}`, texts[i]));
      }
    } catch {
      return false; // the sums have not started: what is shown stays right as it is
    }
    return wanted.length > 0;
  }
}
