import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { test } from "node:test";
import "./page.mjs";
import { still } from "./still.mjs";
import { startWasm } from "./wasm.mjs";

const { drawings: toReadings } = await import("../../pwa/draw/index.js");
const { stillDrawings } = await import("../../pwa/draw/still.js");
const drawings = { ...toReadings, ...stillDrawings(still) };
const { english } = await import("../../pwa/words/drawings.js");
const { QuantityTexts } = await import("../../pwa/parts/quantity-texts.js");

const guides = new URL("../../guides/", import.meta.url);

/** Each drawing that a guide names, with its parameters. */
function* examples() {
  for (const file of readdirSync(guides).filter((name) => name.endsWith(".md"))) {
    for (const [, name, values] of readFileSync(new URL(file, guides), "utf8").matchAll(/^- Drawing: (\S+) ([^|]*)\|/gm)) {
      const params = Object.fromEntries(values.trim().split(/\s+/).filter(Boolean).map((pair) => pair.split("=")).map(([key, value]) => [key, value !== "" && Number.isFinite(Number(value)) ? Number(value) : value]));
      yield { file, name, params };
    }
  }
}

/** Whether a length is told more finely than a pin, a rule or two figures tell it. @param {string} number @param {string} unit */
function tooFine(number, unit) {
  if (number.includes("/")) return Number(number.split("/").pop()) > 32;
  const figures = number.replace(".", "").replace(/^0+/, "").length;
  if (unit === "mm") return (number.split(".")[1] ?? "").length > (Number(number) < 2 ? 2 : 1);
  return figures > 2 && number.includes(".");
}

test("no length in a guide's drawing is finer than its doubt, in both systems of units", async () => {
  const wasm = await startWasm();
  let seen = 0;
  for (const units of ["metric", "us"]) {
    const texts = new QuantityTexts({ call: async (name, input) => wasm(name, input), units: () => units });
    const words = { ...english, length: (mm, sort = "bore") => texts.say(mm, "length", "mm", sort) };
    for (const { file, name, params } of examples()) {
      drawings[name](params, words);
      await texts.learn();
      const svg = drawings[name](params, words);
      for (const told of ["text", "title", "desc"].flatMap((kind) => svg.find((e) => e.name === kind)).map((e) => e.text)) {
        for (const [, number, unit] of told.matchAll(/([\d.]*\d(?:-\d+\/\d+|\/\d+)?) (mm|in)\b/g)) {
          seen += 1;
          assert.ok(!tooFine(number, unit), `${file}, ${name}, ${units}: ${number} ${unit} in “${told}”`);
        }
      }
    }
  }
  assert.ok(seen > 50, `${seen} lengths looked at`);
});
