// @ts-check
// The end of a guide: what is left to do before the arc, and what was not
// answered.
import { stepRow } from "./cover.js";
import { clone, fill, ref } from "./dom.js";
import { wordFor } from "../words/guides.js";

/** @typedef {import("./shapes.js").Step} Step */

/** Answers after which something is left to do. */
const leaving = new Set(["change", "unsure", "not-done"]);

/** @param {string} [result] */
export function leavesSomething(result = "") {
  return leaving.has(result);
}

/**
 * @param {import("./shapes.js").Guide} guide
 * @param {import("./cover.js").State} state
 */
export function endScreen(guide, { answers, words }) {
  const screen = clone("guide-end");
  const open = guide.steps.filter((s) => !answers.get(s.id)?.result);
  const todo = guide.steps.filter((s) => leavesSomething(answers.get(s.id)?.result));
  fill(screen, {
    title: guide.title,
    count: (todo.length === 0 && open.length === 0 ? words.nothingToDo : "") + words.count(guide.steps.length - open.length, guide.steps.length),
  });
  ref(screen, "todo-part").hidden = todo.length === 0;
  ref(screen, "todo").replaceChildren(...todo.map((s) => todoItem(s, wordFor(words, "answers", answers.get(s.id)?.result ?? "", s.slot))));
  ref(screen, "open-part").hidden = open.length === 0;
  ref(screen, "open").replaceChildren(...open.map((s) => stepRow(s, answers, words)));
  return screen;
}

/** @param {Step} step @param {string} what the answer, in words */
function todoItem(step, what) {
  const item = clone("guide-todo");
  fill(item, { title: `${step.title}:`, what });
  const fitted = ref(item, "fitted");
  fitted.hidden = !step.slot || step.slot === "head" || !step.answers.includes("change");
  fitted.dataset.slot = step.slot ?? "";
  for (const name of ["fitted", "show"]) ref(item, name).dataset.step = step.id;
  return item;
}
