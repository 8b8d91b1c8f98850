// The check finds what is planted, line for line, and nothing in what is old enough.

import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { fileURLToPath } from "node:url";

const here = (name) => fileURLToPath(new URL(name, import.meta.url));
const found = spawnSync(process.execPath, [here("check.mjs"), ...["new.js", "old.js", "new.css", "new.html"].map((name) => here(`planted/${name}`))], { encoding: "utf8" });

/** The lines that were named of a planted file. */
const linesOf = (name) => new Set([...found.stdout.matchAll(/planted\/([\w.]+):(\d+): /g)].filter((m) => m[1] === name).map((m) => Number(m[2])));

for (const [name, isMeant] of /** @type {const} */ ([["new.js", /^export/], ["new.css", /./], ["new.html", /./]])) {
  test(`each line of ${name} is found`, () => {
    const meant = readFileSync(here(`planted/${name}`), "utf8").split("\n").flatMap((line, i) => (isMeant.test(line) ? [i + 1] : []));
    const lines = linesOf(name);
    assert.deepEqual(meant.filter((line) => !lines.has(line)), [], found.stdout + found.stderr);
  });
}

test("what is old enough, or asked for first, is left alone", () => assert.deepEqual([...linesOf("old.js")], []));

test("it fails", () => assert.equal(found.status, 1));
