// @ts-check
// What the guide screens say that does not stand in the guides themselves or in
// guide.html, for one language.

import { own } from "./words.js";

/** @typedef {typeof english} GuideWords */

export const english = {
  cover: "Before you start",
  end: "Done",
  /** @param {number} n @param {number} of */
  place: (n, of) => `Step ${n} of ${of}`,
  /** @param {number} n */
  minutes: (n) => `about ${n} min`,
  start: "Start",
  /** @param {number} n */
  resume: (n) => `Go on at step ${n}`,
  back: "Step back",
  next: "Next step",
  finish: "Finish",
  close: "Close",
  speak: "Read aloud",
  hush: "Stop reading",
  /** Names of the judgements. @type {Record<string, string>} */
  judgements: {
    good: "Good looks like", worn: "Worn looks like", change: "Change when", pass: "Go on when", fail: "Stop when",
  },
  /** @param {string} title of another guide */
  first: (title) => `First: ${title}`,
  why: "Why",
  /** @param {string} fresh @param {string} limit */
  ownTip: (fresh, limit) => `The tip in this rig: ${fresh} when new, change it at ${limit}.`,
  notRead: "not read yet",
  example: "An example",
  steps: "Steps",
  topics: "What happened?",
  card: "On this card",

  /** @type {Record<string, string>} */
  answers: {
    good: "good", worn: "worn", change: "change it", unsure: "cannot tell",
    done: "done", "not-done": "not done",
  },
  /** What to do after an answer that is no plain yes. @type {Record<string, string>} */
  advice: {
    worn: "Still usable. Look again at the next session.",
    change: "Change it before the next arc.",
    unsure: "Hold it beside a new one. If you still cannot tell, take it as spent: the part costs less than the cut.",
    "not-done": "Do not go on to the arc until this is done.",
  },
  /** A look at something that is no part, such as a cut, is not changed but put right. */
  noPart: {
    /** @type {Record<string, string>} */
    judgements: { worn: "Not quite looks like", change: "Put right when" },
    /** @type {Record<string, string>} */
    answers: { worn: "not quite", change: "put it right" },
    /** @type {Record<string, string>} */
    advice: {
      worn: "Good enough to go on. Look again at the next one.",
      change: "Put it right before the next arc.",
      unsure: "Try it on scrap, change one thing, and look again.",
    },
  },
  /** @param {number} answered @param {number} of */
  count: (answered, of) => (answered === of ? `All ${of} steps answered.` : `${answered} of ${of} steps answered.`),
  nothingToDo: "Nothing to change. ",
};

/**
 * The word for something about a step: with the words for parts, or without.
 * @param {GuideWords} words @param {"judgements" | "answers" | "advice"} table
 * @param {string} key @param {string} [slot]
 */
export function wordFor(words, table, key, slot) {
  return (slot ? undefined : own(words.noPart[table], key)) ?? own(words[table], key) ?? "";
}
