// @ts-check
// The end of a guide: what is left to do before the arc, and what was not
// answered.
import { clone, refs } from "../parts/dom.js";
import { sayOfStep } from "../words/guides.js";
import { say } from "../words/words.js";
import { stepRow } from "./cover.js";
import { isExchanged, leavesSomething } from "./step.js";

/** @typedef {import("./shapes.js").Step} Step */

/**
 * @param {import("./shapes.js").Guide} guide
 * @param {import("./cover.js").State} state
 */
export function endScreen(guide, { answers }) {
  const screen = clone("guide-end");
  const at = refs(screen);
  const open = guide.steps.filter((s) => !answers.get(s.id)?.result);
  const todo = guide.steps.filter((s) => leavesSomething(answers.get(s.id)?.result));
  at.title.textContent = guide.title;
  at.count.textContent = say(open.length > 0 ? "guide.count" : todo.length > 0 ? "guide.count.all" : "guide.count.clear", { n: guide.steps.length - open.length, of: guide.steps.length });
  at["todo-part"].hidden = todo.length === 0;
  at.todo.replaceChildren(...todo.map((s) => todoItem(s, sayOfStep("answer", answers.get(s.id)?.result ?? "", s.slot))));
  at["open-part"].hidden = open.length === 0;
  at.open.replaceChildren(...open.map((s) => stepRow(s, answers)));
  return screen;
}

/** @param {Step} step @param {string} answer in words */
function todoItem(step, answer) {
  const item = clone("guide-todo");
  const { title, what, fitted, show } = refs(item);
  title.textContent = `${step.title}:`;
  what.textContent = answer;
  fitted.hidden = !isExchanged(step);
  fitted.dataset.slot = step.slot ?? "";
  fitted.dataset.step = show.dataset.step = step.id;
  return item;
}
