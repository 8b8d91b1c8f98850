// localStorage has one door, which names all its keys and never throws.

import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { test } from "node:test";
import { setGlobals, storage } from "./globals.mjs";
import { drop, find, keep, keysUnder } from "../../pwa/browser/storage.js";
import { hintedCrew, setHint } from "../../pwa/journal/crew/database-name.js";

test("what is kept is found, until it is dropped", (t) => {
  setGlobals(t, { localStorage: storage() });
  keep("kerfside.crew", "c");
  keep("kerfside.seen.cut", "{}");
  assert.deepEqual([find("kerfside.crew"), find("kerfside.clock"), keysUnder("kerfside.seen.")], ["c", null, ["kerfside.seen.cut"]]);
  drop("kerfside.crew");
  assert.equal(find("kerfside.crew"), null);
});

test("a full one keeps what it has, and nobody is stopped", (t) => {
  const localStorage = storage();
  setGlobals(t, { localStorage });
  setHint("old");
  Object.defineProperty(localStorage, "setItem", { value: () => assert.fail("full") });
  setHint("new");
  assert.equal(hintedCrew(), "old");
});

test("one that is switched off is empty", (t) => {
  Object.defineProperty(globalThis, "localStorage", { get: () => assert.fail("switched off"), configurable: true });
  t.after(() => delete (/** @type {any} */ (globalThis).localStorage));
  setHint("crew");
  drop("kerfside.crew");
  assert.deepEqual([hintedCrew(), find("kerfside.clock"), keysUnder("kerfside.")], ["", null, []]);
});

test("nothing else touches it", () => {
  const pwa = new URL("../../pwa/", import.meta.url);
  const touching = readdirSync(pwa, { recursive: true }).map(String).filter((name) => name.endsWith(".js") && !name.startsWith("gen/"))
    .filter((name) => /\blocalStorage[?.[]/.test(readFileSync(new URL(name, pwa), "utf8").replace(/\/\*[^]*?\*\/|\/\/.*/g, "")));
  assert.deepEqual(touching, ["browser/storage.js"]);
});
