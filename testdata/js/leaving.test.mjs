// What fails because the page is being left is told only if it stays.

import assert from "node:assert/strict";
import { readdir, readFile } from "node:fs/promises";
import { test } from "node:test";
import { turn } from "./turn.mjs";

const page = new EventTarget();
globalThis.addEventListener = page.addEventListener.bind(page);
const { loadUnlessLeft, staying, unlessLeft } = await import("../../pwa/browser/leaving.js");
const { request } = await import("../../pwa/journal/crew/request.js");
delete globalThis.addEventListener;

/** Whether a promise is settled by now. */
async function settled(promise) {
  let is = false;
  promise.then(() => (is = true), () => (is = true));
  await turn();
  return is;
}

test("what fails is told at once, unless the page is being left; then when it has stayed", async (t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  const cut = () => Promise.reject(new TypeError("cut off"));
  await assert.rejects(unlessLeft(cut()), /cut off/);
  assert.equal(await unlessLeft(Promise.resolve(1)), 1);
  page.dispatchEvent(new Event("beforeunload"));
  assert.equal(await unlessLeft(Promise.resolve(2)), 2);
  const late = [unlessLeft(cut()), staying(), request("GET", "/api/devices", undefined, cut)];
  assert.deepEqual(await Promise.all(late.map(settled)), [false, false, false]);
  t.mock.timers.tick(9_999);
  assert.deepEqual(await Promise.all(late.map(settled)), [false, false, false]);
  t.mock.timers.tick(1);
  await assert.rejects(late[0], /cut off/);
  await late[1];
  await assert.rejects(late[2], { kind: "no-answer" });
});

test("a page that is being left is not loaded anew, unless it stays", async (t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  const done = [];
  let leaves = true; // once, while it gets ready
  const loading = loadUnlessLeft({
    ready: async () => {
      done.push("ready");
      if (leaves) page.dispatchEvent(new Event("beforeunload"));
      leaves = false;
    },
    stay: () => done.push("stay"),
    load: () => done.push("load"),
  });
  assert.equal(await settled(loading), false);
  assert.deepEqual(done, ["ready", "stay"]);
  t.mock.timers.tick(10_000);
  await loading;
  assert.deepEqual(done, ["ready", "stay", "ready", "load"]);

  page.dispatchEvent(new Event("beforeunload"));
  const late = loadUnlessLeft({ ready: async () => done.push("late"), stay: () => {}, load: () => done.push("load") });
  assert.equal(await settled(late), false);
  assert.equal(done.length, 4, "what is asked while it is being left waits too");
  t.mock.timers.tick(10_000);
  await late;
  assert.deepEqual(done.slice(4), ["late", "load"]);
});

// The table of screens in app.js is loaded by show(), which goes through it.
test("what a page imports on demand goes through unlessLeft", async () => {
  const root = new URL("../../pwa/", import.meta.url);
  const bare = [];
  let found = 0;
  for (const name of await readdir(root, { recursive: true })) {
    if (!name.endsWith(".js") || /^(gen|worker)\//.test(name)) continue; // gen is built; a worker is not left, it is ended
    const text = (await readFile(new URL(name, root), "utf8")).replace(/\/\*[\s\S]*?\*\//g, "");
    for (const [line] of text.matchAll(/^.*[^.#\w]import\(.*$/gm)) {
      if (name === "app.js" && /^  \[\/\^.*\],$/.test(line)) continue;
      found++;
      if (!line.includes("unlessLeft(import(")) bare.push(`${name}: ${line.trim()}`);
    }
  }
  assert.deepEqual(bare, []);
  assert.ok(found > 5, `only ${found} were found`);
});
