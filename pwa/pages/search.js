// @ts-check
/** Finds calculators, guides, faults and what the crew has named, by the words people use for things. */
import { clone, fill, make, refs, setText } from "../parts/dom.js";
import { GuideSearch } from "../guide/search.js";
import { dayAndTime } from "../parts/times.js";
import { plain, say } from "../words/words.js";

/** @typedef {{href: string, title: string, about: string}} Found */
/** What can be found beside the guides' steps: the first text weighs most. @typedef {Found & {texts: string[]}} Findable */

/** How many are shown: more are not read with gloves on. */
const most = 30;

export class SearchPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** null until the lists are here. @type {((query: string) => Found[])|null} */ #find = null;

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  /** @param {Record<string, string>} params */
  async start({ q }) {
    const root = clone("page-search");
    this.#at = refs(root);
    this.element.append(root);
    fill(this.#at.find, q ?? this.deps.drafts.of("search").text ?? "");
    this.#at.find.addEventListener("input", () => this.#show());
    this.#at.find.focus();
    this.#at.find.select(); // the next thing sought takes the place of the last
    this.#show();
    this.#find = await this.#finder();
    this.#show();
  }

  // Private

  #show() {
    const text = this.#at.find.value.trim();
    this.deps.drafts.keep("search", { text });
    const found = text && this.#find ? this.#find(text) : [];
    setText(this.#at.none, !text || found.length > 0 ? "" : say(this.#find ? "search.none" : "search.reading"));
    this.#at.found.replaceChildren(...found.map((f) => make("li", {}, make("a", { class: "list__item", href: f.href }, make("b", { text: f.title }), make("span", { text: f.about })))));
  }

  /** @returns {Promise<(query: string) => Found[]>} */
  async #finder() {
    const [sums, index, search, faults, { views }] = await Promise.all([
      this.deps.asset("gen/calculators.json"), this.deps.asset("gen/guides.json"), this.deps.asset("gen/search.json"), this.deps.asset("gen/faults.json"),
      this.deps.journal.read(["rigs", "book"]),
    ]);
    const guides = new GuideSearch(search);
    const titles = new Map(index.map((g) => [g.id, g.title]));
    /** @type {Findable[]} */
    const own = [
      .../** @type {const} */ (["rig", "site"]).flatMap((what) => (views.rigs?.[`${what}s`] ?? []).map((t) => findable(`/${what}/${t.id}`, plain(t.fields.name), say(/* rig | site */ `search.${what}`)))),
      ...(views.book?.sessions ?? []).map((s) => findable(`/session/${s.id}`, s.title, say("search.session", { time: dayAndTime(s.opened) }))),
    ];
    /** @type {Findable[]} */
    const others = [
      ...sums.map((c) => findable(`/sum/${c.name}`, c.title, c.about, c.terms)),
      ...faults.signs.map((s) => findable("/fix", s.label, say("search.sign"))),
      ...faults.causes.map((c) => findable(`/guide/${c.guide}#${c.step}`, c.label, say("search.cause", { text: c.do }))),
    ];
    return (query) => {
      const best = (/** @type {Findable[]} */ list) => list.map((f) => ({ f, weight: guides.weigh(query, f.texts) })).filter(({ weight }) => weight > 0)
        .sort((a, b) => b.weight - a.weight).map(({ f }) => f);
      const steps = guides.find(query).map((hit) => ({ href: `${hit.guide === "worst-day" ? "" : "/guide"}/${hit.guide}${hit.step ? `#${hit.step}` : ""}`, title: hit.title, about: say("search.guide", { guide: titles.get(hit.guide) ?? "" }) }));
      return [...best(own), ...steps.slice(0, 3), ...best(others), ...steps.slice(3)].slice(0, most);
    };
  }
}

/** @param {string} href @param {string} title @param {string} about @param {string[]} [terms] @returns {Findable} */
function findable(href, title, about, terms = []) {
  return { href, title, about, texts: [title, [about, ...terms].join(" . ")] };
}
