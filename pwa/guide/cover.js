// @ts-check
// The cover of a guide: cautions first, then the steps with what was answered.
// A card has all its steps on the cover.
import { clone, fill, ref } from "./dom.js";
import { GuideStep } from "./step.js";
import { wordFor } from "../words/guides.js";

/** @typedef {import("./shapes.js").Guide} Guide */
/** @typedef {import("./shapes.js").Step} Step */
/** @typedef {import("./shapes.js").Answer} Answer */
/** @typedef {import("../words/guides.js").GuideWords} GuideWords */

/**
 * What is known when a cover or an end is made.
 * @typedef {{answers: Map<string, Answer>, deps: import("./shapes.js").GuideDeps, words: GuideWords, known: import("./shapes.js").Known}} State
 */

/**
 * @param {Guide} guide
 * @param {State & {calls: {name: string, number: string}[], begin: string}} state
 * @returns {{screen: HTMLElement, topics: GuideStep[]}} the topics of a card
 */
export function coverScreen(guide, { answers, calls, deps, words, known, begin }) {
  const screen = clone("guide-cover");
  const isCard = guide.form === "card";
  fill(screen, {
    title: guide.title, when: guide.when, minutes: words.minutes(guide.minutes),
    "steps-title": !isCard ? words.steps : guide.place === "safety" ? words.topics : words.card, begin,
  });
  ref(screen, "begin").hidden = isCard;
  deps.html(ref(screen, "cautions"), guide.cautions);
  deps.html(ref(screen, "about"), guide.about);
  ref(screen, "sources").replaceChildren(...guide.sources.map(item));
  const topics = isCard ? guide.steps.map((s) => new GuideStep(s, deps, { known })) : [];
  if (isCard) fillCard(screen, guide, calls, topics);
  else ref(screen, "steps").replaceChildren(...guide.steps.map((s) => stepRow(s, answers, words)));
  return { screen, topics };
}

/**
 * A row that leads to a step and says what was answered.
 * @param {Step} step @param {Map<string, Answer>} answers @param {GuideWords} words
 */
export function stepRow(step, answers, words) {
  const row = clone("guide-row");
  const { result = "" } = answers.get(step.id) ?? {};
  fill(row, { title: step.title, state: wordFor(words, "answers", result, step.slot) });
  /** @type {HTMLElement} */ (row.firstElementChild).dataset.step = step.id;
  return row;
}

/**
 * A card is read in a hurry: its topics first, then the cautions, then each
 * topic in full. On the worst day numbers to call stand before all.
 * @param {HTMLElement} screen @param {Guide} guide
 * @param {{name: string, number: string}[]} numbers @param {GuideStep[]} topics
 */
function fillCard(screen, guide, numbers, topics) {
  const calls = ref(screen, "calls");
  const isWorst = guide.place === "safety";
  calls.hidden = !isWorst;
  ref(screen, "steps-part").hidden = guide.steps.length < 2;
  ref(screen, "first").hidden = ref(screen, "when-line").hidden = isWorst;
  ref(screen, "title").after(...(isWorst && numbers.length > 0 ? [calls] : []), ref(screen, "steps-part"));
  ref(screen, "steps").className = "grid";
  ref(screen, "no-calls").hidden = numbers.length > 0;
  ref(screen, "call-list").replaceChildren(...numbers.map(callRow));
  ref(screen, "steps").replaceChildren(...guide.steps.map(jump));
  ref(screen, "all").replaceChildren(...topics.map((topic) => {
    topic.asCard();
    return topic.element;
  }));
}

/** @param {{name: string, number: string}} call */
function callRow({ name, number }) {
  const row = clone("guide-call");
  fill(row, { name, number });
  ref(row, "link").setAttribute("href", `tel:${number.replace(/[^\d+*#]/g, "")}`);
  return row;
}

/** @param {Step} step */
function jump(step) {
  const row = clone("guide-jump");
  fill(row, { title: step.title });
  ref(row, "title").setAttribute("href", `#${step.id}`);
  return row;
}

/** @param {string} words */
function item(words) {
  const li = document.createElement("li");
  li.textContent = words;
  return li;
}
