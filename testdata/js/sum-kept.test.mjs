// A sum's form begins with what is kept of rig and site, but for a plate's figure where it cannot ask which of two plates holds.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { SumPage } from "../../pwa/pages/sum.js";

const field = (key, owner, item) => ({ key, label: key, kind: "number", owner, item });
const all = [
  { name: "site-check", title: "", about: "", results: [], fields: [field("least", "plate"), field("least_2", "plate", "second"), field("size", "truck", "cord"), field("volts", "site"), field("today")] },
  { name: "supply", title: "", about: "", results: [], fields: [field("least"), field("size"), field("volts"), field("today")] },
];
const rigs = {
  rigs: [{ id: "r", fields: { least: "190V", least_2: "100V", size: "10AWG", today: "6mm" } }],
  sites: [{ id: "s", fields: { volts: "120V" } }],
};

/** What the sum is asked first. @param {string} name */
async function resultOf(name) {
  const life = new AbortController();
  let values;
  const page = new SumPage(place(), /** @type {any} */ ({
    life: life.signal, title() {}, sumsRun: () => false, asset: async () => all, calculate: (_, entered) => ((values = entered), Promise.reject({ kind: "missing", msg: "" })),
    journal: { read: async () => ({ views: { rigs, now: null, book: null } }) }, settings: { values: { units: "metric", rig: "r", site: "s" } },
    ...ownParts(),
  }));
  await page.start({ name });
  life.abort();
  return values;
}

test("who asks for both plates has both", async () => assert.deepEqual(await resultOf("site-check"), { least: "190V", least_2: "100V", size: "10AWG", volts: "120V" }));
test("who asks for one has neither", async () => assert.deepEqual(await resultOf("supply"), { size: "10AWG", volts: "120V" }));
