// A form: what applies is asked, what was entered stays as it was entered, and each problem stands beside its field.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { turn } from "./turn.mjs";
import { Form } from "../../pwa/parts/form.js";

const kinds = [{ word: "line", label: "Gauge" }, { word: "fixed", label: "Fixed" }, { word: "table", label: "Table" }];
const thickness = { key: "thickness", label: "Thickness", kind: "number", bare: "mm", us: "in" };
const plan = [
  thickness,
  { key: "pressure_kind", label: "Kind", kind: "choice", choices: kinds, default: "line" },
  { key: "pressure", label: "Pressure", kind: "number", bare: "bar", us: "psi", only: { key: "pressure_kind", words: ["fixed"] } },
  { key: "pressure_points", label: "Pressure", kind: "pairs", bare: "A", us: "A", right: { bare: "bar", us: "psi", name: "Point", left: "amps", right: "pressure", row: "{right} at {left}" }, only: { key: "pressure_kind", words: ["line", "table"] } },
  { key: "cord", label: "Cord", kind: "number", bare: "m", us: "ft", default: "15m", usual: { metric: "15 m", us: "50 ft" }, basis: "common practice", only: { key: "generator", words: ["yes"] } },
  { key: "site", label: "Site", kind: "text", chips: ["Yard"], optional: true },
  { key: "kerf", label: "Kerf", kind: "number", bare: "mm", us: "in", fine: true },
];

/** A form of these fields; pads and choosers answer with what is entered next. */
function open(declared, { values = {}, units = "metric" } = {}) {
  const [told, asked, reads] = [[], [], []];
  const world = { told, asked, reads, entered: /** @type {(string|null)[]} */ ([]), units, meanwhile: () => {} };
  const ask = async (question) => {
    asked.push(question);
    world.meanwhile();
    return world.entered.shift() ?? null;
  };
  const form = new Form(declared, /** @type {any} */ ({ pad: { ask }, chooser: { ask }, units: () => world.units, read: async (key, text) => (reads.push([key, text]), { text }) }), { values, changed: (all) => told.push(all) });
  place().append(form.element);
  const field = (key) => form.element.querySelector(`[data-key=${key}]`);
  const press = async (el, ...entered) => {
    world.entered = entered;
    el.click();
    for (let i = 0; i < 4; i++) await turn();
  };
  return Object.assign(world, {
    form, field, press,
    enter: (key, ...entered) => press(field(key).querySelector("button"), ...entered),
    pick: (key, word) => press(field(key).querySelector(`[data-word=${word}]`)),
    shows: (key) => [...field(key).querySelectorAll(".field__value")].map((el) => el.textContent.replace(/^.*: /, "")),
    hidden: () => [...form.fields].filter(([, { element }]) => element.hidden).map(([key]) => key),
  });
}

test("a field that does not apply is hidden and not asked, and comes back as it was typed", async () => {
  const form = open(plan, { values: { pressure_kind: "fixed", pressure: "5,5 bar" } });
  assert.deepEqual(form.hidden(), ["pressure_points"]);
  await form.pick("pressure_kind", "table");
  assert.deepEqual(form.hidden(), ["pressure"]);
  assert.deepEqual(form.form.asked, { pressure_kind: "table" });
  assert.deepEqual(form.told.at(-1), { pressure_kind: "table", pressure: "5,5 bar" }, "the draft keeps it");
  await form.pick("pressure_kind", "fixed");
  assert.deepEqual(form.form.asked, { pressure_kind: "fixed", pressure: "5,5 bar" });
});

test("a usual value decides as an entered one does, and a field on another form decides nothing", () => {
  const form = open(plan);
  assert.deepEqual(form.hidden(), ["pressure"], "the usual kind is a line; nobody asks for a generator here");
  form.form.fill({ pressure_kind: "fixed" });
  assert.deepEqual(form.hidden(), ["pressure_points"]);
  form.form.fill({ pressure_kind: "" });
  assert.deepEqual(form.hidden(), ["pressure"]);
});

test("what was entered here stands, whatever is read from the store later; what was not is filled", async () => {
  const form = open(plan, { values: { thickness: "6mm", kerf: "1.5mm" } });
  await form.enter("thickness", "8mm");
  form.form.fill({ thickness: "10mm", kerf: "2mm", of_another_form: "x" });
  assert.deepEqual(form.form.values, { thickness: "8mm", kerf: "2mm" });
  await form.enter("kerf", "");
  form.form.fill({ kerf: "1mm" });
  assert.deepEqual(form.form.values, { thickness: "8mm" }, "emptied is entered too");
});

