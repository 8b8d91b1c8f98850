// What Cut showed last is shown as of its time until the store is read, and is never taken for the truth.
import assert from "node:assert/strict";
import { test } from "node:test";
import { ownParts } from "./own.mjs";
import { turns } from "./turn.mjs";

const { CustomEvent } = globalThis; // Node's, which the journal's events are
const { place } = await import("./screen.mjs");
Object.assign(globalThis, { CustomEvent });
const dom = document;
const { page, Phone } = await import("./phone.mjs");
const { CutPage } = await import("../../pwa/pages/cut.js");
const { setHint } = await import("../../pwa/journal/crew/database-name.js");
const { Channel } = await import("../../pwa/journal/channel.js");

const key = "kerfside.seen.cut";
const hour = 3_600_000;

/** A phone whose tabs open Cut one after the other. */
class Shop {
  #ends = [];

  constructor(t) {
    const { localStorage, view } = page(t);
    globalThis.document = dom;
    Object.assign(this, { storage: localStorage, view });
    this.phone = new Phone();
    this.phone.name = "kerfside";
  }

  /** Opens Cut in a new tab whose store answers once it is let go. */
  open() {
    const tab = this.phone.tab();
    const life = new AbortController();
    const main = place();
    const cut = new CutPage(main, /** @type {any} */ ({
      journal: tab, life: life.signal, go() {}, ...ownParts(), alarm: { arm() {}, tick() {}, ring() {} },
      toasts: { show() {} }, asset: async () => [], settings: Object.assign(new EventTarget(), { values: { rig: "rig-1", watchMinutes: 60, units: "metric", watcher: "", taught: {} } }),
    }));
    const close = () => (life.abort(), cut.stop());
    this.#ends.push(close);
    const run = tab.db.run.bind(tab.db);
    let letGo = () => {};
    const gate = new Promise((resolve) => (letGo = () => resolve(null)));
    tab.db.run = async (...words) => (await gate, run(...words));
    const started = cut.start();
    const shown = () => {
      const arc = main.querySelector("[data-action=arc]");
      return arc && { on: arc.getAttribute("aria-pressed") === "true", told: main.querySelector("[data-ref=counts]").textContent, takes: !main.firstElementChild.inert };
    };
    return { tab, main, shown, letGo: async () => (letGo(), await started), act: () => this.#press(), close };
  }

  #press() {
    const event = Object.assign(new Event("keydown", { cancelable: true }), { key: "MediaPlayPause" });
    Object.defineProperty(event, "target", { value: { closest: () => null } });
    this.view.dispatchEvent(event);
    return turns();
  }

