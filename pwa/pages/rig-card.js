// @ts-check
/** The truck card: the cut plan over common thicknesses for one rig and metal, on one printed page. */
import { clone, make, onActions, refs, wrongWords } from "../parts/dom.js";
import { reading, wordsOf } from "../parts/answer.js";
import { declarationOf, fieldOf, resultOf, undeclared } from "../parts/declared.js";
import { keptOf, rigInUse, rigsOf } from "../parts/rig-and-site.js";
import { say, sayKnown } from "../words/words.js";

export class RigCardPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  #declared = undeclared;
  /** @type {import("../parts/rig-and-site.js").Rig|null} */ #rig = null;
  #metal = "";
  /** @type {Promise<unknown>} */ #loaded = Promise.resolve();
  /** @type {symbol|null} */ #job = null;

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  async start() {
    const root = clone("page-rig-card");
    this.#at = refs(root);
    this.element.append(root);
    onActions(root, { metal: () => this.#pickMetal(), print: () => print() });
    this.#metal = this.deps.today.plan.metal ?? "mild-steel";
    this.#loaded = this.#load();
    await this.#loaded;
    await this.#show();
  }

  // Private

  async #load() {
    const [all, { views }] = await Promise.all([this.deps.asset("gen/calculators.json"), this.deps.journal.read(["rigs"])]);
    this.#declared = declarationOf(all, "rig-table");
    this.#rig = rigInUse(rigsOf(views.rigs), this.deps.settings.values.rig);
  }

  async #show() {
    const at = this.#at;
    const job = (this.#job = Symbol());
    at.metal.textContent = sayKnown(`metal.${this.#metal}`);
    if (!this.#rig) {
      this.#wrong({ msg: say("card.norig") });
      return;
    }
    try {
      const sizes = fieldOf(this.#declared, "thicknesses");
      const stock = (this.deps.settings.values.units === "us" ? sizes.chips_us : sizes.chips)?.[0] ?? "";
      const { results, cautions } = await this.deps.calculate("rig-table", { ...keptOf(this.#rig), metal: this.#metal, thicknesses: stock }, { units: this.deps.settings.values.units });
      if (job !== this.#job) return;
      this.#wrong(null);
      const factor = this.#rig.fields.calibration;
      at.heading.textContent = `${this.#rig.fields.name ?? say("rig.unnamed")}, ${sayKnown(`metal.${this.#metal}`)}`;
      at.made.textContent = say("card.made", { date: new Date().toLocaleDateString(), calibration: factor && factor !== "1" ? say("card.calibrated", { factor }) : say("card.uncalibrated") });
      at.table.replaceChildren(cardOf(resultOf(this.#declared, "rows"), results.rows));
      at.limits.replaceChildren(.../** @type {const} */ (["limit_clean", "limit_sever", "limit_pierce"]).map((key) => reading(resultOf(this.#declared, key).label, wordsOf(results[key]), results[key].also, false)));
      at.cautions.replaceChildren(...[results.standing, results.confidence, ...cautions].filter(Boolean).map((text) => make("li", { text })));
    } catch (problem) {
      if (job === this.#job) this.#wrong(/** @type {import("../calc/trouble.js").Trouble} */ (problem));
    }
  }

  /** @param {{msg: string, hint?: string}|null} problem */
  #wrong(problem) {
    this.#at.wrong.hidden = !problem;
    this.#at.card.hidden = Boolean(problem);
    this.#at.wrong.replaceChildren(...wrongWords(problem));
  }

  async #pickMetal() {
    await this.#loaded;
    const metals = fieldOf(this.#declared, "metal");
    const word = await this.deps.chooser.ask({ label: say("card.metal"), options: metals.choices ?? [], value: this.#metal });
    if (!word) return;
    this.#metal = word;
    await this.#show();
  }
}

/** What stands on the card, as wide as a phone: a kerf is asked of the plan. */
const columns = ["thickness", "grade", "start", "current", "tip", "pressure", "speed", "pace"];

/**
 * The table of the card, a unit that a column shares once, in its head.
 * @param {import("../types/calc.js").ResultDescription} result
 * @param {Record<string, any>[]} rows
 */
function cardOf(result, rows) {
  const heads = (result.choices ?? []).map(({ word }) => word).filter((word) => columns.includes(word) && rows.some((row) => row[word] !== undefined)).map((word) => {
    const units = new Set(rows.map((row) => row[word]?.text).filter(Boolean).map((text) => /\d ([^\d].*)$/.exec(text)?.[1] ?? ""));
    return { word, unit: units.size === 1 ? [...units][0] : "" };
  });
  const cell = (/** @type {Record<string, any>} */ row, /** @type {{word: string, unit: string}} */ { word, unit }) => {
    const text = wordsOf(row[word]);
    return unit && text.endsWith(unit) ? text.slice(0, -unit.length - 1) : text;
  };
  return make("table", { class: "table card-table" },
    make("thead", {}, make("tr", {}, ...heads.map(({ word, unit }) => make("th", { scope: "col", text: sayKnown(/* thickness | grade | start | current | tip | pressure | speed | pace */ `card.${word}`) }, unit ? make("small", { text: unit }) : null)))),
    make("tbody", {}, ...rows.map((row) => make("tr", {}, ...heads.map((head, n) => (n > 0 ? make("td", { text: cell(row, head) }) : make("th", { scope: "row", text: cell(row, head) })))))));
}
