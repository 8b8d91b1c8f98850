// @ts-check
/** The quick cards, then every guide by place. */
import { clone, make, refs } from "../parts/dom.js";
import { say, sayKnown } from "../words/words.js";

export class GuidesPage {
  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  async start() {
    const root = clone("page-guides");
    this.element.append(root);
    const index = await this.deps.asset("gen/guides.json");
    const isCard = (/** @type {import("../types/guides.js").Entry} */ g) => g.form === "card" && g.place !== "safety";
    const places = [...new Set(index.map((g) => g.place))];
    const groups = /** @type {[string, typeof index][]} */ ([[say("guides.cards"), index.filter(isCard)], ...places.map((place) => [sayKnown(`title.${place}`), index.filter((g) => g.place === place && !isCard(g))])]);
    refs(this.element).lists.replaceChildren(...groups.map(([label, guides]) => make("section", { class: "section" }, make("h2", { text: label }),
      make("ul", { class: "list" }, ...guides.map((g) => make("li", {},
        make("a", { class: "list__item", href: g.id === "worst-day" ? "/worst-day" : `/guide/${g.id}` }, make("b", { text: g.title }), make("span", { text: say("guides.line", { when: sentence(g.when), min: g.minutes }) }))))))));
  }
}

/** @param {string} text */
function sentence(text) {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
