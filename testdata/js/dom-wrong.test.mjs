// An error comes to the eye: the first that is shown, out of its fold, with the keys at its control.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { make, showWrong } from "../../pwa/parts/dom.js";

/** What is brought into view and what gets the keys, while a test runs. */
function watch(t) {
  const { scrollIntoView, focus } = Element.prototype;
  const seen = [];
  t.after(() => Object.assign(Element.prototype, { scrollIntoView, focus }));
  Element.prototype.scrollIntoView = function () { seen.push(`shows ${this.id}`); };
  HTMLElement.prototype.focus = function () { seen.push(`keys to ${this.id}`); };
  return seen;
}

const wrong = (id, text, more = {}) => make("p", { class: "wrong", id, text, ...more });

test("the first that is wrong is brought up with its field, out of its fold", (t) => {
  const seen = watch(t);
  const fold = make("details", {}, make("div", { class: "field", id: "pressure" }, make("button", { id: "enter" }), wrong("much", "Too much")));
  const root = place();
  root.append(wrong("hidden", "Was wrong", { hidden: true }), wrong("empty", ""), fold, wrong("later", "Too little"));
  showWrong(root);
  assert.deepEqual(seen, ["keys to enter", "shows much", "shows pressure"]);
  assert.ok(fold.hasAttribute("open"));
});

test("one that a control is described by has its field, one of none is brought up itself", (t) => {
  const seen = watch(t);
  const root = place();
  root.append(make("label", { class: "field", id: "name" }, make("input", { id: "typed", "aria-describedby": "nameless" })), wrong("nameless", "Give it a name"));
  showWrong(root);
  assert.deepEqual(seen.splice(0), ["keys to typed", "shows nameless", "shows name"]);
  root.replaceChildren(wrong("refused", "The server refused it"));
  showWrong(root);
  assert.deepEqual(seen.splice(0), ["shows refused"]);
  root.replaceChildren();
  showWrong(root);
  assert.deepEqual(seen, []);
});
