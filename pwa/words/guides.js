// @ts-check
// What the guide screens say that does not stand in the guides themselves, for
// one language. guide.html names the words that never change by data-say.

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
  manualFirst: "Your torch’s manual and local code come first.",
  print: "Print this guide",
  calls: "Who to call",
  noCalls: "No numbers are entered on this phone. 112 reaches the emergency services in much of the world, and on most mobiles even where the local number is another. Enter your own now, while nothing is wrong.",
  enterCalls: "Enter numbers",
  sources: "Where this comes from",
  source: "Source",
  see: "What do you see?",
  gauge: "Read it off a photo",
  todo: "To do before the arc",
  open: "Not answered",
  fitted: "Fitted a new one",
  showStep: "Show the step",
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
  /** What cleared a failed check, as its entry says. */
  clearedBy: { answer: "answered again", part: "new part" },
};

/**
 * The word for something about a step: with the words for parts, or without.
 * @param {GuideWords} words @param {"judgements" | "answers" | "advice"} table
 * @param {string} key @param {string} [slot]
 */
export function wordFor(words, table, key, slot) {
  return (slot ? undefined : own(words.noPart[table], key)) ?? own(words[table], key) ?? "";
}
