// Refuses what a browser of pwa/browsers.json does not know. Run with nothing it reads what ships of pwa;
// with files, those. It prints a line for each trouble: what, where, and which browsers know it since when.

import { readFileSync, readdirSync } from "node:fs";
import { extname, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { usesOfMarkup } from "./markup.mjs";
import { learnNames, usesIn, usesOfProject } from "./scripts.mjs";
import { usesOfStyle } from "./styles.mjs";
import { tooNew } from "./support.mjs";

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const root = here("../../../../");
const optional = JSON.parse(readFileSync(here("optional.json"), "utf8"));

const given = process.argv.slice(2);
const files = given.length > 0 ? given : readdirSync(`${root}pwa`, { recursive: true }).map((name) => `${root}pwa/${name}`).filter((name) => !name.includes("pwa/gen/"));
const texts = (ext) => files.filter((name) => extname(name) === ext).map((name) => [readFileSync(name, "utf8"), name]);

learnNames((feature) => tooNew(feature).length);
const scripts = given.length > 0
  ? usesIn(given.filter((name) => /js$/.test(name)), { allowJs: true, checkJs: true, noEmit: true, target: 99, lib: ["lib.esnext.d.ts", "lib.dom.d.ts", "lib.dom.iterable.d.ts"], types: [] })
  : [...usesOfProject(here("../tsconfig.json")), ...usesOfProject(here("../tsconfig.worker.json"), [`${root}pwa/gen/wasm_exec.js`])];
const uses = [
  ...scripts,
  ...texts(".css").flatMap(([text, name]) => usesOfStyle(text, name)),
  ...texts(".html").flatMap(([text, name]) => usesOfMarkup(text, name)),
];

const needed = new Set();
const told = new Set();
for (const { feature, file, line } of uses) {
  const late = tooNew(feature);
  if (late.length === 0) continue;
  needed.add(feature);
  if (Object.hasOwn(optional, feature)) continue;
  told.add(`${relative(root, file)}:${line}: ${feature}: ${late.join(", ")}`);
}
if (given.length === 0) {
  for (const feature of Object.keys(optional)) if (!needed.has(feature)) told.add(`cmd/dev/npm/compat/optional.json: ${feature} is used nowhere, or every browser has it: take it out`);
}
for (const line of told) console.log(line);
console.log(`${new Set(uses.map((use) => use.feature)).size} features in ${uses.length} places`);
process.exitCode = told.size > 0 ? 1 : 0;
