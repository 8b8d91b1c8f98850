// @ts-check
/** Every calculator, by place, to be found by its words. */
import { clone, make, refs } from "../parts/dom.js";
import { say } from "../words/words.js";

export class SumsPage {
  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  async start() {
    const root = clone("page-sums");
    const at = refs(root);
    this.element.append(root);
    const all = await this.deps.asset("gen/calculators.json");
    const show = () => {
      const wanted = at.find.value.trim().toLowerCase();
      const hits = all.filter((c) => [c.title, c.about, c.name, ...(c.terms ?? [])].join(" ").toLowerCase().includes(wanted));
      at.lists.replaceChildren(...["ready", "layout", "cut", "fix", "book"].map((place) => section(place, hits.filter((c) => c.place === place))).filter(Boolean));
    };
    at.find.addEventListener("input", show);
    show();
    if (location.hash) document.getElementById(location.hash.slice(1))?.scrollIntoView();
  }
}

/** @param {string} place @param {import("../types/calc.js").Description[]} list */
function section(place, list) {
  if (list.length === 0) return "";
  return make("section", { class: "section", id: place }, make("h2", { text: say(`sums.${place}`) }),
    make("ul", { class: "list" }, ...list.map((c) => make("li", {}, make("a", { class: "list__item", href: `/sum/${c.name}` },
      make("b", { text: c.title }), make("span", { text: c.about }))))));
}
