// @ts-check
/** The crew's rigs: machine, torch and tips that go together. */
import { clone, make, refs } from "../parts/dom.js";
import { rigsOf, sitesOf } from "../parts/rig-and-site.js";
import { renderRows } from "../parts/rows.js";
import { say } from "../words/words.js";

export class RigsPage {

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  async start() {
    const root = clone("page-rigs");
    const at = refs(root);
    this.element.append(root);
    const read = async () => {
      const { views } = await this.deps.journal.read(["rigs"]);
      if (this.deps.life.aborted) return;
      renderRows(at.rigs, rigsOf(views.rigs), (r) => make("li", {}, make("a", { class: "list__item", href: `/rig/${r.id}` },
        make("b", { text: r.fields.name ?? say("rig.unnamed") }),
        make("span", { text: say("rigs.line", { min: r.fields.min_current ?? "–", max: [r.fields.max_current, r.fields.max_current_2].filter(Boolean).join(" / ") || "–", tips: (r.fields.tips ?? "").split(/[,;]/).filter(Boolean).length }) }))), (r) => ({ name: r.fields.name }));
      renderRows(at.sites, sitesOf(views.rigs), (s) => make("li", {}, make("a", { class: "list__item", href: `/site/${s.id}` },
        make("b", { text: s.fields.name ?? say("site.unnamed") }),
        make("span", { text: [s.fields.free_air, s.fields.hose_length, s.fields.generator ?? s.fields.volts].filter(Boolean).join(" · ") }))), (s) => ({ name: s.fields.name }));
    };
    this.deps.journal.addEventListener("views", read, { signal: this.deps.life });
    await read();
  }
}
