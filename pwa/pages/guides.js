// @ts-check
/** The quick cards, then every guide by place. */
import { clone, make, refs } from "../parts/dom.js";
import { sameDay } from "../parts/job.js";
import { rigIdInUse } from "../parts/rig-and-site.js";
import { say, sayKnown, sentence } from "../words/words.js";

export class GuidesPage {
  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  async start() {
    const root = clone("page-guides");
    this.element.append(root);
    const [index, { views }] = await Promise.all([this.deps.asset("gen/guides.json"), this.deps.journal.read(["now", "rigs"])]);
    const rig = rigIdInUse(views, this.deps.settings.values.rig);
    const { left } = this.deps.today;
    const goesOn = (/** @type {import("../types/guides.js").Entry} */ { id }) => left[id]?.n > 1 && left[id].rig === rig && Date.now() - left[id].at <= sameDay;
    const line = (/** @type {typeof index[number]} */ g) => (goesOn(g) ? say("guides.resume", { n: left[g.id].n }) : say("guides.line", { when: sentence(g.when), min: g.minutes }));
    const others = index.filter((g) => !goesOn(g));
    const isCard = (/** @type {import("../types/guides.js").Entry} */ g) => g.form === "card" && g.place !== "safety";
    const places = [...new Set(index.map((g) => g.place))];
    const groups = /** @type {[string, typeof index][]} */ ([[say("guides.left"), index.filter(goesOn)], [say("guides.cards"), others.filter(isCard)], ...places.map((place) => [sayKnown(`title.${place}`), others.filter((g) => g.place === place && !isCard(g))])]);
    refs(this.element).lists.replaceChildren(...groups.filter(([, some]) => some.length > 0).map(([label, guides]) => make("section", { class: "section" }, make("h2", { text: label }),
      make("ul", { class: "list" }, ...guides.map((g) => make("li", {},
        make("a", { class: "list__item", href: g.id === "worst-day" ? "/worst-day" : `/guide/${g.id}` }, make("b", { text: g.title }), make("span", { text: line(g) }))))))));
  }
}
