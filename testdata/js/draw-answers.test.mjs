import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { test } from "node:test";
import "./page.mjs";
import { sound, wordsFit } from "./sound.mjs";
import { still } from "./still.mjs";
import { startWasm } from "./wasm.mjs";

const { picturesOf } = await import("../../pwa/draw/beside.js");
const { wordsWith } = await import("../../pwa/words/drawings.js");

const vectors = new URL("../calc/", import.meta.url);

/** Every input of the vectors, which the Go tests hold to published values. */
function* inputs() {
  for (const file of readdirSync(vectors).filter((name) => name.endsWith(".txt"))) {
    for (const [, name, json] of readFileSync(new URL(file, vectors), "utf8").matchAll(/^in\s+([\w-]+)\s+(\{.*\})\s*$/gm)) {
      let values;
      try {
        values = JSON.parse(json);
      } catch {
        continue; // a vector of bad input
      }
      yield { name, values };
    }
  }
}

const call = await startWasm();

/** What the sums answer, or null for a refusal. */
function answer(name, values) {
  try {
    return call(name, values);
  } catch (trouble) {
    assert.ok(trouble.kind, String(trouble)); // anything else is a fault of ours
    return null;
  }
}

const drawn = ["air-hose", "air-tank", "air-water", "arc-offsets", "bevel-cut", "bracket-develop", "calibration", "circle-hole", "cut-plan", "divide", "duty", "electrode-wear", "face-grade",
  "fire-watch", "frame-lengths", "gauge", "generator", "gouge", "guide-offset", "job-cost", "nest-strip", "noise-dose", "part-life", "piece-weight", "pipe-mitre", "pipe-saddle", "pipe-wrap",
  "release-plan", "site-check", "square-up", "supply", "tip-wear", "trial-strips", "work-lead"];

test("every answer's pictures stand, in both systems of units: named, described, sound, words clear of one another", () => {
  const seen = new Set();
  for (const { name, values } of inputs()) {
    for (const units of ["metric", "us"]) {
      const told = answer(name, { ...values, units });
      if (!told) continue;
      for (const svg of picturesOf(told, still)) {
        const where = `${name} ${JSON.stringify(values)} ${units}`;
        seen.add(name);
        sound(svg, where);
        wordsFit(svg, where);
      }
    }
  }
  assert.deepEqual([...seen].sort(), drawn);
});

test("every length in a picture is as the sums print it", () => {
  const lengths = /(\d[\d/.-]*) mm/;
  for (const { name, values } of inputs()) {
    const told = answer(name, { ...values, units: "us" });
    if (!told) continue;
    for (const svg of picturesOf(told, still)) {
      const said = svg.find((e) => e.name === "text" || e.name === "desc").map((e) => e.text).join(" | ");
      assert.ok(!lengths.test(said), `${name} ${JSON.stringify(values)}: "${said}" has millimetres for a reader of inches`);
    }
  }
});

test("a length that was not printed is in millimetres", () => {
  const words = wordsWith([[0.95, "0.0374 in"]]);
  assert.equal(words.length(0.95), "0.0374 in");
  assert.equal(words.length(1.1), "1.1 mm");
});

const one = (name, values) => picturesOf(answer(name, { units: "metric", ...values }), still);
const numbers = (text) => text.match(/-?[\d.]+/g).map(Number);

test("kerf and plate are to one scale", () => {
  const [, svg] = one("cut-plan", { metal: "mild-steel", thickness: "6mm", tips: "40A:0.95mm" });
  const plate = svg.find((e) => e.name === "rect");
  const between = Number(plate[1].attr("x")) - Number(plate[0].attr("x")) - Number(plate[0].attr("width"));
  assert.ok(Math.abs(between / plate[0].attr("height") - 0.95 * 1.3 / 6) < 0.005);
});

test("bars are as long as their values, and say when a limit is passed", () => {
  const [svg] = one("supply", { current: "30A", volts: "230V", size: "2.5mm²", length: "60m" });
  const told = answer("supply", { current: "30A", volts: "230V", size: "2.5mm²", length: "60m", units: "metric" });
  const [socket, machine] = svg.find((e) => e.name === "rect").map((e) => Number(e.attr("width")));
  assert.ok(Math.abs(machine / socket - told.results.volts_at_machine.value / 230) < 0.005);
  assert.match(svg.find((e) => e.name === "desc")[0].text, /at the machine: [\d.]+ V, past its limit/);
});

test("the sheets of one gauge number are to one scale: 16 ga is 1.519, 1.613, 1.588 and 1.291 mm", () => {
  // Law of 1893 (steel, by 41.82 lb/ft² per inch), its zinc, the stainless custom of 640 oz/ft², and B&S.
  const [svg] = one("gauge", { gauge: "16ga" });
  const high = svg.find((e) => e.name === "rect").map((e) => Number(e.attr("height")));
  [1.519, 1.613, 1.588, 1.291].forEach((mm, i) => assert.ok(Math.abs(high[i] / high[0] - mm / 1.519) < 0.005, `sheet ${i}: ${high[i]}`));
});

test("a piece balances where the geometry of an L says", () => {
  // Two rectangles, 90×240 and 210×80: x̄ = (90·240·45 + 210·80·195)/38400, ȳ = (90·240·120 + 210·80·40)/38400.
  const [svg] = one("piece-weight", { shape: "outline", corners: "0:0,300mm:0,300mm:80mm,90mm:80mm,90mm:240mm,0:240mm", thickness: "10mm" });
  const outline = numbers(svg.find((e) => e.name === "path" && e.attr("fill-rule"))[0].attr("d"));
  const [left, bottom, right] = [outline[0], outline[1], outline[2]];
  const scale = (right - left) / 300;
  const cross = svg.find((e) => e.name === "circle" && e.attr("class") === "draw-paper")[0];
  assert.ok(Math.abs((cross.attr("cx") - left) / scale - (90 * 240 * 45 + 210 * 80 * 195) / 38400) < 1);
  assert.ok(Math.abs((bottom - cross.attr("cy")) / scale - (90 * 240 * 120 + 210 * 80 * 40) / 38400) < 1);
});

test("the ten minutes are parted as the duty says", () => {
  const [bar] = one("duty", { points: "60A:40%,40A:90%", current: "60A" });
  const [on, all] = bar.find((e) => e.name === "rect").map((e) => Number(e.attr("width")));
  assert.ok(Math.abs(on / all - 0.4) < 0.002);
});

test("the range of a forecast is drawn where there is one, and only there", () => {
  const electrode = { depth: "0.9mm", starts: "150", minutes: "22min", job_starts: "60", job_minutes: "9min" };
  const bands = (values) => one("electrode-wear", { off_centre: "no", ...values })[1].find((e) => e.name === "path" && e.attr("fill") === "currentColor").length;
  assert.equal(bands({ ...electrode, readings: "120:25min:0.4mm, 300:30min:0.8mm, 250:45min:0.95mm, 520:60min:1.5mm, 80:15min:0.3mm, 600:20min:1.2mm" }), 1);
  assert.equal(bands(electrode), 0);
});

test("each cut of a calibration stands in the row of its verdict", () => {
  const [svg] = one("calibration", { tips: "40A:0.95mm", tries: "mild-steel 6mm 40A 800mm/min good; mild-steel 6mm 40A 1800mm/min did-not-sever" });
  assert.equal(svg.find((e) => e.name === "circle").length, 1);
  assert.match(svg.find((e) => e.name === "desc")[0].text, /Cut 1 at [\d.]+ times: good\. Cut 2 at [\d.]+ times: not severed\./);
});
