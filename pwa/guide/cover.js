// @ts-check
// The cover of a guide: cautions first, then the steps with what was answered.
// A card has all its steps on the cover.
import { clone, make, refs, setText } from "../parts/dom.js";
import { sayOfStep } from "../words/guides.js";
import { sentence, say } from "../words/words.js";
import { GuideStep } from "./step.js";

/** @typedef {import("./shapes.js").Guide} Guide */
/** @typedef {import("./shapes.js").Step} Step */
/** @typedef {import("./shapes.js").Answer} Answer */

/**
 * What is known when a cover or an end is made.
 * @typedef {{answers: Map<string, Answer>, deps: import("./shapes.js").GuideDeps, known: import("./shapes.js").Known}} State
 */

/**
 * @param {Guide} guide
 * @param {State & {calls: {name: string, number: string}[], begin: string}} state
 * @returns {{screen: HTMLElement, topics: GuideStep[]}} the topics of a card
 */
export function coverScreen(guide, { answers, calls, deps, known, begin }) {
  const screen = clone("guide-cover");
  const at = refs(screen);
  const isCard = guide.form === "card";
  at.title.textContent = guide.title;
  at.when.textContent = say("guides.line", { when: sentence(guide.when), min: guide.minutes });
  at["steps-title"].textContent = say(!isCard ? "guide.steps" : guide.place === "safety" ? "guide.topics" : "guide.card");
  setText(at.begin, begin);
  at.dock.hidden = isCard;
  deps.html(at.cautions, guide.cautions);
  deps.html(at.about, guide.about);
  at.sources.replaceChildren(...guide.sources.map((text) => make("li", { text })));
  const topics = isCard ? guide.steps.map((s) => new GuideStep(s, deps, { known })) : [];
  if (isCard) fillCard(at, guide, calls, topics);
  else at.steps.replaceChildren(...guide.steps.map((s) => stepRow(s, answers)));
  return { screen, topics };
}

/**
 * A row that leads to a step and says what was answered.
 * @param {Step} step @param {Map<string, Answer>} answers
 */
export function stepRow(step, answers) {
  const row = clone("guide-row");
  const { result = "" } = answers.get(step.id) ?? {};
  const { title, state } = refs(row);
  title.textContent = step.title;
  state.textContent = sayOfStep("answer", result, step.slot);
  /** @type {HTMLElement} */ (row.firstElementChild).dataset.step = step.id;
  return row;
}

/**
 * A card is read in a hurry: its topics first, then the cautions, then each
 * topic in full. On the worst day numbers to call stand before all.
 * @param {import("../parts/dom.js").Refs} at  the cover's references
 * @param {Guide} guide
 * @param {{name: string, number: string}[]} numbers @param {GuideStep[]} topics
 */
function fillCard(at, guide, numbers, topics) {
  const isWorst = guide.place === "safety";
  at.calls.hidden = !isWorst;
  at["steps-part"].hidden = guide.steps.length < 2;
  at.first.hidden = at.when.hidden = isWorst;
  at.title.after(...(isWorst && numbers.length > 0 ? [at.calls] : []), at["steps-part"]);
  at.steps.className = "grid";
  at["no-calls"].hidden = numbers.length > 0;
  at["call-list"].replaceChildren(...numbers.map(callRow));
  at.steps.replaceChildren(...guide.steps.map(jump));
  at.all.replaceChildren(...topics.map((topic) => {
    topic.asCard();
    return topic.element;
  }));
}

/** @param {{name: string, number: string}} call */
function callRow({ name, number }) {
  const row = clone("guide-call");
  const at = refs(row);
  at.name.textContent = name;
  at.number.textContent = number;
  at.link.setAttribute("href", `tel:${number.replace(/[^\d+*#]/g, "")}`);
  return row;
}

/** @param {Step} step */
function jump(step) {
  const row = clone("guide-jump");
  const { title } = refs(row);
  setText(title, step.title);
  title.setAttribute("href", `#${step.id}`);
  return row;
}
