import assert from "node:assert/strict";
import { readdir, readFile } from "node:fs/promises";
import { test } from "node:test";
import { gzipSync } from "node:zlib";

// The budget of the design; comments go over the air with the files and count.
const budget = 15_000;

test("the store and the sync take at most 15 KB of the air", async () => {
  const folder = new URL("../../pwa/journal/", import.meta.url);
  const names = (await readdir(folder)).filter((name) => name.endsWith(".js")).sort();
  const files = await Promise.all(names.map((name) => readFile(new URL(name, folder))));
  const size = gzipSync(Buffer.concat(files), { level: 9 }).length;
  assert.ok(names.length > 5, "the files are where they are looked for");
  assert.ok(size <= budget, `${size} bytes`);
});
