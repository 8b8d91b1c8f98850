// Ready has each change reckoned once, by one sum, and paints the answer once.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place, rows } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { turn } from "./turn.mjs";
import { ReadyPage } from "../../pwa/pages/ready.js";

const declared = ["metal", "thickness"].map((key) => ({ key, label: key, kind: "number" }));
let onPaint = (_element) => {};
const { replaceChildren } = HTMLElement.prototype;
HTMLElement.prototype.replaceChildren = function (...nodes) {
  onPaint(this);
  return replaceChildren.apply(this, nodes);
};

/** Ready on a phone whose rig has a plate, so that site-check has something to judge, and which knows two sites. */
class Phone {
  drafts = { plan: { thickness: "6mm" } };
  asked = [];
  painted = 0;
  typed = "";
  /** What the pad has read before it closes, and the sums that this began. */ reads = [];
  ahead = "";
  picked = "";
  runs = true;
  /** What holds where the site is short. */ short = null;
  /** What the sums wait for. */ gate = Promise.resolve();
  rig = { id: "r", fields: { name: "Rig", max_current: "40A", duty_points: "40A:50%" } };
  parts = [];
  journal = Object.assign(new EventTarget(), {
    state: { coming: 0 }, now: () => 0,
    seen: () => null, keepSeen() {},
    read: async () => ({ views: { now: { rigs: [{ rig: "r", parts: this.parts }] }, rigs: { rigs: [this.rig], sites: [{ id: "yard", fields: { name: "Yard" } }, { id: "farm", fields: { name: "Farm", volts: "120V" } }] } }, arc: {} }),
  });
  settings = Object.assign(new EventTarget(), { values: { units: "metric", rig: "r", site: "yard" }, set: (changed) => {
    Object.assign(this.settings.values, changed);
    this.settings.dispatchEvent(new Event("change"));
  } });
  #life = new AbortController();

  async open() {
    this.main = place();
    onPaint = (element) => (this.painted += element.dataset.ref === "settings" ? 1 : 0);
    const deps = {
      life: this.#life.signal, go() {}, sumsRun: () => this.runs, asset: async () => ({ name: "cut-plan", fields: declared }), journal: this.journal, settings: this.settings,
      calculate: async (name, values, { units }) => {
        this.asked.push(name);
        await this.gate;
        if (values.thickness === "90mm") throw { kind: "refused", field: "thickness", msg: "too thick" };
        if (values.volts === "bad") throw { kind: "malformed", field: "volts", msg: "no volts" };
        const plan = { results: { current: { text: `${values.thickness} ${units}` }, path: { value: 0 }, limit_clean: { value: 1 } }, cautions: [] };
        const judged = { verdict: "ok", say: `runs on ${values.site.volts ?? "?"} with ${values.tip_reading ?? "?"}`, air: "ok", power: "ok", duty: "ok", parts: "ok", grade: "clean", remedies: [], unknowns: [], here: [] };
        if (this.short) Object.assign(judged, { verdict: "fails", here: this.short });
        return name === "cut-plan" ? plan : { results: judged, cautions: [], parts: { "cut-plan": plan } };
      },
      call: async (name, { text }) => {
        if (name === "journal-report") return { says: ["Nothing is due."] };
        if (text === "0mm") throw { kind: "range", field: "thickness", msg: "too thin" };
        return { text };
      },
      pad: { ask: async ({ read }) => {
        for (const text of this.reads) await read(text).catch(() => {});
        this.ahead = this.done()[0];
        return this.typed;
      } }, chooser: { ask: async () => this.picked },
      ...ownParts(this.drafts),
    };
    await new ReadyPage(this.main, /** @type {any} */ (deps)).start();
    await turn();
  }

  /** What happened since it was last asked: which sums, and how often the plan was painted. */
  done() {
    const done = [this.asked.join(), this.painted];
    this.asked = [];
    this.painted = 0;
    return done;
  }

  /** The plan and the verdict that stand, "" for none. */
  get shown() {
    const at = (ref) => this.main.querySelector(`[data-ref=${ref}]`);
    return [at("plan").hidden || at("told").hidden ? "" : rows(this.main, "settings")[0].replace(/^\D+/, ""), at("judged").hidden ? "" : at("because").textContent];
  }

