// A rig's and a site's page ask for what belongs to each, by the owner of the field; what a site once kept stays its own.
// A new one is asked one question a screen, and what was answered outlives the page.
import assert from "node:assert/strict";
import { test } from "node:test";
import { still } from "./still.mjs";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { turn } from "./turn.mjs";
import { RigPage, SitePage } from "../../pwa/pages/equipment.js";

const steps = [{}];
globalThis.history = /** @type {any} */ ({
  get state() { return steps.at(-1); },
  pushState: (state) => void steps.push(state), replaceState: (state) => void (steps[steps.length - 1] = state), back: () => (steps.pop(), popped()),
});
let popped = () => {};
globalThis.addEventListener = /** @type {any} */ ((type, heard) => type === "popstate" && (popped = heard));

const field = (key, owner, item) => ({ key, label: key, kind: "number", owner, item, optional: true });
const pairs = (key, owner, right) => ({ ...field(key, owner), kind: "pairs", bare: "A", us: "A", right: { bare: "mm", us: "in", ...right } });
const fields = [field("thickness"), field("amps", "rig"), field("least", "plate"), field("amps_2", "plate", "second"), field("air", "truck", "compressor"), field("tank", "truck", "compressor"), field("cord", "truck", "cord"), field("volts", "site")];
const rigFields = [{ ...field("plate_volts", "plate"), chips: ["120V", "230V"] }, field("plate_volts_2", "plate"), { ...field("max_current", "rig"), chips: ["30A", "45A"] }, { ...field("max_current_2", "plate"), chips: ["30A"] }, pairs("duty_points_2", "plate", { name: "Duty cycle", left: "amps", right: "percent", row: "{right} at {left}" }),
  pairs("duty_points", "plate", { name: "Duty cycle", left: "amps", right: "percent", row: "{right} at {left}", rightChips: ["35%", "60%"] }), { ...field("pressure", "rig"), kind: "text", chips: ["5bar"] },
  { ...field("pressure_kind", "rig"), kind: "choice", choices: [{ word: "fixed", label: "one value" }, { word: "automatic", label: "set by the machine" }], default: "fixed" },
  field("air_need", "plate"), pairs("tips", "rig", { name: "Tip", left: "amps", right: "bore", row: "{left} tip · bore {right}", known: "not known", leftChips: ["30A", "45A"] })];

/**
 * @param {typeof RigPage|typeof SitePage} Page @param {Record<string, any>} views  @param {string} id
 * @param {{tap?: (tapped: any) => void, fields?: any[], kept?: Record<string, any>, calculate?: () => Promise<any>}} [more]
 */
async function open(Page, views, id, { tap, fields: declared = fields, kept = {}, calculate = async () => ({}) } = {}) {
  const main = place();
  const page = new Page(main, /** @type {any} */ ({
    life: new AbortController().signal, asset: async (name) => (name === "gen/drawings.json" ? still : [{ name: "site-check", fields: declared }]), calculate, sumsRun: () => true, go() {},
    journal: Object.assign(new EventTarget(), { read: async () => ({ views: { rigs: views } }), tap: async (event) => tap?.(event) }),
    settings: { values: { units: "metric", rig: "r", site: "" }, set() {} }, toasts: { show() {}, problem: (trouble) => assert.fail(trouble) }, ...ownParts(kept),
  }));
  await page.start({ id });
  return main;
}

const press = async (main, name) => {
  const button = [...main.querySelectorAll("button")].find((el) => !el.closest("[hidden]") && el.textContent.replaceAll("\u00a0", " ") === name);
  assert.ok(button, `there is ${name}`);
  button.click();
  await turn();
};
const asks = (main) => (main.querySelector("[data-ref=ask]").hidden ? "" : main.querySelector("[data-ref=title]").textContent);
const keys = (main) => [...main.querySelectorAll("[data-row]")].map((el) => el.dataset.row).sort().join(" ");
const folds = (main) => [...main.querySelectorAll("details")].map((el) => `${el.querySelector("[data-row]")?.dataset.row} ${el.hasAttribute("open")}`).join(" ");
const rig = (more) => ({ id: "r", fields: { name: "Truck 1", amps: "45A", ...more }, by: {}, also: [] });
const site = (more) => ({ id: "s", fields: { name: "Yard", ...more }, by: {}, also: [] });

