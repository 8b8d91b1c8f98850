import assert from "node:assert/strict";
import { test } from "node:test";

const { isNewer } = await import("../../pwa/parts/newer.js");

test("only a version behind another one is new", () => {
  const [first, second] = [{}, {}];
  assert.equal(isNewer(second, first), true);
  assert.equal(isNewer(null, first), false, "nothing waits");
  assert.equal(isNewer(first, null), false, "the first visit");
  assert.equal(isNewer(first, first), false, "the first visit in WebKit, 2 of 25");
});
