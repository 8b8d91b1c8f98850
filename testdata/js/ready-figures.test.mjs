// No figure on Ready stands beside an input that it was not reckoned for, and none goes into a session with one.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place, rows } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { turn } from "./turn.mjs";
import { ReadyPage } from "../../pwa/pages/ready.js";

const declared = ["metal", "alloy", "thickness", "pressure_kind"].map((key) => ({ key, label: key, kind: "number", owner: key === "pressure_kind" ? "rig" : undefined }));

/** A phone with one rig; sums are reckoned while they run, and else wait. */
class Phone {
  drafts = { plan: { thickness: "6mm" } };
  runs = true;
  hasForm = true;
  typed = "";
  rig = { id: "r", fields: { name: "Rig", min_current: "20A" } };
  #life = new AbortController();

  async open() {
    this.#life.abort();
    this.#life = new AbortController();
    this.main = place();
    const deps = {
      life: this.#life.signal, go() {}, sumsRun: () => this.runs, call: async () => ({ says: ["Nothing is due."] }), asset: async () => (this.hasForm ? { name: "cut-plan", fields: declared } : new Promise(() => {})),
      journal: Object.assign(new EventTarget(), { state: { coming: 0 }, now: () => 0, seen: () => null, keepSeen() {}, read: async () => ({ views: { now: null, rigs: { rigs: [this.rig], sites: [] } }, arc: {} }) }),
      calculate: async (name, { thickness, rig: { min_current: least } }) => (thickness === "90mm" ? Promise.reject({ msg: "too thick" }) : this.runs ? { results: { current: { text: `for ${thickness} at ${least}` }, path: { value: 0 }, limit_clean: { value: 1 } }, cautions: [] } : new Promise(() => {})),
      settings: Object.assign(new EventTarget(), { values: { units: "metric", rig: "r", site: "" } }), pad: { ask: async () => this.typed },
      ...ownParts(this.drafts),
    };
    const started = new ReadyPage(this.main, /** @type {any} */ (deps)).start();
    if (this.hasForm) await started;
    await turn();
    return this;
  }

  get shown() {
    return this.main.querySelector("[data-ref=plan]").hidden ? "" : (/for \S+ at \d+A/.exec(rows(this.main, "settings").join()) ?? [""])[0];
  }

  async type(text) {
    this.typed = text;
    this.main.querySelector("[data-key=thickness] button").click();
    await turn();
  }

  /** What Begin hands on: thickness, and the figures. */
  begin() {
    delete this.drafts["plan.begin"];
    this.main.querySelector("[data-action=begin]").click();
    const { fields, results } = this.drafts["plan.begin"] ?? {};
    return [fields?.thickness, results?.current.text];
  }

  leave() {
    this.#life.abort();
  }
}

const on = (body) => async () => {
  const phone = await new Phone().open();
  try {
    assert.equal(phone.shown, "for 6mm at 20A");
    phone.runs = false;
    await body(phone);
  } finally {
    phone.leave();
  }
};

test("the last figures are painted before the sums run, if they are of what is asked", on(async (phone) => {
  assert.equal((await phone.open()).shown, "for 6mm at 20A");
  phone.drafts.plan = { pressure_kind: "line", thickness: "6mm" }; // as /plan keeps it
  assert.equal((await phone.open()).shown, "for 6mm at 20A");
  phone.drafts.plan = { thickness: "10mm" };
  assert.equal((await phone.open()).shown, "");
}));

test("an entry, another rig or none takes them away until the sums have answered", on(async (phone) => {
  await phone.open();
  await phone.type("10mm");
  assert.equal(phone.shown, "");
  phone.runs = true;
  await phone.type("12mm");
  assert.equal(phone.shown, "for 12mm at 20A");
  phone.runs = false;
  phone.rig.fields.min_current = "30A";
  assert.equal((await phone.open()).shown, "");
}));

test("nor does what was wrong stand beside another input", on(async (phone) => {
  const wrong = () => !phone.main.querySelector("[data-ref=plan]").hidden && phone.main.querySelector("[data-ref=plan] [data-ref=wrong]").textContent;
  phone.runs = true;
  await phone.open();
  await phone.type("90mm");
  assert.equal(wrong(), "too thick");
  phone.runs = false;
  await phone.type("6mm");
  assert.equal(wrong(), false);
}));

test("Begin hands on the figures of what is asked, or none, also before the form is made", on(async (phone) => {
  phone.hasForm = false;
  await phone.open();
  assert.deepEqual(phone.begin(), ["6mm", "for 6mm at 20A"]);
  phone.drafts.plan = { thickness: "10mm" }; // by /plan, in another tab
  assert.deepEqual(phone.begin(), ["10mm", undefined]);
  phone.drafts["plan.begin"] = { fields: { thickness: "6mm" } };
  phone.drafts.plan = {};
  phone.main.querySelector("[data-action=begin]").click();
  assert.equal(phone.drafts["plan.begin"], undefined, "an earlier plan is not this session’s");
}));
