// A file goes by the share sheet where the phone has one for such files, else into the downloads.

import assert from "node:assert/strict";
import { test } from "node:test";
import { setGlobals } from "./globals.mjs";
import { handOver } from "../../pwa/parts/download.js";

/** A phone; share: what its sheet does with a file; without, it has none. */
function phone(t, share, takes = () => true) {
  const saved = [];
  const shared = [];
  t.mock.timers.enable({ apis: ["setTimeout"] });
  setGlobals(t, {
    URL: Object.assign(class {}, { createObjectURL: () => "blob:1", revokeObjectURL() {} }),
    document: { createElement: () => ({ click() { saved.push(this.download); } }) },
    navigator: share ? { canShare: ({ files }) => takes(files[0]), share: async ({ files }) => (await share(), shared.push(files[0])) } : {},
  });
  return { saved, shared };
}

test("without a share sheet it is a download", async (t) => {
  const { saved } = phone(t);
  assert.equal(await handOver("a.ndjson", "{}"), true);
  assert.deepEqual(saved, ["a.ndjson"]);
});

test("a share sheet that takes such files gets it, whole", async (t) => {
  const { saved, shared } = phone(t, () => {});
  assert.equal(await handOver("a.jpg", new Uint8Array([1, 2]), "image/jpeg"), false);
  assert.deepEqual(saved, []);
  assert.deepEqual(shared.map(({ name, type, size }) => [name, type, size]), [["a.jpg", "image/jpeg", 2]]);
});

test("one that takes none is not asked", async (t) => {
  const { saved } = phone(t, assert.fail, (file) => file.type === "image/jpeg");
  assert.equal(await handOver("a.ndjson", "{}"), true);
  assert.deepEqual(saved, ["a.ndjson"]);
});

test("who closes the sheet wants no file, and that is no fault", async (t) => {
  const { saved } = phone(t, () => Promise.reject(new DOMException("", "AbortError")));
  assert.equal(await handOver("a.ndjson", "{}"), false);
  assert.deepEqual(saved, []);
});

test("a sheet that is refused leaves the download", async (t) => {
  const { saved } = phone(t, () => Promise.reject(new DOMException("", "NotAllowedError")));
  assert.equal(await handOver("a.ndjson", "{}"), true);
  assert.deepEqual(saved, ["a.ndjson"]);
});
