// What is kept of rig and site goes into a form by the rule that the sums have.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { fieldsKept } from "../../pwa/parts/rig-and-site.js";

const declared = [
  { key: "today" }, { key: "amps", owner: "rig" }, { key: "least", owner: "plate" }, { key: "volts", owner: "site" },
  { key: "air", owner: "truck", item: "compressor" }, { key: "tank", owner: "truck", item: "compressor" }, { key: "hose", owner: "truck", item: "hose" },
];

for (const { name, rig, site, want } of JSON.parse(await readFile(new URL("../known.json", import.meta.url), "utf8"))) {
  test(name, () => assert.deepEqual(fieldsKept(/** @type {any} */ (declared), /** @type {any} */ ({ fields: rig }), /** @type {any} */ ({ fields: site })), want));
}

test("no rig and no site", () => assert.deepEqual(fieldsKept(/** @type {any} */ (declared), null, null), {}));
