// Older sessions come from the sums: while those do not run, the tap says so and may be made again.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place, rows } from "./screen.mjs";
import { BookPage } from "../../pwa/pages/book.js";

const session = (id) => ({ id, title: id, opened: 1, open: false, ms: 0, starts: 0, entries: 1 });

test("older sessions that cannot be read are said, and come at the next tap", async () => {
  const main = place();
  const told = [];
  let runs = false;
  const journal = Object.assign(new EventTarget(), {
    paint: async () => ({ views: { book: { sessions: [session("new")], total: 2 } } }),
    book: async () => (runs ? { sessions: [session("old")] } : Promise.reject({ kind: "busy", msg: "The sums are waiting" })),
  });
  await new BookPage(main, /** @type {any} */ ({ journal, life: new AbortController().signal, toasts: { problem: ({ msg }) => told.push(msg) } })).start();
  const older = async () => {
    main.querySelector("[data-action=older]").click();
    await new Promise((resolve) => setImmediate(resolve));
  };
  await older();
  assert.deepEqual(told, ["The sums are waiting"]);
  runs = true;
  await older();
  assert.equal(rows(main, "sessions").length, 2);
});
