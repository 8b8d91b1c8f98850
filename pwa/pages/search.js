// @ts-check
/** Finds sums and guides by the words people use for things. */
import { clone, fill, make, refs } from "../parts/dom.js";
import { GuideSearch } from "../guide/search.js";

export class SearchPage {
  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  async start() {
    const root = clone("page-search");
    const at = refs(root);
    this.element.append(root);
    fill(at.find, this.deps.drafts.of("search").text ?? "");
    at.find.focus();
    const [sums, index, search] = await Promise.all([this.deps.asset("gen/calculators.json"), this.deps.asset("gen/guides.json"), this.deps.asset("gen/search.json")]);
    const guides = new GuideSearch(search);
    const titles = new Map(index.map((g) => [g.id, g.title]));
    const show = () => {
      const text = at.find.value.trim().toLowerCase();
      this.deps.drafts.keep("search", { text });
      const found = text === "" ? [] : [
        ...sums.filter((c) => text.split(/\s+/).every((/** @type {string} */ w) => [c.title, c.about, ...(c.terms ?? [])].join(" ").toLowerCase().includes(w)))
          .map((c) => ({ href: `/sum/${c.name}`, title: c.title, about: c.about })),
        ...guides.find(text).map((hit) => ({ href: `${hit.guide === "worst-day" ? "" : "/guide"}/${hit.guide}${hit.step ? `#${hit.step}` : ""}`, title: hit.title, about: titles.get(hit.guide) ?? "" })),
      ];
      at.none.hidden = found.length > 0 || text === "";
      at.found.replaceChildren(...found.map((f) => make("li", {}, make("a", { class: "list__item", href: f.href }, make("b", { text: f.title }), make("span", { text: f.about })))));
    };
    at.find.addEventListener("input", show);
    show();
  }
}
