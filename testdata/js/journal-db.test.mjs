import assert from "node:assert/strict";
import { test } from "node:test";
import { resultOf, note, withPhone } from "./phone.mjs";
import { Database } from "../../pwa/journal/db.js";
import { foldVersion } from "../../pwa/journal/fold-version.js";

/** A factory that remembers the connections it opened. */
function watched(factory) {
  const opened = [];
  return {
    opened,
    open(name, version) {
      const request = factory.open(name, version);
      request.addEventListener("success", () => opened.push(request.result));
      return request;
    },
  };
}

test("a dropped connection is opened again", withPhone(async (phone) => {
  const factory = watched(phone.factory);
  const db = new Database("dropped", { factory });
  const write = (id) => db.run(["event"], "readwrite", (tx) => resultOf(tx.objectStore("event").put({ id, l: 1 })));
  await write("a");
  factory.opened[0].close(); // as Safari does in the background; the next transaction throws InvalidStateError
  await write("b");
  assert.equal(factory.opened.length, 2);
  assert.equal(await db.run(["event"], "readonly", (tx) => resultOf(tx.objectStore("event").count())), 2);
  db.close();
}));

test("a transaction that dies of an unknown error runs again on a new connection", withPhone(async (phone) => {
  const factory = watched(phone.factory);
  const db = new Database("unknown", { factory });
  let runs = 0;
  await db.run(["event"], "readwrite", async (tx) => {
    await resultOf(tx.objectStore("event").put({ id: "a", l: 1 }));
    if (++runs === 1) throw new DOMException("lost the server process", "UnknownError");
  });
  assert.equal(runs, 2);
  assert.equal(factory.opened.length, 2);
  db.close();
}));

test("an error that stays is reported, not repeated for ever", withPhone(async (phone) => {
  const db = new Database("stays", { factory: phone.factory });
  let runs = 0;
  await assert.rejects(db.run(["event"], "readwrite", () => {
    runs++;
    throw new DOMException("still", "UnknownError");
  }), { name: "UnknownError" });
  assert.equal(runs, 3);
  db.close();
}));

test("a thrown error aborts the transaction and is what run rejects with", withPhone(async (phone) => {
  const db = new Database("thrown", { factory: phone.factory });
  await assert.rejects(db.run(["event"], "readwrite", async (tx) => {
    await resultOf(tx.objectStore("event").put({ id: "a", l: 1 }));
    throw new RangeError("no");
  }), RangeError);
  assert.equal(await db.run(["event"], "readonly", (tx) => resultOf(tx.objectStore("event").count())), 0);
  db.close();
}));

test("a newer version gets the store, and the tab is told", withPhone(async (phone) => {
  let outdated = 0;
  const db = new Database("newer", { factory: phone.factory, onOutdated: () => outdated++ });
  await db.run(["meta"], "readonly", (tx) => resultOf(tx.objectStore("meta").count()));
  const newer = await resultOf(phone.factory.open("newer", 99));
  assert.equal(newer.version, 99);
  assert.equal(outdated, 1);
  newer.close();
}));

test("an older tab that holds on is reported as blocking", withPhone(async (phone) => {
  const stubborn = await resultOf(phone.factory.open("held", 1)); // does not close on versionchange
  const factory = { open: (name) => phone.factory.open(name, 2) };
  let blocked = 0;
  const db = new Database("held", { factory, onBlocked: () => {
    blocked++;
    stubborn.close();
  } });
  await assert.rejects(db.run(["meta"], "readonly", () => {}), { name: "NotFoundError" }); // opened at last; it has no stores
  assert.equal(blocked, 1);
  db.close();
}));

test("read shows views of this fold only, the arcs, and the marks", withPhone(async (phone) => {
  const tab = phone.tab();
  let painted = await tab.read(["now", "book"]);
  assert.deepEqual([painted.views, painted.arc], [{ now: null, book: null }, {}]);
  assert.deepEqual({ unsent: painted.sync.unsent, onServer: painted.sync.onServer, since: painted.sync.since }, { unsent: 0, onServer: false, since: 0 });
  await tab.startArc({ rig: "rig-1" });
  phone.wall += 60_000;
  await tab.tap(note("later"));
  await tab.db.run(["view"], "readwrite", (tx) => {
    tx.objectStore("view").put({ name: "now", fold: foldVersion, l: 2, data: { open: [] } });
    tx.objectStore("view").put({ name: "book", fold: foldVersion - 1, l: 2, data: {} });
  });
  painted = await tab.read(["now", "book"]);
  assert.deepEqual(painted.views, { now: { open: [] }, book: null });
  assert.deepEqual(painted.l, { now: 2, book: 0 });
  assert.deepEqual(Object.keys(painted.arc), ["rig-1"]);
  assert.deepEqual({ unsent: painted.sync.unsent, since: painted.sync.since }, { unsent: 2, since: phone.wall - 60_000 });
  assert.equal(tab.state.unsent, 2);
}));

test("the marks tell server and backup apart", withPhone(async (phone) => {
  const tab = phone.tab();
  await phone.setMeta({ heard: 1, cursor: 9, max: 9, backedUp: 8 });
  assert.deepEqual(pick((await tab.read([])).sync), { onServer: true, backedUp: false, sameDisk: false });
  await phone.setMeta({ sameDisk: 9 });
  assert.deepEqual(pick((await tab.read([])).sync), { onServer: true, backedUp: false, sameDisk: true });
  await phone.setMeta({ backedUp: 9 });
  assert.deepEqual(pick((await tab.read([])).sync), { onServer: true, backedUp: true, sameDisk: true });
  await tab.tap(note("new"));
  assert.deepEqual(pick((await tab.read([])).sync), { onServer: false, backedUp: false, sameDisk: false });
}));

const pick = ({ onServer, backedUp, sameDisk }) => ({ onServer, backedUp, sameDisk });
