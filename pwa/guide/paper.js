// @ts-check
// A guide on paper: its name and the date on every page, the cautions, then
// every step in full with its drawing, whatever the screen shows. It is made
// when the browser is about to print, and gone afterwards.
import { clone, fill, ref } from "./dom.js";
import { GuideStep } from "./step.js";

/** @typedef {import("./shapes.js").Guide} Guide */
/** @typedef {import("./shapes.js").GuideDeps} GuideDeps */

/** @param {Guide} guide @param {GuideDeps} deps @param {{answers: Map<string, import("./shapes.js").Answer>, known: import("./shapes.js").Known}} state */
export function guidePaper(guide, deps, { answers, known }) {
  const paper = clone("guide-paper");
  fill(paper, { title: guide.title, made: new Date().toLocaleDateString(undefined, { year: "numeric", month: "long", day: "numeric" }) });
  deps.html(ref(paper, "cautions"), guide.cautions);
  deps.html(ref(paper, "about"), guide.about);
  ref(paper, "all").replaceChildren(...guide.steps.map((step) => {
    const shown = new GuideStep(step, deps, { given: answers.get(step.id), known });
    shown.asCard();
    return shown.element;
  }));
  ref(paper, "sources").replaceChildren(...guide.sources.map((words) => {
    const li = document.createElement("li");
    li.textContent = words;
    return li;
  }));
  return paper;
}