  async type(text) {
    this.typed = text;
    this.main.querySelector("[data-key=thickness] button").click();
    await turn();
  }

  async pick(site) {
    this.picked = site;
    this.main.querySelector("[data-action=site]").click();
    await turn();
  }

  async hears(what) {
    this.journal.dispatchEvent(new Event(what));
    await turn();
  }

  leave = () => this.#life.abort();
}

const on = (body) => async () => {
  const phone = new Phone();
  try {
    await phone.open();
    await body(phone);
  } finally {
    phone.leave();
  }
};

test("plan and verdict come from one sum, when Ready opens and at each change", on(async (phone) => {
  assert.deepEqual(phone.done(), ["site-check", 1]);
  assert.match(phone.shown.join(" | "), /6 mm metric \| runs on \? with \?/);
  await phone.type("8mm");
  assert.deepEqual(phone.done(), ["site-check", 1]);
  await phone.pick("farm");
  assert.deepEqual(phone.done(), ["site-check", 1]);
  assert.match(phone.shown.join(" | "), /8 mm metric \| runs on 120V/);
  phone.settings.set({ units: "us" });
  await turn();
  assert.deepEqual(phone.done(), ["site-check", 1]);
  phone.parts = [{ part: "p", slot: "tip", reading: { dmax: 1100 } }];
  await phone.hears("views");
  assert.deepEqual(phone.done(), ["site-check", 1]);
  assert.match(phone.shown.join(" | "), /8 mm us \| runs on 120V with 1100µm/);
}));

test("what is short is not told to be set, nor handed to the session; what holds is", on(async (phone) => {
  const at = (ref) => phone.main.querySelector(`[data-ref=${ref}]`);
  const text = (ref) => rows(phone.main, ref).join();
  const begun = () => {
    phone.main.querySelector("[data-action=begin]").click();
    return phone.drafts["plan.begin"].results?.current.text;
  };
  await phone.type("8mm");
  assert.equal(begun(), "8mm metric");
  phone.short = [{ for: "this", say: "This cuts clean at 33 A.", tip: "40 A", current: { text: "33 A" }, pressure: { text: "5 bar" }, speed: { text: "600 mm/min" } }];
  await phone.type("9mm");
  assert.match(text("settings"), /33 A.*5 bar/);
  assert.doesNotMatch(text("settings") + text("moves"), /9mm/);
  assert.match(text("here"), /This cuts clean at 33 A/);
  assert.equal(begun(), undefined);
  const kept = phone.drafts["plan.answer"];
  assert.equal(kept.day.verdict, "fails", "so that the next start does not tell to set it either");
  phone.short = [];
  await phone.type("10mm");
  assert.deepEqual([text("settings"), text("moves"), text("here"), at("set").textContent], ["", "", "", "Nothing holds here until that is mended."]);
  phone.short = null;
  await phone.type("8mm");
  assert.deepEqual([at("plan").hidden, at("whole").hidden, text("here"), phone.shown[0]], [false, false, "", "8 mm metric"]);
  phone.leave();
  const next = new Phone(); // started on what was kept, while the sums do not run
  Object.assign(next, { runs: false, gate: new Promise(() => {}) });
  Object.assign(next.drafts, { "plan.answer": kept, plan: { thickness: "9mm" } });
  await next.open();
  assert.match(rows(next.main, "settings").join(), /33 A/);
  next.leave();
}));

test("what stands on the pad is reckoned before it closes, and not again", on(async (phone) => {
  phone.done();
  phone.reads = ["9mm", "0mm", "8mm", "8mm"];
  await phone.type("8mm");
  assert.equal(phone.ahead, "site-check,site-check");
  assert.deepEqual(phone.done(), ["", 1]);
  assert.match(phone.shown.join(" | "), /8 mm metric \| runs on/);
  phone.reads = ["8mm"];
  await phone.type("8mm");
  assert.deepEqual([phone.ahead, phone.done()], ["", ["", 0]]);
}));

