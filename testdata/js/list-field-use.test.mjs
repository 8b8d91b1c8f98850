// A list of rows in use: how many taps a cut list takes, where the keys are, and what comes from elsewhere.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { turn } from "./turn.mjs";
import { rowSaid } from "../../pwa/parts/list-field.js";
import { Form } from "../../pwa/parts/form.js";

/** What has the focus, of which linkedom knows nothing: what is taken out has it no more. @type {any} */
let focused = null;
HTMLElement.prototype.focus = function () {
  focused = this;
};
Object.defineProperty(document, "activeElement", { get: () => (focused?.isConnected ? focused : document.body) });

const metals = ["Mild steel", "Stainless", "Aluminium", "Copper", "Brass"].map((label) => ({ word: label.toLowerCase().replace(" ", "-"), label }));
const cuts = {
  key: "cuts", label: "Cuts", kind: "list", rows: {
    name: "Cut", shown: "{name} · {count} × {length} · {thickness} {metal} · {pierces|pierce|pierces}", ordered: true, most: 200,
    fields: [
      { key: "metal", label: "Metal", kind: "choice", choices: metals, default: "mild-steel" },
      { key: "thickness", label: "Thickness", kind: "number", bare: "mm", us: "in", chips: ["3mm", "6mm", "10mm"] },
      { key: "length", label: "Length", kind: "number", bare: "mm", us: "in", chips: ["100mm", "200mm", "300mm", "500mm", "1m"] },
      { key: "count", label: "How many", kind: "count", default: "1", basis: "no source", chips: ["1", "2", "4"] },
      { key: "pierces", label: "Pierces", kind: "count", default: "0", chips: ["0", "1", "2"] },
      { key: "name", label: "Name", kind: "text", optional: true },
    ],
  },
};

/** A form with that list. @param {string} [text] */
function open(text = "", cutList = cuts) {
  const world = { taps: 0, told: 0, toasts: [], word: "" };
  const form = new Form(/** @type {any} */ ([cutList]), /** @type {any} */ ({
    pad: { ask: async () => null }, chooser: { ask: async () => (world.taps++, world.word) }, units: () => "metric",
    read: async () => null, toasts: { show: (said, options) => world.toasts.push(options) },
  }), { values: text ? { cuts: text } : {}, changed: () => world.told++ });
  place().append(form.element);
  const list = form.fields.get("cuts");
  const find = (selector) => /** @type {HTMLElement} */ (form.element.querySelector(selector));
  const press = async (el) => {
    world.taps++;
    el.focus();
    el.click();
    for (let i = 0; i < 4; i++) await turn();
  };
  return Object.assign(world, {
    form, list, find,
    rows: () => JSON.parse(list.value || "[]"),
    act: (name) => press(find(`[data-action=${name}]`)),
    open: (n) => press(form.element.querySelectorAll("ol > li")[n - 1].querySelector("[data-action=open]")),
    chip: (key, said) => press([...find(`[data-key=${key}]`).querySelectorAll(".chip")].find((el) => el.textContent.replace("\u00a0", "") === said)),
    metal: (word) => ((world.word = word), press(find("[data-key=metal] button"))),
    on: () => document.activeElement?.closest("li")?.querySelector("[data-ref=said]")?.textContent.replaceAll("\u00a0", " ") ?? document.activeElement?.textContent.replaceAll("\u00a0", " "),
  });
}

test("twelve cuts in two metals take fewer than forty taps", async () => {
  const form = open();
  await form.act("add");
  await form.chip("thickness", "6mm");
  const steel = ["300mm", "300mm", "500mm", "200mm", "1m", "100mm", "500mm"], plate = ["200mm", "100mm", "300mm", "500mm", "200mm"];
  for (const [i, length] of steel.entries()) {
    if (i > 0) await form.act("add");
    await form.chip("length", length);
  }
  await form.chip("count", "4");
  await form.act("add");
  await form.metal("stainless");
  await form.chip("thickness", "3mm");
  await form.chip("count", "1");
  await form.chip("pierces", "1");
  for (const [i, length] of plate.entries()) {
    if (i > 0) await form.act("add");
    await form.chip("length", length);
  }
  assert.deepEqual(form.rows().map(({ metal = "mild-steel", thickness, length, count = "1", pierces = "0" }) => [metal, thickness, length, count, pierces].join(" ")), [
    ...steel.map((length, i) => `mild-steel 6mm ${length} ${i === 6 ? 4 : 1} 0`), ...plate.map((length) => `stainless 3mm ${length} 1 1`),
  ]);
  assert.equal(new Set(form.rows().map(({ _key }) => _key)).size, 12);
  assert.ok(form.taps < 40, `${form.taps} taps`);
});

