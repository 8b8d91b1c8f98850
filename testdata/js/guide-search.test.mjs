import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

const { GuideSearch } = await import("../../pwa/guide/search.js");
const { guideHTML } = await import("../../pwa/browser/trusted.js");

const stored = (name) => readFileSync(new URL(`../guides/${name}`, import.meta.url), "utf8");
const search = new GuideSearch(JSON.parse(stored("example-search.json")));

test("text is folded as the server folds it", () => {
  let cases = 0;
  for (const line of stored("words.txt").split("\n")) {
    const at = line.indexOf("=>");
    if (line.startsWith("#") || at < 0) continue;
    const want = line.slice(at + 2).split(" ").filter(Boolean);
    assert.deepEqual(search.words(line.slice(0, at)), want, line);
    cases += 1;
  }
  assert.ok(cases > 15);
});

test("a step is found by any word for the thing", () => {
  for (const query of ["retaining cap", "outer nozzle", "shield", "cup hole", "spatter", "HOLES"]) {
    assert.ok(search.find(query).some((d) => d.step === "air-holes"), query);
  }
});

test("a word half typed finds what it begins", () => {
  assert.ok(search.find("spat").some((d) => d.step === "air-holes"));
});

test("every word must be met", () => {
  assert.deepEqual(search.find("spatter pliers"), []);
  assert.deepEqual(search.find("unicorn"), []);
  assert.deepEqual(search.find("  the "), []);
});

test("the title outweighs the text", () => {
  assert.equal(search.find("cup")[0].title, "Look at the cup");
  assert.equal(search.find("air holes")[0].step, "air-holes");
});

test("the page's own gate lets the server's HTML pass", () => {
  const guide = JSON.parse(stored("example.json"));
  const html = [guide.about, guide.cautions, ...guide.steps.flatMap((s) => [s.caution ?? "", s.do])];
  for (const markup of html) assert.equal(guideHTML(markup), markup);
});

test("what the index does not hold is met by the same words, its title before the rest", () => {
  assert.equal(search.weigh("slag", ["Dross on the bottom", "go faster"]), 4);
  assert.equal(search.weigh("nozzle", ["Wear of a part", "the tip's bore"]), 2);
  assert.equal(search.weigh("slag unicorn", ["Dross on the bottom"]), 0);
  assert.equal(search.weigh("the", ["the"]), 0);
});