test("a rig is asked for itself, its plates and its truck", async () => {
  const main = await open(RigPage, { rigs: [rig({ cord: "10m" })], sites: [] }, "r");
  assert.equal(keys(main), "air amps amps_2 cord least tank");
  assert.equal(folds(main), "cord true amps_2 false air false", "what is known comes first");
});

test("a site is asked for itself and for what it may have instead of the truck's, and told what that brings", async () => {
  const main = await open(SitePage, { rigs: [rig({ tank: "24l" })], sites: [site({ volts: "230V" })] }, "s");
  assert.equal(keys(main), "air cord tank volts");
  assert.match(main.textContent, /Truck 1 brings: tank: 24\sl\./);
});

test("what a site once kept that is asked elsewhere now is still shown there, and not written anew", async () => {
  let tapped;
  const main = await open(SitePage, { rigs: [rig()], sites: [site({ least: "205V" })] }, "s", { tap: (event) => (tapped = event) });
  assert.equal(keys(main), "air cord least tank volts");
  main.querySelector("[data-ref=name]").value = "Yard 2";
  await press(main, "Keep this site");
  assert.deepEqual(tapped.body, { name: "Yard 2" }, "what was not touched is not written");
});

test("a new rig: one question a screen, Back to the one before, nothing lost, and a name of its own", async () => {
  steps.splice(0, steps.length, {});
  let tapped;
  const kept = {};
  const more = { fields: rigFields, kept, tap: (event) => (tapped = event) };
  const views = { rigs: [rig()], sites: [] };
  let main = await open(RigPage, views, "new", more);
  assert.equal(asks(main), "plate_volts");
  await press(main, "120 and 230 V");
  assert.equal(asks(main), "max_current at 230\u00a0V");
  await press(main, "45 A");
  await press(main, "35 %");
  await press(main, "Next");
  assert.equal(asks(main), "max_current at 120\u00a0V");
  history.back();
  assert.equal(asks(main), "duty_points at 230\u00a0V");
  steps.splice(0, steps.length, {}); // opened anew
  main = await open(RigPage, views, "new", more);
  assert.equal(asks(main), "max_current at 120\u00a0V", "it goes on where it was left");
  await press(main, "30 A");
  await press(main, "I don’t know");
  await press(main, "The machine sets it");
  await press(main, "I don’t know");
  await press(main, "30 A");
  await press(main, "45 A");
  await press(main, "Next");
  assert.equal(asks(main), "");
  assert.match(main.querySelector("[data-row=tips]").textContent, /30\sA tip · bore not known, 45\sA tip · bore not known/);
  assert.match(main.querySelector("[data-row=duty_points]").textContent, /35\s% at 45\sA/);
  assert.equal(main.querySelector("[data-ref=name]").value, "Truck 2");
  await press(main, "Keep this rig");
  assert.deepEqual(tapped.body, { name: "Truck 2", plate_volts: "230V", plate_volts_2: "120V", max_current: "45A", max_current_2: "30A", duty_points: "45A:35%", pressure_kind: "automatic", tips: "30A,45A" });
  assert.deepEqual(kept, {}, "no draft is left");
});

test("nothing is called wrong before Keep, and then it comes to the eye", async () => {
  steps.splice(0, steps.length, { ask: "rows" });
  const refuse = () => Promise.reject({ kind: "missing", field: "tips", msg: "the rig is not known", hint: "Enter its largest amps, or its tips." });
  const main = await open(RigPage, { rigs: [], sites: [] }, "new", { fields: rigFields, kept: { "rig.new": { air_need: "120l/min" } }, calculate: refuse, tap: () => assert.fail("kept") });
  assert.equal(main.querySelectorAll(".wrong:not([hidden])").length, 0);
  await press(main, "Keep this rig");
  assert.match(main.querySelector(".wrong:not([hidden])").textContent, /the rig is not known/);
});
