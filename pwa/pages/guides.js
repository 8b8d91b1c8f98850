// @ts-check
/** Every guide, by place. */
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
    const places = [...new Set(index.map((/** @type {any} */ g) => g.place))];
    refs(this.element).lists.replaceChildren(...places.map((place) => make("section", { class: "section" }, make("h2", { text: sayKnown(`title.${place}`) }),
      make("ul", { class: "list" }, ...index.filter((/** @type {any} */ g) => g.place === place).map((/** @type {any} */ g) => make("li", {},
        make("a", { class: "list__item", href: g.id === "worst-day" ? "/worst-day" : `/guide/${g.id}` }, make("b", { text: g.title }), make("span", { text: say("guides.line", { when: g.when ?? "", min: g.minutes ?? "" }) }))))))));
  }

  stop() {}
}