test("a sum ahead that is not entered shows nothing, and one that fails is told when it is", on(async (phone) => {
  phone.reads = ["90mm", "9mm"];
  await phone.type("6mm");
  assert.match(phone.shown[0], /6 mm/);
  assert.equal(phone.done()[1], 0);
  phone.reads = ["9mm"];
  await phone.type("7mm");
  assert.match(phone.shown[0], /7 mm/, "entered while the sum for 9 mm waits");
  phone.done();
  phone.reads = ["90mm"];
  await phone.type("90mm");
  assert.deepEqual([phone.ahead, phone.done()[0], phone.shown], ["site-check", "", ["", ""]]);
  phone.reads = [];
  phone.typed = "8mm";
  await phone.type("8mm");
  await phone.type("90mm");
  assert.equal(phone.done()[0].split(",").at(-1), "site-check", "a sum that failed is begun again");
}));

test("a sum ahead is not taken for one of another site", on(async (phone) => {
  phone.reads = ["8mm"];
  await phone.type("6mm");
  phone.reads = [];
  await phone.pick("farm");
  phone.done();
  await phone.type("8mm");
  assert.equal(phone.done()[0] + phone.ahead, "site-check");
  assert.match(phone.shown.join(" | "), /8 mm metric \| runs on 120V/);
}));

test("where nothing is known of plates and site the plan alone is asked for", on(async (phone) => {
  phone.done();
  delete phone.rig.fields.duty_points;
  await phone.hears("views");
  assert.deepEqual(phone.done(), ["cut-plan", 1]);
  assert.equal(phone.shown[1], "");
}));

test("a generator that is known by its kW alone is judged", on(async (phone) => {
  phone.done();
  delete phone.rig.fields.duty_points;
  phone.rig.fields.rated_power = "5kW";
  await phone.hears("views");
  assert.equal(phone.done()[0], "site-check");
}));

test("what changes nothing that is asked has nothing reckoned", on(async (phone) => {
  phone.done();
  await phone.hears("change");
  await phone.hears("views");
  phone.settings.set({ watcher: "someone" });
  await turn();
  assert.deepEqual(phone.done(), ["", 0]);
}));

test("a sum under way is not begun again by what changes nothing", on(async (phone) => {
  phone.done();
  let open;
  phone.gate = new Promise((resolve) => (open = resolve));
  await phone.type("8mm");
  await phone.hears("views");
  open();
  await turn();
  assert.deepEqual(phone.done(), ["site-check", 1]);
}));

test("what was emptied or refused is reckoned again when it is entered again", on(async (phone) => {
  for (const between of ["", "90mm"]) {
    await phone.type(between);
    assert.doesNotMatch(phone.shown[0], /6 mm/);
    phone.done();
    await phone.type("6mm");
    assert.deepEqual(phone.done(), ["site-check", 1], between);
    assert.match(phone.shown.join(" | "), /6 mm metric \| runs/);
  }
}));

test("neither plan nor verdict stands beside another site, whose volts decide both, while the sums do not run", on(async (phone) => {
  phone.runs = false;
  phone.gate = new Promise(() => {});
  await phone.pick("farm");
  assert.deepEqual(phone.shown, ["", ""]);
}));

test("what stood last is shown as of its time for the metal it was reckoned for, and the gate tells nothing", async () => {
  const phone = new Phone();
  Object.assign(phone.drafts, { plan: { thickness: "8mm" }, "plan.answer": { results: { current: { text: "40 A" } }, cautions: [], asked: JSON.stringify([{}, [["metal", "cast-iron"], ["thickness", "6mm"]], "metric"]) } });
  const { read: readAll } = phone.journal;
  let open;
  const read = new Promise((resolve) => (open = resolve));
  Object.assign(phone.journal, { seen: () => ({ at: 1 }), read: async (...names) => (await read, readAll(...names)) });
  const opened = phone.open();
  await turn();
  const told = (ref) => phone.main.querySelector(`[data-ref=${ref}]`).textContent;
  assert.match(told("rig"), /^As of .*: 6mm cast iron$/);
  assert.doesNotMatch(told("gateState"), /As of/);
  open();
  await opened;
  assert.equal(told("rig"), "Rig");
  phone.leave();
});