test("a pad or a chooser that is left changes nothing", async () => {
  const five = Array.from({ length: 5 }, (_, i) => ({ word: `w${i}`, label: `Word ${i}` }));
  const form = open([thickness, { key: "metal", label: "Metal", kind: "choice", choices: five, default: "w1" }], { values: { thickness: "6mm" } });
  await form.enter("thickness", null);
  await form.enter("metal", null);
  assert.deepEqual([form.form.values, form.told], [{ thickness: "6mm" }, []]);
  assert.deepEqual(form.shows("metal"), ["Word 1"]);
  await form.enter("metal", "w3");
  assert.deepEqual([form.asked.at(-1).value, form.form.values.metal, form.shows("metal")], ["w1", "w3", ["Word 3"]]);
});

test("text is kept at each letter, as it is typed", async () => {
  const form = open(plan, { values: { site: "Ya" } });
  const input = form.field("site").querySelector("input");
  for (const text of ["Yar", "Yard ", "Yard 7,5 ½"]) {
    input.value = text;
    input.dispatchEvent(new CustomEvent("input"));
    assert.equal(form.told.at(-1).site, text);
  }
  form.form.fill({ site: "Yard 1" });
  assert.equal(input.value, "Yard 7,5 ½");
  assert.ok(form.field("site").querySelector("input") === input, "the one that has the focus");
  await form.press(form.field("site").querySelector(".chip"));
  assert.deepEqual([input.value, form.told.at(-1).site], ["Yard", "Yard"]);
});

test("a pad offers the reader’s own unit first, and its text goes to the sums as it is", async () => {
  const form = open([thickness, { key: "amps", label: "Amps", kind: "number", bare: "A", us: "A" }, { key: "pieces", label: "Pieces", kind: "count", bare: "1", us: "1" }], { values: { thickness: "6mm" } });
  await form.enter("thickness", "1-1/2in");
  assert.deepEqual([form.asked[0].units, form.asked[0].value], [["mm", "in"], "6mm"]);
  assert.deepEqual(await form.asked[0].read("0,5in"), { text: "0,5in" });
  assert.deepEqual(form.reads, [["thickness", "0,5in"]]);
  assert.deepEqual([form.form.values.thickness, form.shows("thickness")], ["1-1/2in", ["1-1/2\u00a0in"]]);
  form.units = "us";
  await form.enter("thickness");
  await form.enter("amps");
  await form.enter("pieces");
  assert.deepEqual(form.asked.slice(1).map(({ units }) => units), [["in", "mm"], ["A"], []]);
  assert.equal(form.asked[1].value, "1-1/2in");
});

test("a usual value is shown in the reader’s units, and is said to be one", async () => {
  for (const [units, text] of [["metric", "15\u00a0m"], ["us", "50\u00a0ft"]]) {
    const form = open(plan, { units });
    assert.deepEqual(form.shows("cord"), [`${text.replace("\u00a0", " ")}usual`]);
    assert.match(form.field("cord").textContent, new RegExp(`Usual value ${text.replace("\u00a0", " ")}: common practice`));
    await form.enter("cord", "20m");
    assert.equal(form.asked.at(-1).value, "15m", "which is where the pad begins");
    assert.deepEqual(form.shows("cord"), ["20\u00a0m"]);
    await form.enter("cord", "");
    assert.deepEqual(form.form.values, {});
    assert.match(form.shows("cord")[0], /usual$/);
  }
});

test("a hazard stands as unanswered until it is answered", async () => {
  const form = open([{ key: "wet", label: "Wet?", kind: "yes-no", hazard: true }]);
  const picked = () => [...form.field("wet").querySelectorAll("[aria-checked=true]")].map((el) => el.dataset.word);
  assert.deepEqual([picked(), form.form.asked], [[], {}]);
  await form.pick("wet", "no");
  assert.deepEqual([picked(), form.form.asked], [["no"], { wet: "no" }]);
});

