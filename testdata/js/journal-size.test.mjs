import assert from "node:assert/strict";
import { readdir, readFile } from "node:fs/promises";
import { test } from "node:test";
import { gzipSync } from "node:zlib";

// The budget of the design, for the files as they go over the air.
const budget = 15_000;

test("the store and the sync take at most 15 KB of the air", async () => {
  const app = new URL("../../pwa/", import.meta.url);
  const packed = JSON.parse(await readFile(new URL("gen/modules.json", app), "utf8"));
  const names = (await readdir(new URL("journal/", app))).filter((name) => name.endsWith(".js")).sort();
  assert.ok(names.length > 5, "the files are where they are looked for");
  const texts = names.map((name) => packed[`journal/${name}`]?.text ?? assert.fail(`${name} is not packed: go run ./cmd/dev test does that`));
  const size = gzipSync(texts.join("\n"), { level: 9 }).length;
  assert.ok(size <= budget, `${size} bytes`);
});
