// A rig's and a site's page ask for what belongs to each, by the owner of the field; what a site once kept stays its own.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { turn } from "./turn.mjs";
import { RigPage, SitePage } from "../../pwa/pages/equipment.js";

const field = (key, owner, item) => ({ key, label: key, kind: "number", owner, item });
const fields = [field("thickness"), field("amps", "rig"), field("least", "plate"), field("amps_2", "plate", "second"), field("air", "truck", "compressor"), field("tank", "truck", "compressor"), field("cord", "truck", "cord"), field("volts", "site")];

/**
 * @param {typeof RigPage|typeof SitePage} Page @param {Record<string, any>} views  @param {string} id
 * @param {(tapped: any) => void} [tap]
 */
async function open(Page, views, id, tap) {
  const main = place();
  const page = new Page(main, /** @type {any} */ ({
    life: new AbortController().signal, asset: async () => [{ name: "site-check", fields }], calculate: async () => ({}), sumsRun: () => true, go() {},
    journal: Object.assign(new EventTarget(), { read: async () => ({ views: { rigs: views } }), tap: async (event) => tap?.(event) }),
    settings: { values: { units: "metric", rig: "r", site: "" }, set() {} }, toasts: { show() {}, problem: (trouble) => assert.fail(trouble) }, ...ownParts(),
  }));
  await page.start({ id });
  return main;
}

const keys = (main) => [...main.querySelectorAll("[data-key]")].map((el) => el.dataset.key).sort().join(" ");
const folds = (main) => [...main.querySelectorAll("details")].map((el) => `${el.querySelector("[data-key]")?.dataset.key} ${el.hasAttribute("open")}`).join(" ");
const rig = (more) => ({ id: "r", fields: { name: "Truck 1", amps: "45A", ...more }, by: {}, also: [] });
const site = (more) => ({ id: "s", fields: { name: "Yard", ...more }, by: {}, also: [] });

test("a rig is asked for itself, its plates and its truck", async () => {
  const main = await open(RigPage, { rigs: [rig({ cord: "10m" })], sites: [] }, "r");
  assert.equal(keys(main), "air amps amps_2 cord least tank");
  assert.equal(folds(main), "amps_2 false air false cord true");
});

test("a site is asked for itself and for what it may have instead of the truck's, and told what that brings", async () => {
  const main = await open(SitePage, { rigs: [rig({ tank: "24l" })], sites: [site({ volts: "230V" })] }, "s");
  assert.equal(keys(main), "air cord tank volts");
  assert.equal(folds(main), "air false cord true");
  assert.match(main.textContent, /Truck 1 brings: tank: 24\sl\./);
});

test("what a site once kept that is asked elsewhere now is still shown there, and not written anew", async () => {
  let tapped;
  const main = await open(SitePage, { rigs: [rig()], sites: [site({ least: "205V" })] }, "s", (event) => (tapped = event));
  assert.equal(keys(main), "air cord least tank volts");
  main.querySelector("[data-ref=name]").value = "Yard 2";
  main.querySelector("[data-action=save]").click();
  await turn();
  assert.deepEqual(tapped.body, { name: "Yard 2" }, "what was not touched is not written");
});