  off() {
    for (const end of this.#ends) end();
    this.phone.off();
  }
}

const inShop = (body) => async (t) => {
  const shop = new Shop(t);
  try {
    await body(shop);
  } finally {
    shop.off();
  }
};

/** Cut was open here, and an arc burns. */
async function burning(shop) {
  const first = shop.open();
  await first.letGo();
  await first.tab.tap({ kind: "session.opened", about: "session-1", body: { rig: "rig-1", title: "Gate of Secret farm" } });
  await first.tab.startArc({ rig: "rig-1", in: "session-1" });
  await turns();
  assert.equal(first.shown().on, true);
  return first;
}

test("what stood is shown at once as of its time, takes no tap, and gives way to what is so", inShop(async (shop) => {
  const first = await burning(shop);
  const next = shop.open();
  assert.match(next.shown().told, /^As of /);
  assert.deepEqual([next.shown().on, next.shown().takes], [true, false]);
  shop.phone.wall += 5000;
  await first.tab.stopArc({ rig: "rig-1" });
  await next.letGo();
  assert.deepEqual([next.shown().on, next.shown().takes], [false, true]);
  assert.doesNotMatch(next.shown().told, /As of/);
}));

test("a key that was pressed for an arc that another tab has stopped starts none", inShop(async (shop) => {
  const first = await burning(shop);
  const old = shop.storage.getItem(key);
  shop.phone.wall += 5000;
  await first.tab.stopArc({ rig: "rig-1" });
  await turns();
  first.close();
  shop.storage.setItem(key, old); // as localStorage has it after a kill
  const next = shop.open();
  assert.equal(next.shown().on, true);
  shop.phone.wall += 5000;
  const pressed = next.act();
  await next.letGo();
  await pressed;
  await turns();
  assert.equal(next.shown().on, false);
  assert.deepEqual((await next.tab.read([])).arc, {});
}));

test("a key that was pressed for what is still so counts", inShop(async (shop) => {
  (await burning(shop)).close();
  const next = shop.open();
  shop.phone.wall += 5000;
  const pressed = next.act();
  await next.letGo();
  await pressed;
  await turns();
  assert.deepEqual((await next.tab.read([])).arc, {});
}));

test("nothing is shown early of a time to come, of long ago, of another database, or what cannot be read", inShop(async (shop) => {
  await burning(shop);
  const good = shop.storage.getItem(key);
  const { seen } = JSON.parse(good);
  assert.ok(shop.open().shown(), "the good one is");
  const { wall } = shop.phone;
  for (const [text, at] of [
    [good, wall - hour], [good, wall + 13 * hour], [JSON.stringify({ db: "kerfside-crew-2", seen }), wall],
    ["{", wall], ["null", wall], ["{}", wall], [JSON.stringify({ db: "kerfside" }), wall], [JSON.stringify({ db: "kerfside", seen: { ...seen, at: undefined } }), wall],
    [JSON.stringify({ db: "kerfside", seen: { ...seen, ms: "<b>" } }), wall], [JSON.stringify({ db: "kerfside", seen: [] }), wall],
  ]) {
    shop.storage.setItem(key, text);
    shop.phone.wall = at;
    const next = shop.open();
    assert.equal(next.shown(), null, text);
    await next.letGo();
    assert.equal(next.shown().takes, true);
  }
}));

test("it holds numbers and no word, so that nothing which is erased is in it", inShop(async (shop) => {
  const first = await burning(shop);
  await first.tab.tap({ kind: "rig.set", about: "rig-1", body: { name: "Secret truck" } });
  await turns();
  const { db, seen, ...rest } = JSON.parse(shop.storage.getItem(key));
  assert.deepEqual([db, rest], ["kerfside", {}]);
  for (const [name, value] of Object.entries(seen)) assert.equal(typeof value, "number", name);
}));

test("it goes when a stop stands, when others' entries come, and when the phone leaves its crew", inShop(async (shop) => {
  const first = await burning(shop);
  const kept = shop.storage.getItem(key);
  await first.tab.db.run(["meta"], "readwrite", async (tx) => {
    const meta = await new Promise((resolve) => (tx.objectStore("meta").get("meta").onsuccess = ({ target }) => resolve(target.result)));
    tx.objectStore("meta").put({ ...meta, gate: { stops: [{ id: "c", step: "wet", says: "It is wet", by: "you", rig: "rig-1", site: "", in: "", at: shop.phone.wall }], asked: [] } }, "meta");
  });
  first.tab.dispatchEvent(new CustomEvent("views", { detail: {} }));
  await turns();
  assert.equal(shop.storage.getItem(key), null, "a stop");
  shop.off();
  shop.storage.setItem(key, kept);
  const tab = shop.phone.tab();
  const gone = new Promise((resolve) => tab.addEventListener("change", () => resolve(shop.storage.getItem(key))));
  const other = new Channel("kerfside", () => {});
  other.tell({ what: "change", l: 9, by: "sync" });
  const left = await gone;
  other.close();
  assert.equal(left, null, "others' entries");
  shop.storage.setItem(key, kept);
  setHint("crew-2");
  assert.equal(shop.storage.getItem(key), null, "another crew");
}));
