// The second copy of what is only on this phone: what a browser that empties the store leaves.

import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { test } from "node:test";
import { abortNext, resultOf, note, page, Phone, quota, withPhone } from "./phone.mjs";
import { turn } from "./turn.mjs";
import { SecondCopy } from "../../pwa/journal/second-copy.js";
import { Database } from "../../pwa/journal/db.js";
import { leave, settle } from "../../pwa/journal/crew/join.js";

const { IDBFactory } = createRequire(new URL("../../cmd/dev/npm/package.json", import.meta.url))("fake-indexeddb");
const crew = "N0sD1w2aRtY7uIo9PqLm3g";

/** Storage buckets with the locks of the tabs that use them. */
class Buckets {
  all = new Map();
  #held = new Map();
  full = false;

  async open(name) {
    if (this.full) throw quota();
    if (!this.all.has(name)) this.all.set(name, new IDBFactory());
    return { indexedDB: this.all.get(name) };
  }

  keys = async () => [...this.all.keys()];
  delete = async (name) => void this.all.delete(name);

  locks = {
    request: async (name, options, body = options) => {
      if (this.#held.has(name)) {
        assert.equal(options.ifAvailable, true);
        return body(null);
      }
      const done = Promise.resolve(body({ name })).finally(() => this.#held.delete(name));
      this.#held.set(name, done);
      return done;
    },
  };
}

/** Gives a test a phone whose browser has buckets and its page. */
const withCopy = (body) => withPhone(async (phone, t) => {
  page(t);
  phone.name = "kerfside";
  phone.buckets = new Buckets();
  await body(phone, t);
});

/** Starts a tab and waits until it has done what it does then, or is to be loaded anew. */
async function started(tab) {
  await Promise.race([tab.start(), new Promise((resolve) => tab.addEventListener("moved", resolve))]);
  return tab;
}

/** The phone is killed: its locks go, and its tabs write no more. */
function killed(phone) {
  for (const tab of phone.tabs.splice(0)) {
    tab.copy.seal();
    tab.close();
  }
}

/** The browser drops all its databases, but not the buckets. */
function emptied(phone) {
  killed(phone);
  phone.factory = new IDBFactory();
}

const texts = async (phone, name = "kerfside") => {
  const db = new Database(name, { factory: phone.factory });
  const events = await db.run(["event"], "readonly", (tx) => resultOf(tx.objectStore("event").getAll()));
  db.close();
  return events.map(({ raw }) => JSON.parse(raw)).map(({ body, kind }) => body.text ?? kind).sort();
};

/** Marks entries as the server's would be. */
const sent = (tab, ids) => tab.db.run(["event"], "readwrite", async (tx) => {
  for (const id of ids) {
    const { unsent, ...record } = await resultOf(tx.objectStore("event").get(id));
    tx.objectStore("event").put({ ...record, n: 1, o: record.t });
  }
});

/** Has a tab hear of a sync, and waits until its copy holds so many. */
async function synced(tab, holds) {
  const channel = new BroadcastChannel("kerfside:" + tab.db.name);
  channel.postMessage({ what: "change", l: 1, by: "sync" });
  while (tab.copy.held.size !== holds) await new Promise((resolve) => setTimeout(resolve, 1));
  channel.close();
}

test("what was only in a store that the browser emptied comes back, once", withCopy(async (phone) => {
  const tab = await started(phone.tab());
  const told = [];
  await tab.tap(note("one"));
  await tab.startArc({ rig: "rig-1" });
  const { device, clock } = await phone.meta();
  for (let i = 0; i < 3; i++) {
    emptied(phone);
    const next = phone.tab();
    next.addEventListener("trouble", ({ detail }) => told.push(detail.hint));
    await started(next);
    assert.deepEqual(await texts(phone), ["arc.started", "one"]);
    assert.equal(phone.buckets.all.size, 1, "the bucket that was left is taken over");
  }
  const meta = await phone.meta();
  assert.deepEqual([meta.device, meta.clock], [device, clock]);
  assert.match(told[0], /^2 that only this phone had are back/);
  assert.equal(told.length, 3);
}));

test("a tap is called stored when both are on the disk", withCopy(async (phone) => {
  const tab = await started(phone.tab());
  let letGo;
  const gate = new Promise((resolve) => (letGo = resolve));
  const keep = tab.copy.keep.bind(tab.copy);
  tab.copy.keep = async (...words) => (await gate, keep(...words));
  let isStored = false;
  const tapping = tab.tap(note("one")).then(() => (isStored = true));
  while ((await texts(phone)).length === 0);
  assert.equal(isStored, false);
  letGo();
  await tapping;
  assert.equal(tab.copy.held.size, 1);
}));

test("what the server has is no longer kept twice, and what it gives up again is", withCopy(async (phone) => {
  const tab = await started(phone.tab());
  const { ids: [one] } = await tab.tap(note("one"));
  await tab.tap(note("two"));
  await sent(tab, [one]);
  await synced(tab, 1);
  emptied(phone);
  const next = await started(phone.tab());
  assert.deepEqual(await texts(phone), ["two"]);
  await sent(next, [...next.copy.held.keys()]);
  await synced(next, 0);
  await next.db.run(["event"], "readwrite", async (tx) => { // the server was restored: its numbers are forgotten
    const store = tx.objectStore("event");
    for (const { n, ...record } of await resultOf(store.getAll())) store.put({ ...record, unsent: 1 });
  });
  await synced(next, 1);
}));

test("the bucket of a tab that lives is left alone; of closed ones small ones are joined, large ones stay", withCopy(async (phone) => {
  const [first, second] = [await started(phone.tab()), await started(phone.tab())];
  await first.tap(note("one"));
  await second.tap(note("two"));
  assert.equal(phone.buckets.all.size, 2);
  killed(phone);
  const many = await started(phone.tab());
  assert.equal(phone.buckets.all.size, 1);
  await many.tap(Array.from({ length: 600 }, (_, i) => note(`more ${i}`)));
  killed(phone);
  const next = await started(phone.tab());
  assert.equal(phone.buckets.all.size, 2);
  assert.equal(next.copy.held.size, 602);
  await next.tap(note("last"));
  emptied(phone);
  const after = await started(phone.tab());
  assert.equal((await texts(phone)).length, 603);
  await sent(after, [...after.copy.held.keys()]);
  killed(phone);
  await started(phone.tab());
  assert.equal(phone.buckets.all.size, 1, "a large one that the server has goes too");
}));

test("what was tapped before a join comes back in the crew; what was left with a crew stays there", withCopy(async (phone) => {
  const local = await started(phone.tab());
  await local.tap(note("before"));
  await settle({ crew, device: "phone-a" }, phone.factory);
  killed(phone);
  phone.name = `kerfside-${crew}`;
  const member = await started(phone.tab());
  await member.tap(note("in the crew"));
  emptied(phone);
  phone.name = "kerfside"; // localStorage had not been written
  await started(phone.tab());
  assert.deepEqual(await texts(phone, `kerfside-${crew}`), ["before", "in the crew"]);
  assert.deepEqual(await texts(phone), []);
  const [{ crew: said, device }] = await new Phone().all.call({ tabs: [{ db: new Database(`kerfside-${crew}`, { factory: phone.factory }) }] }, "meta");
  assert.deepEqual([said, device], [crew, "phone-a"]);

  await leave(phone.factory);
  killed(phone);
  const alone = await started(phone.tab());
  await alone.tap(note("alone"));
  emptied(phone);
  await started(phone.tab());
  assert.deepEqual([await texts(phone), await texts(phone, `kerfside-${crew}`)], [["alone"], ["before", "in the crew"]]);
}));

test("a page that reads amid a rescue is loaded anew only when what came back is told", withCopy(async (phone, t) => {
  await settle({ crew, device: "phone-a" }, phone.factory);
  phone.name = `kerfside-${crew}`;
  const member = await started(phone.tab());
  await member.tap(note("in the crew"));
  emptied(phone);
  phone.name = "kerfside"; // localStorage had not been written
  const told = new Map();
  globalThis.sessionStorage = /** @type {any} */ ({ getItem: (key) => told.get(key) ?? null, setItem: (key, value) => told.set(key, value), removeItem: (key) => told.delete(key) });
  t.after(() => delete globalThis.sessionStorage);
  const tab = phone.tab();
  const { eachLeft } = tab.copy;
  let turns = 0;
  tab.copy.eachLeft = async function (body) {
    if (++turns === 2) await tab.read([]); // as the first views of the worker have every screen do
    return eachLeft.call(this, body);
  };
  const moved = new Promise((resolve) => tab.addEventListener("moved", () => resolve([...told.values()].join())));
  tab.start();
  assert.match(await moved, /emptied/);
  assert.deepEqual(await texts(phone, `kerfside-${crew}`), ["in the crew"]);
}));

test("what is the phone's own comes back from the bucket, also when localStorage had not been written", withCopy(async (phone) => {
  const tab = await started(phone.tab());
  tab.localState.set("settings", { units: "us" });
  tab.localState.set("draft.note", { text: "half" });
  await tab.localState.settled();
  for (let i = 0; i < 2; i++) {
    emptied(phone);
    for (const key of Object.keys(localStorage)) localStorage.removeItem(key);
    const next = await started(phone.tab());
    assert.deepEqual([next.localState.get("settings"), next.localState.get("draft.note")], [{ units: "us" }, { text: "half" }]);
    await next.localState.settled();
  }
}));

test("what was told to be lost does not come back", withCopy(async (phone) => {
  const tab = await started(phone.tab());
  abortNext(tab, new DOMException("no", "DataError"));
  await assert.rejects(tab.startArc({ rig: "rig-1" }));
  while (tab.copy.held.size > 0) await turn();
  emptied(phone);
  await started(phone.tab());
  assert.deepEqual(await texts(phone), []);
}));

test("a phone without room for the second copy stores what is tapped, and says so once", withCopy(async (phone) => {
  const tab = phone.tab();
  const told = [];
  tab.addEventListener("trouble", ({ detail }) => told.push(detail.kind));
  phone.buckets.full = true;
  await tab.tap(note("one"));
  await tab.tap(note("two"));
  assert.deepEqual([await texts(phone), told], [["one", "two"], ["disk-full"]]);
  phone.buckets.full = false;
  await started(tab);
  assert.equal(tab.copy.held.size, 2, "made up for when there is room");
}));

test("what an import brings is kept twice before it is called entered", withCopy(async (phone) => {
  const tab = await started(phone.tab());
  tab.bridge.call = async () => {
    const db = new Database("kerfside", { factory: phone.factory });
    await db.run(["event", "meta"], "readwrite", (tx) => void tx.objectStore("event").put({ id: "x".repeat(22), raw: JSON.stringify(note("carried")), t: "0".repeat(16), o: "0".repeat(16), l: 1, unsent: 1 }));
    db.close();
    return { added: 1 };
  };
  await tab.importText("…");
  emptied(phone);
  await started(phone.tab());
  assert.deepEqual(await texts(phone), ["carried"]);
}));

test("buckets that the browser shuts keep nothing else from working", async () => {
  const copy = new SecondCopy({ buckets: { keys: () => Promise.reject(new DOMException("shut", "SecurityError")), open: assert.fail, delete: assert.fail }, locks: /** @type {any} */ ({ request: assert.fail }) });
  assert.equal(await copy.whose(), undefined);
});

test("a tap that was cut off is brought back without a word of an emptied store", withCopy(async (phone) => {
  const tab = await started(phone.tab());
  await tab.tap(note("stored"));
  const { id } = await tab.tap(note("cut off"));
  await tab.db.run(["event"], "readwrite", (tx) => void tx.objectStore("event").delete(id));
  killed(phone);
  const told = [];
  const next = phone.tab();
  next.addEventListener("trouble", ({ detail }) => told.push(detail.kind));
  await started(next);
  assert.deepEqual(await texts(phone), ["cut off", "stored"]);
  assert.deepEqual(told, ["cut-off"]);
}));
