// What another phone enters waits while a finger is on a row of the Book, and a second longer.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { turn } from "./turn.mjs";
import { BookPage } from "../../pwa/pages/book.js";
import { noteTouch } from "../../pwa/parts/settled.js";

const session = (id) => ({ session: { id, title: id, opened: 1, open: false, ms: 0, starts: 0, entries: 1 } });

test("a row that comes while another is held stands above it a second later", async (t) => {
  const main = place();
  const life = new AbortController();
  t.after(() => life.abort());
  const items = [session("a")];
  const journal = Object.assign(new EventTarget(), { state: { coming: 0 }, read: async () => ({ views: { days: { items: [...items] } } }) });
  await new BookPage(main, /** @type {any} */ ({ journal, life: life.signal, toasts: { problem: assert.fail }, settings: { values: { units: "metric" } }, call: async () => ({}) })).start();
  const shown = () => [...main.querySelectorAll("[data-ref=days] b")].map((el) => el.textContent).join("");
  assert.equal(shown(), "a");
  t.mock.timers.enable({ apis: ["setTimeout"] });
  let now = 50_000;
  t.mock.method(performance, "now", () => now);
  const finger = (type) => noteTouch(/** @type {any} */ ({ type, pointerId: 1, target: main.querySelector("[data-ref=days] b") }));
  finger("pointerdown");
  items.unshift(session("b"));
  journal.dispatchEvent(new Event("views"));
  await turn();
  assert.equal(shown(), "a", "nothing moves under the finger");
  finger("pointerup");
  now += 1000;
  t.mock.timers.tick(1000);
  await turn();
  assert.equal(shown(), "ba");
});
