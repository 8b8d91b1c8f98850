// What the modules of the worker must not do.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";

const first = new URL("../../pwa/worker/worker.js", import.meta.url);

/** Every module that the worker may load, by following what they import. */
async function reached(url, seen = new Map()) {
  if (seen.has(url.href)) return seen;
  const text = (await readFile(url, "utf8")).replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, "");
  seen.set(url.href, text);
  for (const [, path] of text.matchAll(/(?:from|import\()\s*"(\.[^"]+)"/g)) await reached(new URL(path, url), seen);
  return seen;
}

// Chromium 156 crashes the page when a worker that is being ended reads it: the record of its
// modules is gone by then, and the lookup ends the process. Quick taps through fresh pages did that.
test("no module of the worker reads import.meta", async () => {
  const modules = await reached(first);
  assert.ok(modules.size > 10, `only ${modules.size} modules were found`);
  assert.deepEqual([...modules].filter(([, text]) => text.includes("import.meta")).map(([href]) => href), []);
});
