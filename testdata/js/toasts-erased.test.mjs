// Nothing brings an erased entry back, so no line offers to.

import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { SessionPage } from "../../pwa/pages/session.js";
import { Toasts } from "../../pwa/parts/toasts.js";

test("the line of a removal goes with its Undo when the entry is erased", async (t) => {
  const lines = document.createElement("div");
  const toasts = new Toasts(lines);
  const entry = { id: "note-1", kind: "note.added", v: 1, n: 7, at: 0, body: { text: "wrong gate" } };
  const answers = ["remove", "erase", "erase"];
  const journal = Object.assign(new EventTarget(), {
    read: async () => ({ views: {} }),
    voidEntry: async () => (entry.void = true), syncNow() {},
  });
  const was = globalThis.fetch;
  t.after(() => (globalThis.fetch = was));
  globalThis.fetch = async () => Response.json({ entries: 2, picture: false });
  const deps = { life: new AbortController().signal, journal, toasts, chooser: { ask: async () => answers.shift() }, settings: { values: {} }, asset: async () => ({}), call: async (name) => (name === "journal-session" ? { title: "", open: true, opened: 0, ms: 0, starts: 0, cuts: 0, entries: [entry] } : { texts: [] }) };
  /** Taps the entry on the session's screen; resolves when a line says what was done. */
  const tap = async () => {
    const main = place();
    await new SessionPage(main, deps).start({ id: "s-1" });
    const { show } = Toasts.prototype;
    const said = new Promise((resolve) => (toasts.show = (...words) => resolve(show.apply(toasts, words))));
    main.querySelector("[data-action=change]").dispatchEvent(new document.defaultView.Event("click", { bubbles: true }));
    await said;
    delete toasts.show;
  };
  const undos = () => [...lines.querySelectorAll("button")].length;
  await tap();
  assert.equal(undos(), 1, "the removal can be undone");
  await tap();
  assert.equal(undos(), 0);
  assert.ok(lines.textContent.includes("Erased."), lines.textContent);
  toasts.show("Two kept.", { undo() {}, about: ["note-2", "note-3"] });
  for (const [id, left] of [["note-1", 1], ["note-2", 1], ["note-3", 0]]) {
    toasts.erased(id);
    assert.equal(undos(), left, `after ${id}`);
  }
});
