// What has not changed is the same control after a repaint: it keeps its focus, and a press that is under way.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { make } from "../../pwa/parts/dom.js";
import { renderRows } from "../../pwa/parts/rows.js";

const { GuideView } = await import("../../pwa/guide/guide.js");

test("a row of a list stays, wherever others come, go or change", () => {
  const list = make("ul");
  const made = [];
  /** Paints, and tells each row by its number: the how manieth that was ever made. */
  const paint = (...items) => {
    renderRows(list, items, ({ id, word }) => make("li", {}, make("button", { text: `${id} ${word}` })), () => ({ name: "" }));
    return [...list.children].map((row) => (made.includes(row) ? made.indexOf(row) : made.push(row) - 1));
  };
  const item = (id, word = "", hidden = 0) => ({ id, word, hidden });
  assert.deepEqual(paint(item("a"), item("b"), item("c")), [0, 1, 2]);
  assert.deepEqual(paint(item("a"), item("b"), item("c")), [0, 1, 2]);
  let removed = 0;
  made[1].remove = () => removed++;
  assert.deepEqual(paint(item("new"), item("a", "changed"), item("b"), item("last")), [3, 4, 1, 5]);
  assert.deepEqual([...list.children].map((row) => row.textContent), ["new ", "a changed", "b ", "last "]);
  assert.deepEqual(paint(item("b"), item("last")), [1, 5]);
  assert.equal(removed, 0, "not even for a moment");
  delete made[1].remove;
  assert.deepEqual(paint(item("b", "", 1), item("last")), [6, 5], "what its listeners know is another");
  assert.deepEqual(paint(item("x"), item("x")), [7, 8]);
  assert.equal(paint(item("x"), item("x")).length, 2);
});

test("the cover of a guide stays while no answer is another", () => {
  const guide = { id: "g", title: "G", when: "", about: "", place: "ready", form: "steps", minutes: 1, cautions: "", sources: [],
    steps: [{ id: "one", title: "One", do: "", why: "", answers: ["done"], source: "" }] };
  const main = place();
  const page = new GuideView(main, /** @type {any} */ ({ drawings: {}, html() {} }));
  page.show(/** @type {any} */ (guide), { answers: { one: { result: "done", readings: {} } } });
  const begin = () => main.querySelector("[data-ref=begin]");
  const first = begin();
  page.restore({ one: { result: "done", readings: {} } });
  assert.ok(begin() === first);
  page.restore({ one: { result: "not-done", readings: {} } });
  assert.ok(begin() !== first);
});
