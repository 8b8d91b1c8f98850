// Older sessions come from the sums: while those do not run, the tap says so and may be made again.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place, rows } from "./screen.mjs";
import { turn } from "./turn.mjs";
import { BookPage } from "../../pwa/pages/book.js";

const session = (id) => ({ session: { id, title: id, opened: 1, open: false, ms: 0, starts: 0, entries: 1 } });
const settings = { values: { units: "metric" } };
/** Of the sums the Book asks for older days alone. @param {(mark: any) => Promise<any>} days */
const answering = (days) => async (name, { before }) => (name === "journal-days" ? days(before) : Promise.reject(new Error("asked")));

test("older sessions that cannot be read are said, and come at the next tap", async () => {
  const main = place();
  const told = [];
  let runs = false;
  const journal = Object.assign(new EventTarget(), {
    state: { coming: 0 },
    read: async () => ({ views: { days: { items: [session("new")], more: true } } }),
  });
  const call = answering(async () => (runs ? { items: [session("old")], more: false } : Promise.reject({ kind: "busy", msg: "The sums are waiting" })));
  await new BookPage(main, /** @type {any} */ ({ settings, call, journal, life: new AbortController().signal, toasts: { problem: ({ msg }) => told.push(msg) } })).start();
  const older = async () => {
    main.querySelector("[data-action=older]").click();
    await turn();
  };
  await older();
  assert.deepEqual(told, ["The sums are waiting"]);
  runs = true;
  await older();
  assert.equal(main.querySelectorAll("[data-ref=days] li").length, 2);
});

test("older sessions stay where they are, whatever comes meanwhile", async (t) => {
  const main = place();
  const life = new AbortController();
  t.after(() => life.abort());
  const all = ["e", "d", "c", "b", "a"].map(session); // newest first; the view has two
  const asked = [];
  const journal = Object.assign(new EventTarget(), {
    state: { coming: 0 },
    read: async () => ({ views: { days: { items: all.slice(0, 2), more: true } } }),
  });
  const call = answering((last) => new Promise((resolve) => asked.push(() => {
    const from = all.findIndex((one) => one.session.id === last.id) + 1;
    resolve({ items: all.slice(from, from + 2), more: from + 2 < all.length });
  })));
  await new BookPage(main, /** @type {any} */ ({ settings, call, journal, life: life.signal, toasts: { problem: assert.fail } })).start();
  const change = () => (journal.dispatchEvent(new Event("views")), turn());
  const shown = () => [...main.querySelectorAll("[data-ref=days] b")].map((el) => el.textContent).join("");
  const older = () => main.querySelector("[data-action=older]").click();
  const answer = () => (asked.shift()(), turn());

  older();
  all.unshift(session("f"));
  await change();
  await answer();
  assert.equal(shown(), "fedcb", "no gap, although a session was begun meanwhile");
  await change();
  assert.equal(shown(), "fedcb", "what was asked for stays");
  older();
  older();
  await answer();
  await answer();
  assert.equal(shown(), "fedcba", "tapped twice, shown once");
});
