// A layout keeps its proportions and all of it lies in the picture, its words too.
import assert from "node:assert/strict";
import { test } from "node:test";
import "./page.mjs";

const { layout } = await import("../../pwa/draw/layout.js");

const named = (svg, name) => [...svg.all()].filter((e) => e.name === name);
const numbers = (d) => d.match(/-?[\d.]+/g).map(Number);

test("a square stays one, y goes up, and what each line is for shows", () => {
  const svg = layout({ title: "T", says: "S", lines: [["cut", true, 0, 0, 4000, 0, 4000, 4000, 0, 4000], ["hidden", false, 0, 0, 4000, 4000]] });
  const [square, across] = named(svg, "path").filter((p) => !p.attr("fill"));
  const [x1, y1, x2, , , y3] = numbers(square.attr("d"));
  assert.ok(Math.abs((x2 - x1) - (y1 - y3)) < 0.2 && y3 < y1, square.attr("d"));
  assert.match(square.attr("d"), /Z$/);
  assert.ok(Number(square.attr("stroke-width")) > Number(across.attr("stroke-width")));
  assert.ok(across.attr("stroke-dasharray"));
  assert.deepEqual([named(svg, "title")[0].text, named(svg, "desc")[0].text], ["T", "S"]);
});

test("words at an edge are moved into the picture, and a long thin layout has room for its measure", () => {
  const svg = layout({ title: "", says: "", lines: [["metal", false, 0, 0, 600000, 0]], measures: [[0, -100, 600000, -100, "6000 mm"]], texts: [[600000, 0, "start", "the far end"], [0, 0, "end", "near"]] });
  const words = named(svg, "text");
  for (const w of words) {
    const wide = w.text.length * 9.4;
    const left = Number(w.attr("x")) - { start: 0, middle: wide / 2, end: wide }[w.attr("text-anchor")];
    assert.ok(left >= 0 && left + wide <= 321, `${w.text} at ${left}`);
  }
  assert.equal(words.length, 3);
});

test("areas are filled by what becomes of them, circles are round the same scale", () => {
  const svg = layout({ title: "", says: "", areas: [["kerf", 0, 0, 100, 0, 100, 1000], ["waste", 0, 0, 500, 0, 500, 500]], circles: [["cut", 5000, 5000, 5000]] });
  const fills = named(svg, "path").map((p) => p.attr("fill")).filter((f) => f?.startsWith("url"));
  assert.equal(new Set(fills).size, 2);
  const [round] = named(svg, "circle");
  assert.ok(Math.abs(Number(round.attr("r")) - 134) < 0.5, round.attr("r"));
});

test("words that would stand on others go to the next line that is free", () => {
  const svg = layout({ title: "", says: "", lines: [["metal", true, 0, 0, 9000, 0, 9000, 9000, 0, 9000]], texts: Array.from({ length: 5 }, (_, n) => [4500 + n, 4500, "middle", `word ${n}`]) });
  const ys = named(svg, "text").map((w) => Number(w.attr("y"))).sort((a, b) => a - b);
  for (let i = 1; i < ys.length; i++) assert.ok(ys[i] - ys[i - 1] >= 15, ys.join(" "));
});
