// A fault whose first store failed is in the journal yet: what failed is stored later. Another "think" makes no second one.
import assert from "node:assert/strict";
import { test } from "node:test";
import { abortNext, page, withPhone } from "./phone.mjs";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { FixPage } from "../../pwa/pages/fix.js";

const faults = { groups: [{ key: "cut", label: "", picture: "dross", signs: ["dross"] }], signs: [{ key: "dross", label: "Dross" }], causes: [], checks: [], pictures: {} };
const answer = { results: { state: "none", causes: [], no_faults: [], next: [] }, cautions: [] };

test("a fault that could not be stored at once is one", withPhone(async (phone, t) => {
  const { document } = globalThis;
  page(t);
  globalThis.document = document; // the screens' own
  const life = new AbortController();
  t.after(() => life.abort());
  const tab = phone.tab();
  const drafts = {};
  let told = () => {};
  const main = place();
  await new FixPage(main, /** @type {any} */ ({
    life: life.signal, journal: tab, asset: async () => faults, calculate: async () => (told("ranked"), answer), settings: { values: { units: "metric", rig: "rig-1" } },
    ...ownParts(drafts), toasts: { problem: () => told("failed") },
  })).start();
  const press = (action) => new Promise((resolve) => {
    told = resolve;
    main.querySelector(`[data-action=${action}]`).click();
  });
  for (const action of ["group", "sign"]) main.querySelector(`[data-action=${action}]`).click();
  abortNext(tab, new Error("no"));
  assert.equal(await press("think"), "failed");
  assert.equal(await press("think"), "ranked");
  await tab.retry();
  const seen = (await phone.all("event")).map(({ raw }) => JSON.parse(raw)).filter(({ kind }) => kind === "fault.seen");
  assert.deepEqual(seen.map(({ about }) => about), [drafts.fix.fault]);
}));

test("one that the journal does not take is begun anew", async (t) => {
  const life = new AbortController();
  t.after(() => life.abort());
  const drafts = {};
  const journal = Object.assign(new EventTarget(), { failed: [], read: async () => ({ views: { now: null, rigs: null } }), tap: async () => Promise.reject({ msg: "too long" }) });
  const main = place();
  const told = new Promise((resolve) => {
    new FixPage(main, /** @type {any} */ ({
      life: life.signal, journal, asset: async () => faults, settings: { values: { units: "metric", rig: "" } }, toasts: { problem: resolve },
      ...ownParts(drafts),
    })).start().then(() => {
      for (const action of ["group", "sign", "think"]) main.querySelector(`[data-action=${action}]`).click();
    });
  });
  assert.equal((await told).msg, "too long");
  assert.equal(drafts.fix.fault, "");
});
