// A field of rows: each in words, one open, the next a copy of the last, one change told for each tap.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { turn } from "./turn.mjs";
import { Form } from "../../pwa/parts/form.js";

const metals = ["mild-steel", "stainless", "aluminium", "copper", "brass"].map((word) => ({ word, label: word === "mild-steel" ? "Mild steel" : word }));
const cuts = {
  key: "cuts", label: "Cuts", kind: "list", rows: {
    name: "Cut", shown: "{name} · {count} × {length} · {thickness} {metal} · {pierces|pierce|pierces}", bare: ["metal", "thickness"], ordered: true, most: 4,
    fields: [
      { key: "metal", label: "Metal", kind: "choice", choices: metals, default: "mild-steel" },
      { key: "thickness", label: "Thickness", kind: "number", bare: "mm", us: "in", chips: ["3mm", "6mm"] },
      { key: "length", label: "Length", kind: "number", bare: "mm", us: "in", chips: ["300mm", "400mm"] },
      { key: "count", label: "How many", kind: "count", default: "1", chips: ["1", "2"] },
      { key: "pierces", label: "Pierces", kind: "count", default: "0", chips: ["0", "1"], fine: true },
      { key: "name", label: "Name", kind: "text", optional: true, fine: true },
    ],
  },
};

/** A form with that list; pads answer with what is entered next. @param {Record<string, any>[]} rows */
function open(rows = []) {
  const world = { told: [], reads: [], toasts: [], entered: [] };
  const form = new Form(/** @type {any} */ ([cuts]), /** @type {any} */ ({
    pad: { ask: async ({ read }) => (await read?.("x"), world.entered.shift() ?? null) }, chooser: { ask: async () => world.entered.shift() ?? null }, units: () => "metric",
    read: async (key, text) => (world.reads.push(key), { text }), toasts: { show: (text, options) => world.toasts.push({ text, ...options }) },
  }), { values: rows.length ? { cuts: JSON.stringify(rows) } : {}, changed: (values) => world.told.push(values) });
  place().append(form.element);
  const list = form.fields.get("cuts");
  const button = (name) => [...form.element.querySelectorAll("button")].find((el) => (el.getAttribute("aria-label") ?? el.textContent) === name || el.textContent.replaceAll("\u00a0", " ") === name);
  const tap = async (name, ...entered) => {
    world.entered = entered;
    const el = button(name);
    assert.ok(el, `no button ${name}`);
    el.click();
    for (let i = 0; i < 4; i++) await turn();
  };
  return Object.assign(world, { form, list, tap, button, rows: () => JSON.parse(list.value || "[]"), said: () => [...form.element.querySelectorAll("ol > li b")].map((b) => b.textContent.replaceAll("\u00a0", " ")) });
}

test("a row is entered by a tap for each value, and each is told once", async () => {
  const { tap, rows, told } = open();
  for (const name of ["Add a cut", "6 mm", "400 mm", "2"]) await tap(name);
  assert.equal(told.length, 4);
  const [{ _key, ...row }] = rows();
  assert.deepEqual(row, { thickness: "6mm", length: "400mm", count: "2" });
  assert.match(_key, /^[a-z\d]{6}$/i);
});

test("the next row is a copy of the last under a key of its own, without its words", async () => {
  const { tap, rows } = open([{ _key: "a", _at: 7, metal: "stainless", thickness: "3mm", count: "2", name: "rail" }]);
  await tap("Next cut");
  await tap("300 mm");
  const [first, { _key, ...next }] = rows();
  assert.deepEqual(first, { _key: "a", _at: 7, metal: "stainless", thickness: "3mm", count: "2", name: "rail" });
  assert.deepEqual(next, { metal: "stainless", thickness: "3mm", count: "2", length: "300mm" });
  assert.notEqual(_key, "a");
});

test("a row stands in words, without what is nothing", () => {
  assert.deepEqual(open([{ thickness: "6mm", length: "400mm", count: "3" }, { metal: "stainless", pierces: "2", name: "rail", count: "1" }, {}]).said(), ["1. 3 × 400 mm · 6 mm mild steel", "2. rail · 1 × · stainless · 2 pierces", "3. mild steel"]);
});

test("a value that is no common one is asked on the pad, read as a cell of the list, and stands among them", async () => {
  const { tap, rows, reads, button } = open([{ _key: "a", thickness: "6mm" }]);
  await tap("1. 6 mm mild steel");
  await tap("Thickness: Another figure", "7mm");
  assert.equal(rows()[0].thickness, "7mm");
  assert.deepEqual(reads, ["cuts.thickness"]);
  assert.equal(button("7 mm").getAttribute("aria-pressed"), "true");
});

test("what is wrong with a row stands beside it, open or not", async () => {
  const { form, tap } = open([{ _key: "a", thickness: "6mm" }, { _key: "b", thickness: "90mm" }]);
  const trouble = { kind: "range", field: "cuts.2.thickness", msg: "Cut 2: too thick", hint: "30 mm at most." };
  assert.deepEqual(form.wrong(/** @type {any} */ (trouble)), []);
  const wrong = () => [...form.element.querySelectorAll("ol > li")].map((li) => [...li.querySelectorAll(".wrong")].filter((el) => !el.hidden).map((el) => el.textContent).join());
  assert.deepEqual(wrong(), ["", "Cut 2: too thick30 mm at most."]);
  await tap("2. 90 mm mild steelCut 2: too thick30 mm at most.");
  assert.deepEqual(wrong(), ["", "too thick30 mm at most."]);
  assert.ok(form.element.querySelector("[data-key=thickness][data-wrong]"));
  form.wrong(null);
  assert.deepEqual(wrong(), ["", ""]);
});

test("what is wrong with no row of the list is given back", () => {
  const { form } = open([{ _key: "a" }]);
  const other = { kind: "range", field: "times.1.moving", msg: "" };
  assert.deepEqual(form.wrong(/** @type {any} */ (other)), [other]);
});

test("a row is moved and taken out, and Undo puts it back where it was", async () => {
  const { tap, rows, toasts } = open([{ _key: "a" }, { _key: "b" }, { _key: "c" }]);
  const keys = () => rows().map(({ _key }) => _key).join("");
  await tap("2. mild steel");
  await tap("▼ Down");
  assert.equal(keys(), "acb");
  await tap("▼ Down");
  assert.equal(keys(), "acb");
  await tap("▲ Up");
  await tap("Take this cut out");
  assert.equal(keys(), "ac");
  toasts[0].undo();
  assert.equal(keys(), "abc");
});

test("rows of another phone come in, and the one that is open stays as it is entered", async () => {
  const { list, tap, rows } = open([{ _key: "a", thickness: "6mm" }, { _key: "b", thickness: "6mm" }]);
  await tap("1. 6 mm mild steel");
  await tap("3 mm");
  list.fill(JSON.stringify([{ _key: "a", thickness: "6mm" }, { _key: "b", thickness: "3mm" }, { _key: "c", thickness: "6mm" }]));
  assert.deepEqual(rows().map(({ _key, thickness }) => `${_key} ${thickness}`), ["a 3mm", "b 3mm", "c 6mm"]);
});

test("no more rows are offered than the list takes", async () => {
  const { button } = open([{ _key: "a" }, { _key: "b" }, { _key: "c" }, { _key: "d" }]);
  assert.equal(button("Next cut").disabled, true);
});

test("what is no list of rows is none", () => {
  for (const text of ["6mm mild-steel", "{", "7", "{}"]) {
    const { list } = open();
    list.fill(text);
    assert.equal(list.value, "");
  }
});
