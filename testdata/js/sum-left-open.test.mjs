// A sum that was left open asks its hazards anew when the phone is taken out for another job.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { SumPage } from "../../pwa/pages/sum.js";
import { forThisJob, jobHolds, jobOf } from "../../pwa/parts/job.js";

const yesNo = (key, more) => ({ key, label: key, kind: "yes-no", ...more });
const declared = { name: "fire-watch", title: "Fire watch", about: "", results: [], fields: [yesNo("near", { hazard: true }), yesNo("dry")] };

test("hazards of half a day ago go, the rest stays", async () => {
  const drafts = { "sum.fire-watch": forThisJob({ near: "no", dry: "yes" }, {}, jobOf({ now: null, book: null })) };
  const main = place();
  const picked = () => [...main.querySelectorAll("[aria-checked=true]")].map((el) => `${el.closest("[data-key]").dataset.key} ${el.dataset.word}`);
  const life = new AbortController();
  const page = new SumPage(main, /** @type {any} */ ({
    life: life.signal, title() {}, sumsRun: () => false, asset: async () => [declared], calculate: () => Promise.reject({ kind: "missing", msg: "near" }),
    journal: { read: async () => ({ views: { rigs: null, now: null, book: null } }) }, settings: { values: { units: "metric" } },
    ...ownParts(drafts),
  }));
  await page.start({ name: "fire-watch" });
  Object.defineProperty(document, "visibilityState", { value: "visible", configurable: true });
  document.dispatchEvent(new CustomEvent("visibilitychange"));
  assert.deepEqual(picked(), ["near no", "dry yes"]);
  drafts["sum.fire-watch"]._at = String(Date.now() - jobHolds);
  document.dispatchEvent(new CustomEvent("visibilitychange"));
  assert.deepEqual(picked(), ["dry yes"]);
  life.abort();
});
