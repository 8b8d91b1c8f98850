// @ts-check
/**
 * How a check is made, in place: the step of a guide opens under the question, or all of them, with
 * their cautions, while the answers stay docked.
 */
import { drawings } from "../draw/index.js";
import { stillDrawings } from "../draw/still.js";
import { guideHTML } from "../browser/trusted.js";
import { GuideStep } from "../guide/step.js";
import { make } from "../parts/dom.js";
import { QuantityTexts } from "../parts/quantity-texts.js";
import { keptOf, rigIdInUse, rigsOf } from "../parts/rig-and-site.js";
import { english } from "../words/drawings.js";
import { say } from "../words/words.js";

export class FixHow {
  #address = "";

  /**
   * @param {HTMLDetailsElement} fold  with a place for the steps as its last element
   * @param {import("../app.js").Deps} deps
   * @param {() => import("../journal/shapes.js").ReadModelBase["views"]} views
   */
  constructor(fold, deps, views) {
    this.fold = fold;
    this.deps = deps;
    this.views = views;
    fold.addEventListener("toggle", () => this.#fill());
  }

  /** What it leads to; another one is closed. @param {string} guide @param {string} [step] */
  lead(guide, step = "") {
    const address = `${guide}#${step}`;
    if (address === this.#address) return;
    this.#address = address;
    this.fold.open = false;
    this.fold.lastElementChild?.replaceChildren();
  }

  // Private

  async #fill() {
    const place = this.fold.lastElementChild;
    if (!this.fold.open || !place || place.children.length > 0) return;
    const address = this.#address;
    const [id, step] = address.split("#");
    const rig = rigsOf(this.views().rigs).find((r) => r.id === rigIdInUse(this.views(), this.deps.settings.values.rig));
    try {
      const [guide, still, known] = await Promise.all([
        this.deps.asset(`gen/guide/${id}.json`), this.deps.asset("gen/drawings.json"),
        rig ? this.deps.call("rig-sizes", keptOf(rig)).catch(() => ({})) : {},
      ]);
      if (this.deps.life.aborted || address !== this.#address) return;
      const texts = new QuantityTexts({ call: this.deps.call, units: () => this.deps.settings.values.units });
      const steps = guide.steps.filter((s) => !step || s.id === step).map((s) => new GuideStep(s, {
        drawings: { ...drawings, ...stillDrawings(still) }, html: (el, markup) => void (el.innerHTML = guideHTML(markup)), pad: { ask: async () => null }, learn: () => texts.learn(),
        show: (value, { quantity, unit }) => texts.say(value, quantity, unit),
        drawWords: { ...english, length: (mm) => texts.say(mm, "length", "mm") },
      }, { known }));
      for (const one of steps) one.asCard();
      place.replaceChildren(...steps.map((one) => one.element), make("a", { class: "button", href: `/guide/${address}`, text: say("fix.whole", { guide: guide.title }) }));
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
  }
}
