import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { settle, stamp } from "../../pwa/journal/clock.js";

// The same vectors as calc/journal/event runs; the file says where they come from.
const vectors = JSON.parse(await readFile(new URL("../journal/clock.json", import.meta.url), "utf8"));

for (const { name, last, wall, offset, want } of vectors.stamps) {
  test(`stamp: ${name}`, () => assert.equal(stamp(last, wall, offset), want));
}

for (const { name, last, known, unsent, want } of vectors.settles) {
  test(`settle: ${name}`, () => assert.equal(settle(last, known, unsent), want));
}

test("a phone that has heard of nothing settles as the vectors say for zero", () => {
  assert.equal(settle("0199f3c0b4000004", "", true), "0199f3c0b4000004");
  assert.equal(settle("0199f3c0b4000004", "", false), "0".repeat(16));
});
