// Cut over a real journal: what is tapped reaches it at once, whatever the store does.
import assert from "node:assert/strict";
import { test } from "node:test";
import { ownParts } from "./own.mjs";
import { setGlobals, storage } from "./globals.mjs";
import { turn, turns } from "./turn.mjs";

const { CustomEvent } = globalThis; // Node's, which the journal's events are
/** A window: capturing listeners hear first, which Node's EventTarget does not keep to. */
const [early, view] = [new EventTarget(), new EventTarget()];
const listen = (type, hear, how) => (how?.capture ? early : view).addEventListener(type, hear, how);
const { place } = await import("./screen.mjs"); // the store is that of a page: several transactions at a time
Object.assign(globalThis, { CustomEvent, addEventListener: listen });
const { resultOf, hold, Phone } = await import("./phone.mjs");
const { CutPage } = await import("../../pwa/pages/cut.js");
const { resume } = await import("../../pwa/journal/db.js");
const { Journal } = await import("../../pwa/journal/journal.js");

/** Gives a test a phone with Cut open in a tab. */
const withCut = (body) => async (t) => {
  const phone = new Phone();
  phone.name = "kerfside"; // where a phone without crew is at home: else its tabs go there
  const tab = phone.tab();
  const life = new AbortController();
  const main = place();
  const told = [];
  const cut = new CutPage(main, /** @type {any} */ ({
    journal: tab, life: life.signal, go: (path) => told.push(path), ...ownParts(), alarm: { arm() {}, tick() {}, ring() {} },
    toasts: { show: (text) => told.push(text) }, settings: Object.assign(new EventTarget(), { values: { rig: "rig-1", watchMinutes: 60, units: "metric", watcher: "", taught: {} } }),
  }));
  const tap = (action) => main.querySelector(`[data-action=${action}]`).click();
  const stored = async () => (await resultOf((await resultOf(phone.factory.open(phone.name))).transaction("event").objectStore("event").getAll())).map(({ raw }) => JSON.parse(raw));
  try {
    await body({ phone, tab, cut, tap, told, main, stored, t, life });
  } finally {
    life.abort();
    cut.stop();
    phone.off();
  }
};

test("a stuck store keeps the session and the arc of one tap, and opens no second session", withCut(async ({ phone, tab, cut, tap, stored, t }) => {
  t.mock.timers.enable({ apis: ["setInterval"] });
  await cut.start();
  const letGo = hold(tab);
  const { wall } = phone;
  tap("arc");
  phone.wall += 30_000;
  for (let i = 0; i < 5; i++) {
    t.mock.timers.tick(1000);
    await turn();
  }
  tap("part"); // left open: the session is made sure of all the same
  tap("drained");
  await turns();
  const kept = tab.failed.flatMap(({ entries }) => entries);
  assert.deepEqual(kept.map(({ kind }) => kind), ["session.opened", "arc.started", "trap.drained"]);
  assert.equal(kept[1].in, kept[0].about);
  assert.equal(kept[2].in, kept[0].about);
  letGo();
  while (tab.failed.length > 0) await turn();
  await turns();
  const events = await stored();
  const of = (kind) => events.filter((e) => e.kind === kind);
  assert.deepEqual([of("session.opened").length, of("arc.started").length, of("trap.drained").length], [1, 1, 1]);
  assert.equal(of("arc.started")[0].wall[0], wall, "the time of the tap");
  tap("note");
  await turns();
  assert.equal((await stored()).filter((e) => e.kind === "session.opened").length, 1);
}));

test("the first tap hands the journal the session and the arc at once", withCut(async ({ phone, tab, cut, tap }) => {
  await cut.start();
  const handed = [];
  const { tap: write, startArc } = Journal.prototype;
  tab.tap = (entry) => (handed.push(entry.kind), write.call(tab, entry));
  tab.startArc = (arc) => (handed.push(arc), startArc.call(tab, arc));
  tap("arc");
  assert.equal(handed.length, 2);
  assert.equal(handed[0], "session.opened");
  await turns();
  const { views, arc } = await phone.tab().read(["now"]);
  assert.equal(arc["rig-1"].in, views.now.session.id);
  assert.equal(handed[1].in, views.now.session.id);
}));

test("a read from before the session was opened does not open a second", withCut(async ({ tab, cut, tap, stored }) => {
  await cut.start();
  const { read } = tab;
  tab.read = async (names) => ({ ...(await read.call(tab, names)), views: { now: null, rigs: null } }); // as it was before
  tap("drained");
  await turns();
  delete tab.read;
  tap("arc");
  await turns();
  assert.equal((await stored()).filter((e) => e.kind === "session.opened").length, 1);
}));