test("the keys are where the hand was: on the row that opened, on the button that moved it, on a chip that was picked", async () => {
  const form = open(JSON.stringify([{ _key: "a", thickness: "6mm", length: "1m" }, { _key: "b", thickness: "3mm", length: "1m" }]));
  await form.open(2);
  assert.equal(form.on(), "2. 1 × 1 m · 3 mm mild steel");
  await form.chip("thickness", "10mm");
  assert.equal(document.activeElement.textContent, "10\u00a0mm");
  await form.act("up");
  assert.equal(document.activeElement.dataset.action, "up");
  await form.act("done");
  assert.equal(form.on(), "1. 1 × 1 m · 10 mm mild steel");
  await form.act("add");
  assert.equal(form.on(), "3. 1 × 1 m · 6 mm mild steel");
  await form.act("remove");
  assert.equal(document.activeElement.dataset.action, "add");
});

test("a row says what applies to it, and of some things only what is not usual", () => {
  const shapes = ["straight", "disc"].map((word) => ({ word, label: word }));
  const list = { ...cuts, rows: { ...cuts.rows, shown: "{count} × {shape?} {length} {diameter} · {metal}", fields: [
    { key: "shape", label: "Shape", kind: "choice", choices: shapes, default: "straight" },
    ...cuts.rows.fields.map((f) => (f.key === "length" ? { ...f, only: { key: "shape", words: ["straight"] } } : f)),
    { key: "diameter", label: "Diameter", kind: "number", bare: "mm", us: "in", only: { key: "shape", words: ["disc"] } },
  ] } };
  const said = (row) => rowSaid(/** @type {any} */ (list), { length: "1m", diameter: "90mm", ...row }).replaceAll("\u00a0", " ");
  assert.deepEqual([said({}), said({ shape: "disc" })], ["1 × 1 m · mild steel", "1 × disc 90 mm · mild steel"]);
});

test("rows that have no order cannot be moved", async () => {
  const form = open("", { ...cuts, rows: { ...cuts.rows, ordered: false } });
  await form.act("add");
  assert.equal(form.find("[data-action=up]"), null);
});

test("a half entered row is in the value at once, and each tap is told once", async () => {
  const form = open();
  await form.act("add");
  assert.equal(form.find("[data-key=count] .field__help").textContent, "", "what a usual value rests on is no matter for each row");
  await form.chip("thickness", "3mm");
  assert.deepEqual([form.rows().map(({ thickness, length }) => [thickness, length]), form.told], [[["3mm", undefined]], 2]);
  const again = open(form.list.value);
  assert.deepEqual(again.rows(), form.rows());
});

test("rows from elsewhere that are none are passed over, and the others can be opened", async () => {
  const form = open(JSON.stringify([null, 5, "6mm", { _key: 7, thickness: "6mm", length: { toString: "x" } }, { thickness: "3mm" }]));
  assert.deepEqual(form.rows().map(({ thickness }) => thickness), ["6mm", "3mm"]);
  await form.open(1);
  assert.ok(form.find("[data-key=thickness]"));
  await form.act("done");
  await form.open(2);
  assert.equal(form.on(), "2. 3 mm mild steel");
});

test("Undo puts a row back once, whatever came in meanwhile", async () => {
  const both = [{ _key: "a", thickness: "6mm" }, { _key: "b", thickness: "3mm" }];
  const form = open(JSON.stringify(both));
  await form.open(1);
  await form.act("remove");
  form.list.fill(JSON.stringify([...both, { _key: "c", thickness: "10mm" }]));
  form.toasts[0].undo();
  assert.deepEqual(form.rows().map(({ _key }) => _key), ["a", "b", "c"]);
});
