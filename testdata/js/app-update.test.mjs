import assert from "node:assert/strict";
import { test } from "node:test";

const { isUpdate } = await import("../../pwa/parts/app-update.js");

test("only a version behind another one is new", () => {
  const [first, second] = [{}, {}];
  assert.equal(isUpdate(second, first), true);
  assert.equal(isUpdate(null, first), false, "nothing waits");
  assert.equal(isUpdate(first, null), false, "the first visit");
  assert.equal(isUpdate(first, first), false, "the first visit in WebKit, 2 of 25");
});
