// @ts-check
// A guide on paper: its name and the date on every page, the cautions, then
// every step in full with its drawing, whatever the screen shows. It is made
// when the browser is about to print, and gone afterwards.
import { clone, make, refs } from "../parts/dom.js";
import { GuideStep } from "./step.js";

/** @typedef {import("./shapes.js").Guide} Guide */
/** @typedef {import("./shapes.js").GuideDeps} GuideDeps */

/** @param {Guide} guide @param {GuideDeps} deps @param {{answers: Map<string, import("./shapes.js").Answer>, known: import("./shapes.js").Known}} state */
export function guidePaper(guide, deps, { answers, known }) {
  const paper = clone("guide-paper");
  const at = refs(paper);
  at.title.textContent = guide.title;
  at.made.textContent = new Date().toLocaleDateString(undefined, { year: "numeric", month: "long", day: "numeric" });
  deps.html(at.cautions, guide.cautions);
  deps.html(at.about, guide.about);
  at.all.replaceChildren(...guide.steps.map((step) => {
    const shown = new GuideStep(step, deps, { given: answers.get(step.id), known });
    shown.asCard();
    return shown.element;
  }));
  at.sources.replaceChildren(...guide.sources.map((text) => make("li", { text })));
  return paper;
}
