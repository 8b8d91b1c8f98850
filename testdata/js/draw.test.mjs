import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import "./page.mjs";
import { sound, wordsFit } from "./sound.mjs";
import { still } from "./still.mjs";

const { drawings } = await import("../../pwa/draw/index.js");
const { stillDrawings } = await import("../../pwa/draw/still.js");
const stills = stillDrawings(still);
const { english } = await import("../../pwa/words/drawings.js");

/** The words that each drawing's parameters take, read from the list that lint uses. */
function listed() {
  const source = readFileSync(new URL("../../guides/drawings.go", import.meta.url), "utf8");
  const found = {};
  for (const [, name, params] of source.matchAll(/^\t"([\w-]+)":\s+\{(.*)\},$/gm)) {
    found[name] = Object.fromEntries([...params.matchAll(/"(\w+)": (?:number|\{([^}]*)\})/g)]
      .map(([, key, words]) => [key, words ? [...words.matchAll(/"([^"]+)"/g)].map((m) => m[1]) : null]));
  }
  return found;
}

/** Each drawing with nothing given, with each word, and with a spread of numbers. */
function* cases() {
  for (const [name, params] of Object.entries(listed())) {
    yield { name, params: {} };
    for (const [key, words] of Object.entries(params)) {
      for (const value of words ?? [0, 0.4, 1, 3, 12, 40]) yield { name, params: { [key]: value } };
    }
  }
}

test("the list that lint uses and the drawings are one set", () => {
  assert.deepEqual(Object.keys(listed()).sort(), Object.keys(drawings).sort());
});

test("every drawing stands in every state: named, described, sound, without styles", () => {
  let seen = 0;
  for (const { name, params } of cases()) {
    const where = `${name} ${JSON.stringify(params)}`;
    const svg = drawings[name](params);
    sound(svg, where);
    seen += 1;
  }
  assert.ok(seen > 30, `only ${seen} states were drawn`);
});

test("every drawing that never changes stands: named, described, sound, without styles, its words in the picture", () => {
  for (const [name, draw] of Object.entries(stills)) {
    sound(draw(), name);
    wordsFit(draw(), name);
    assert.ok(!/#hatch|"hatch"/.test(draw().find((e) => e.attr("fill") ?? e.attr("id")).map((e) => `${e.attr("fill")}"${e.attr("id")}"`).join(" ")), `${name}: its hatching has an id of its own`);
  }
  assert.ok(Object.keys(stills).length > 50);
});

test("words fit into the picture, in millimetres and in inches", () => {
  const inches = { ...english, length: (mm) => `${(mm / 25.4).toPrecision(3)} in` };
  for (const { name, params } of cases()) {
    for (const words of [english, inches]) wordsFit(drawings[name](params, words), `${name} ${JSON.stringify(params)} ${words.length(1)}`);
  }
});

test("two drawings on one page share no id", () => {
  const ids = [drawings.electrode({ pit: 1 }), drawings.electrode({ pit: 1 }), stills["clamp-near"](), stills["clamp-near"]()].flatMap((svg) => svg.find((e) => e.attr("id")).map((e) => e.attr("id")));
  assert.equal(new Set(ids).size, ids.length);
});

test("the orifice is to scale", () => {
  const svg = drawings.orifice({ new: 1, dmax: 1.2, dmin: 1.1 });
  const dashed = svg.find((e) => e.name === "circle" && e.attr("stroke-dasharray") === "8 6")[0];
  const ellipse = svg.find((e) => e.name === "path" && e.attr("fill-opacity"))[0].attr("d").match(/A ([\d.]+) ([\d.]+)/);
  assert.ok(Math.abs(ellipse[1] / dashed.attr("r") - 1.2) < 0.01, "widest to new");
  assert.ok(Math.abs(ellipse[2] / dashed.attr("r") - 1.1) < 0.01, "narrowest to new");
});

test("an orifice with nothing to compare shows no circle of the new one", () => {
  assert.equal(drawings.orifice({ dmin: 1.3 }).find((e) => e.attr("stroke-dasharray") === "8 6").length, 0);
});

test("the electrode's pit, insert and limit are to one scale", () => {
  const svg = drawings.electrode({ pit: 1, insert: 2, limit: 1.5 });
  const insert = svg.find((e) => e.name === "rect" && e.attr("class") === "draw-paper")[0];
  const top = Number(insert.attr("y"));
  const limit = svg.find((e) => e.name === "line" && e.attr("stroke-dasharray"))[0];
  assert.ok(Math.abs((limit.attr("y1") - top) / insert.attr("height") - 1.5 / 2) < 0.01, "limit to insert");
  const pit = svg.find((e) => e.name === "path" && e.attr("class") === "draw-paper")[0].attr("d").match(/([\d.]+) C [\d.]+ ([\d.]+)/);
  assert.ok(Math.abs((pit[2] - top) / 1.02 / insert.attr("height") - 1 / 2) < 0.02, "pit to insert");
});

test("the cup shows as many shut holes as were counted", () => {
  for (const [holes, clogged] of [[8, 0], [8, 3], [6, 6], [12, 5], [5, 9]]) {
    const svg = drawings["cup-face"]({ holes, clogged });
    const shut = svg.find((e) => e.name === "path" && e.attr("fill") === "currentColor").length;
    assert.equal(shut, Math.min(holes, clogged), `${clogged} of ${holes}`);
  }
});

test("kerf and cup are to one scale", () => {
  const svg = drawings.offset({ kerf: 2, cup: 20, keep: "part" });
  const cup = Number(svg.find((e) => e.name === "circle" && e.attr("class") === "draw-mark")[0].attr("r")) * 2;
  const lines = svg.find((e) => e.name === "path").map((e) => e.attr("d").match(/^M 12 ([\d.]+) L 308 \1$/)).filter(Boolean).map((m) => Number(m[1]));
  assert.equal(lines.length, 2, "both edges of the kerf");
  assert.ok(Math.abs((Math.max(...lines) - Math.min(...lines)) / cup - 2 / 20) < 0.01);
});

test("round a template the cup swaps sides: what lies under it is kept from outside, what lies beyond from inside", () => {
  for (const guide of ["straight", "outside", "inside"]) {
    for (const keep of ["part", "hole"]) {
      const said = (svg, word) => Number(svg.find((e) => e.name === "text" && e.text === word)[0].attr("y"));
      const svg = drawings.offset({ guide, keep });
      assert.equal(said(svg, "keep") < said(svg, "waste"), keep === "part", `${guide} ${keep}`);
    }
  }
});

test("another language or other units can be passed", () => {
  const inches = { ...english, length: (mm) => `${(mm / 25.4).toFixed(3)} in` };
  const svg = drawings.orifice({ new: 1.016, dmin: 1.27 }, inches);
  const said = svg.find((e) => e.name === "text").map((e) => e.text);
  assert.ok(said.includes("0.040 in"), said.join(" | "));
  assert.ok(said.includes("now 0.050 in"), said.join(" | "));
});