test("a problem and its companions stand beside their fields; the rest is handed back", () => {
  const form = open(plan);
  const wrong = (key) => [form.field(key).hasAttribute("data-wrong"), form.field(key).querySelector("[role=alert]").textContent];
  const [deep, kind, none] = [{ field: "pressure", msg: "not deep" }, { field: "cord", msg: "too long", hint: "Shorter" }, { msg: "of no field" }];
  const rest = form.form.wrong({ field: "kerf", kind: "range", msg: "too wide", hint: "Less", also: [kind, none, { field: "volts", msg: "of another form" }] });
  assert.deepEqual(rest.map(({ msg }) => msg), ["of no field", "of another form"]);
  assert.deepEqual([wrong("kerf"), wrong("cord"), wrong("thickness")], [[true, "too wideLess"], [true, "too longShorter"], [false, ""]]);
  assert.ok(form.field("kerf").closest("details").hasAttribute("open"), "what is folded away is opened");
  assert.deepEqual(form.form.wrong(deep), [deep], "its field is not asked, so it cannot be seen there");
  assert.deepEqual([wrong("kerf"), wrong("cord")], [[false, ""], [false, ""]], "those of before are gone");
  assert.deepEqual(wrong("pressure_points"), [true, "not deep"], "of the pressure, whichever way it is entered");
  assert.deepEqual(form.form.wrong(null), []);
  assert.deepEqual(wrong("pressure_points"), [false, ""]);
});

test("a change is told once", async () => {
  const form = open([plan[5]]);
  await form.press(form.field("site").querySelector(".chip"));
  assert.deepEqual(form.told, [{ site: "Yard" }]);
});

test("what is not entered yet is no fault of its field", () => {
  const form = open(plan);
  assert.deepEqual(form.form.wrong({ field: "kerf", kind: "missing", msg: "enter it", also: [{ field: "thickness", kind: "missing", msg: "enter it" }] }), []);
  assert.equal(form.form.element.querySelectorAll("[data-wrong], details[open]").length, 0);
});

test("the fine fields are folded away, the last", () => {
  const form = open([{ ...thickness, key: "a", fine: true }, { ...thickness, key: "b" }]);
  const folds = [...form.form.element.children].map((el) => [el.querySelector("summary")?.textContent ?? "", [el, ...el.querySelectorAll("[data-key]")].map((at) => at.dataset.key).filter(Boolean).join()]);
  assert.deepEqual(folds, [["", "b"], ["More to set", "a"]]);
});

test("pairs are added, changed by halves and removed", async () => {
  const form = open([plan[3]]);
  const add = () => [...form.field("pressure_points").querySelectorAll("button")].at(-1);
  await form.press(add(), "25A", null);
  assert.deepEqual(form.told, [], "left after the first half");
  await form.press(add(), "25A", "4bar");
  await form.press(add(), "45A", "5bar");
  assert.equal(form.form.values.pressure_points, "25A:4bar,45A:5bar");
  assert.deepEqual([form.asked.at(-1).label, form.asked.at(-1).units], ["Point 2: pressure", ["bar", "psi"]]);
  await form.press(form.field("pressure_points").querySelectorAll(".field__value")[3], "5.2bar");
  assert.equal(form.form.values.pressure_points, "25A:4bar,45A:5.2bar");
  await form.press(form.field("pressure_points").querySelector("[aria-label*='25\u00a0A']").parentNode.lastElementChild);
  assert.equal(form.form.values.pressure_points, "45A:5.2bar");
});

test("a decimal comma parts no pair, be it one or several", async () => {
  const form = open([plan[3]]);
  const add = () => [...form.field("pressure_points").querySelectorAll("button")].at(-1);
  await form.press(add(), "25A", "4,5bar");
  assert.deepEqual(form.shows("pressure_points").length, 2);
  await form.press(add(), "45A", "5bar");
  assert.deepEqual(form.shows("pressure_points"), ["amps 25\u00a0A", "pressure 4.5\u00a0bar", "amps 45\u00a0A", "pressure 5\u00a0bar"]);
  const stored = open([plan[3]], { values: { pressure_points: "25A:4,5bar; 45A:5bar" } });
  assert.deepEqual(stored.shows("pressure_points"), ["amps 25\u00a0A", "pressure 4,5\u00a0bar", "amps 45\u00a0A", "pressure 5\u00a0bar"]);
});

test("pairs that come while the pad is open stay", async () => {
  const form = open([plan[3]], { values: { pressure_points: "25A:4bar" } });
  form.meanwhile = () => form.form.fill({ pressure_points: "20A:3bar,25A:4bar" });
  await form.press([...form.field("pressure_points").querySelectorAll("button")].at(-1), "45A", "5bar");
  assert.equal(form.form.values.pressure_points, "20A:3bar,25A:4bar,45A:5bar");
});