test("End keeps the stop and the end of the session, though the store is stuck", withCut(async ({ tab, cut, tap, t }) => {
  t.mock.timers.enable({ apis: ["setInterval"] });
  await tab.tap({ kind: "session.opened", about: "s-1", body: { rig: "rig-1" } });
  await tab.startArc({ rig: "rig-1", in: "s-1" });
  await cut.start();
  const letGo = hold(tab);
  tap("end");
  for (let i = 0; i < 5; i++) {
    t.mock.timers.tick(1000);
    await turn();
  }
  await turns();
  assert.deepEqual(tab.failed.flatMap(({ entries }) => entries.map(({ kind }) => kind)), ["arc.stopped", "session.closed"]);
  letGo();
  while (tab.failed.length > 0) await turn();
}));

/** A key of a headset, or Enter where nothing has the focus. */
function press(key) {
  const event = new Event("keydown");
  view.dispatchEvent(Object.defineProperties(event, { key: { value: key }, target: { value: { closest: () => null } } }));
}

for (const key of ["MediaPlayPause", "Enter"]) {
  test(`${key} before the first read stops the arc that burns`, withCut(async ({ phone, tab, cut, told, stored }) => {
    await tab.startArc({ rig: "rig-1" });
    phone.wall += 60_000;
    const starting = cut.start();
    press(key);
    await starting;
    await turns();
    assert.deepEqual(told, []);
    assert.deepEqual((await stored()).map(({ kind }) => kind).sort(), ["arc.started", "arc.stopped"]);
  }));
}

test("a key before the first read stops the arc also if the page is left meanwhile", withCut(async ({ phone, tab, cut, stored, life }) => {
  await tab.startArc({ rig: "rig-1" });
  phone.wall += 60_000;
  const starting = cut.start();
  press("Enter");
  life.abort();
  await starting;
  await turns();
  assert.deepEqual((await stored()).map(({ kind }) => kind).sort(), ["arc.started", "arc.stopped"]);
}));

test("a first read that failed is read again before anything is entered", withCut(async ({ tab, cut, tap, stored, told }) => {
  const { read } = tab;
  let reads = 0;
  tab.read = (names) => (++reads === 2 ? Promise.reject(new Error("no")) : read.call(tab, names));
  await tab.startArc({ rig: "rig-1" });
  await assert.rejects(cut.start());
  tap("drained");
  await turns();
  assert.deepEqual((await stored()).find((e) => e.kind === "trap.drained")?.body, { rig: "rig-1" });
  assert.equal(told.includes("/ready"), false);
}));

test("an arc that is heard as the page goes is noted, and stored by the next start", withCut(async ({ phone, tab, cut, stored, t }) => {
  const items = storage();
  setGlobals(t, { localStorage: items });
  await tab.start();
  const ear = Object.assign(new EventTarget(), { on: true, stop: () => (ear.on = false) });
  cut.ear = /** @type {any} */ (ear);
  await cut.start();
  ear.dispatchEvent(new CustomEvent("heard", { detail: { state: "arc", level: 0.5, running: Date.now() - 5000, arcs: [], sure: true } }));
  for (const target of [early, view]) target.dispatchEvent(new Event("pagehide"));
  assert.equal(ear.on, false);
  const noted = Object.keys(items).filter((key) => key.startsWith("kerfside.failed.")).flatMap((key) => JSON.parse(items[key]).entries);
  assert.deepEqual(noted.map(({ kind }) => kind).sort(), ["arc.run", "session.opened"]);
  const next = phone.tab();
  resume(); // the store alone: the sums have no worker here
  await next.start();
  await turns();
  const run = (await stored()).filter((e) => e.kind === "arc.run");
  assert.equal(run.length, 1);
  assert.ok(run[0].body.stop - run[0].body.start >= 5000);
  assert.equal(run[0].in, (await next.read(["now"])).views.now.session.id);
}));

test("what the store refuses comes to the eye, and is gone from it with the next arc", withCut(async ({ tab, cut, tap, main, t }) => {
  await cut.start();
  const brought = [];
  t.mock.method(Element.prototype, "scrollIntoView", function () { brought.push(this.dataset.ref); });
  tab.tap = async () => Promise.reject({ kind: "full", msg: "The phone is full", hint: "Make room" });
  tap("drained");
  await turns();
  const wrong = main.querySelector("[data-ref=wrong]");
  assert.equal(wrong.textContent, "The phone is fullMake room");
  assert.deepEqual(brought, ["wrong"]);
  delete tab.tap;
  tap("arc");
  await turns();
  assert.equal(wrong.hidden, true);
}));
