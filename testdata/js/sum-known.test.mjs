// What rig, plan and readings know is not asked again: a sum's form is filled with it and says from where, and what is missing comes first.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { turn } from "./turn.mjs";
import { ownParts } from "./own.mjs";
import { SumPage } from "../../pwa/pages/sum.js";
import { keptOf } from "../../pwa/parts/rig-and-site.js";
import { say } from "../../pwa/words/words.js";
import { clockTime, dayAndTime } from "../../pwa/parts/times.js";

const number = (key, more) => ({ key, label: key, kind: "number", bare: "mm", us: "in", ...more });
const declared = { name: "wear", title: "", about: "", results: [], fields: [number("current", { known: "plan.current" }), number("depth", { known: "electrode.pit" }), number("volts", { owner: "rig" }), number("looked", { known: "plan.current", hazard: true }), number("rate"), number("spare", { optional: true })] };
/** @type {any} */ const rig = { id: "r", fields: { amps: "45A", volts: "230V" } };
/** The same before it went through the store. */
const asEntered = { ...rig, fields: Object.fromEntries(Object.entries(rig.fields).reverse()) };

/** The form of a sum on a phone whose electrode was read then. */
async function open({ readAt = Date.now(), units = "metric", plannedIn = "metric", drafts = {}, calculate = async () => ({ results: {}, cautions: [], working: [], sources: [] }) } = {}) {
  const life = new AbortController();
  const main = place();
  const own = ownParts(drafts);
  own.today.plan = { thickness: "6mm" };
  own.today.answer = { results: { current: { value: 45, unit: "A", text: "45 A" } }, cautions: [], keys: [], asked: JSON.stringify([keptOf(asEntered, null), [], plannedIn]), day: null };
  const part = { slot: "electrode", reading: { pit: 800 }, readAt };
  const views = { rigs: { rigs: [rig], sites: [] }, now: { rigs: [{ rig: "r", parts: [part] }] }, book: null };
  const page = new SumPage(main, /** @type {any} */ ({
    life: life.signal, title() {}, asset: async () => [declared], calculate, sumsRun: () => true,
    journal: { read: async () => ({ views }) }, settings: { values: { units, rig: "r", site: "" } }, pad: { ask: async () => "2mm" }, ...own,
  }));
  await page.start({ name: "wear" });
  for (let i = 0; i < 6; i++) await turn();
  return { life, page, main, labels: () => [...main.querySelectorAll("[data-key]")].map((el) => [el.dataset.key, el.querySelector(".field__label").textContent]) };
}

test("each field says from where, a reading with its time; a hazard and what nobody knows come first", async () => {
  const at = Date.now();
  const { labels, life } = await open({ readAt: at });
  assert.deepEqual(labels(), [["looked", "looked"], ["rate", "rate"], ["current", "current · from today’s plan"], ["depth", `depth · from the reading of ${clockTime(at)}`], ["volts", "volts · from the rig"], ["spare", `spare${say("field.optional")}`]]);
  life.abort();
});

test("a reading of another day has its day", async () => {
  const at = Date.now() - 72 * 3600_000;
  const { labels, life } = await open({ readAt: at });
  assert.equal(labels().find(([key]) => key === "depth")?.[1], `depth · from the reading of ${dayAndTime(at)}`);
  life.abort();
});

test("what was typed here stands and says nothing of another place", async () => {
  const { labels, life } = await open({ drafts: { "sum.wear": { depth: "1mm", rate: "2mm" } } });
  assert.deepEqual(labels().filter(([key]) => ["depth", "rate"].includes(key)), [["depth", "depth"], ["rate", "rate"]]);
  life.abort();
});

test("a plan that was told in other units is not taken over", async () => {
  const { labels, life } = await open({ units: "us" });
  assert.equal(labels().find(([key]) => key === "current")?.[1], "current");
  life.abort();
});
