// @ts-check
/** The truck card: the cut plan over common thicknesses for one rig and metal, on one printed page. */
import { clone, make, onActions, refs } from "../parts/dom.js";
import { reading, tableOf, wordsOf } from "../parts/answer.js";
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
      const stock = this.deps.settings.values.units === "us" ? fieldOf(this.#declared, "thicknesses").chips_us?.[0] ?? "" : "";
      const { results, cautions } = await this.deps.calculate("rig-table", { ...keptOf(this.#rig), metal: this.#metal, thicknesses: stock }, { units: this.deps.settings.values.units });
      if (job !== this.#job) return;
      this.#wrong(null);
      const factor = this.#rig.fields.calibration;
      at.heading.textContent = `${this.#rig.fields.name ?? say("rig.unnamed")}, ${sayKnown(`metal.${this.#metal}`)}`;
      at.made.textContent = say("card.made", { date: new Date().toLocaleDateString(), calibration: factor && factor !== "1" ? say("card.calibrated", { factor }) : say("card.uncalibrated") });
      at.table.replaceChildren(tableOf(resultOf(this.#declared, "rows"), results.rows));
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
    this.#at.wrong.replaceChildren(...(problem ? [problem.msg, make("span", { text: problem.hint ?? "" })] : []));
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
