// What a screen reads: one transaction for all who ask in a step, views that these pages can draw, and what this phone knows beyond them.
import assert from "node:assert/strict";
import { test } from "node:test";
import { note, withPhone } from "./phone.mjs";
import { foldVersion } from "../../pwa/journal/fold-version.js";
import { readModel } from "../../pwa/journal/read-model.js";

/** A tab, with how often its store was read, and views put into that. */
function reading(phone) {
  const tab = phone.tab();
  const run = tab.db.run.bind(tab.db);
  const reads = [];
  tab.db.run = (stores, mode, ...words) => (mode === "readonly" && reads.push(stores.join()), run(stores, mode, ...words));
  const put = (name, data, fold = foldVersion, l = 1) => run(["view"], "readwrite", (tx) => void tx.objectStore("view").put({ name, fold, l, data }));
  return { tab, db: tab.db, reads, put };
}

test("all who ask in one step get of one transaction, each what it asked for", withPhone(async (phone) => {
  const { db, reads, put } = reading(phone);
  await put("now", { session: null });
  await put("book", { sessions: [] });
  const [one, both, none] = await Promise.all([readModel(db, ["now"]), readModel(db, ["book", "now"]), readModel(db, [])]);
  assert.equal(reads.length, 1);
  assert.deepEqual([one.views, both.views, none.views], [{ now: { session: null } }, { book: { sessions: [] }, now: { session: null } }, {}]);
  assert.deepEqual([one.l, both.l, none.l], [{ now: 1 }, { book: 1, now: 1 }, {}]);
}));

test("who asks once a read has begun, or of another store, gets one of its own", withPhone(async (phone) => {
  const { db, reads, put } = reading(phone);
  await put("now", { session: null });
  const first = readModel(db, ["now"]);
  await null;
  await null; // it has begun
  await put("now", { session: null, open: [] }, foldVersion, 2);
  assert.deepEqual((await readModel(db, ["now"])).l, { now: 2 });
  assert.deepEqual((await first).l, { now: 1 });
  assert.equal(reads.length, 2);
  phone.name += "-crew";
  const other = reading(phone);
  const both = await Promise.all([readModel(db, ["now"]), readModel(other.db, ["now"])]);
  assert.deepEqual(both.map(({ views }) => views.now === null), [false, true]);
}));

test("a read that fails tells all who asked in its step, and nobody after", withPhone(async (phone) => {
  const { db } = reading(phone);
  const { run } = db;
  db.run = () => Promise.reject(new Error("no store"));
  const both = [readModel(db, ["now"]), readModel(db, [])];
  for (const one of both) await assert.rejects(one, /no store/);
  db.run = run;
  assert.deepEqual((await readModel(db, ["now"])).views, { now: null });
}));

test("a view of any other version of the fold is none, and reaches nowhere", withPhone(async (phone) => {
  const { db, put } = reading(phone);
  await put("now", { session: null }, foldVersion - 1, 7);
  await put("rigs", { rigs: [] }, foldVersion + 1, 7);
  await put("book", { sessions: [] }, foldVersion, 7);
  const { views, l } = await readModel(db, ["now", "rigs", "book"]);
  assert.deepEqual([views, l], [{ now: null, rigs: null, book: { sessions: [] } }, { now: 0, rigs: 0, book: 7 }]);
}));

test("session, stops and watches that this phone knows stand over an older view, and without one", withPhone(async (phone) => {
  const { db, put } = reading(phone);
  const gate = { stops: [{ id: "stop" }], asked: [] };
  const watch = [{ id: "watch" }];
  await phone.setMeta({ session: { id: "s-2" }, gate, watch });
  assert.deepEqual((await readModel(db, ["now"])).views.now, { session: { id: "s-2" }, gate, watch });
  await put("now", { session: { id: "s-1" }, gate: { stops: [], asked: [] }, watch: [], open: [] });
  assert.deepEqual((await readModel(db, ["now"])).views.now, { session: { id: "s-2" }, gate, watch, open: [] });
  assert.deepEqual((await readModel(db, ["book"])).views, { book: null }, "who does not ask for it gets none");
  await phone.setMeta({ session: null, gate: null, watch: null });
  const { now } = (await readModel(db, ["now"])).views;
  assert.deepEqual(now, { session: null, gate: { stops: [], asked: [] }, watch: [], open: [] }, "a session that was ended here; of the others the view's word");
}));

test("a session that is open in both is the view's, which knows more of it", withPhone(async (phone) => {
  const { db, put } = reading(phone);
  await put("now", { session: { id: "s-1", ms: 65_000 } });
  await phone.setMeta({ session: { id: "s-1" } });
  assert.equal((await readModel(db, ["now"])).views.now.session.ms, 65_000);
}));

test("where nothing was told and nothing burns, no view is made up", withPhone(async (phone) => {
  const { db } = reading(phone);
  await phone.setMeta({ gate: { stops: [], asked: [] }, watch: [] });
  assert.equal((await readModel(db, ["now"])).views.now, null);
}));

test("what was entered since is laid over what is read, and not into what others read", withPhone(async (phone) => {
  const { tab, db, put } = reading(phone);
  await put("rigs", { rigs: [{ id: "rig-1", fields: { name: "Truck 1" }, by: {}, also: [] }], sites: [] });
  await tab.tap({ kind: "rig.set", about: "rig-1", body: { name: "Truck 2" } });
  const [one, other] = await Promise.all([readModel(db, ["rigs"]), readModel(db, ["rigs"])]);
  assert.deepEqual([one, other].map(({ views }) => views.rigs.rigs[0].fields.name), ["Truck 2", "Truck 2"]);
  assert.equal((await phone.all("view"))[0].data.rigs[0].fields.name, "Truck 1");
}));

test("the marks tell what is to be sent and since when, what was put aside, and what is still to come", withPhone(async (phone) => {
  const { tab, db } = reading(phone);
  const marks = async () => {
    const { unsent, since, aside, onServer, backedUp, coming } = (await readModel(db, [])).marks;
    return { unsent, since, aside, onServer, backedUp, coming };
  };
  assert.deepEqual(await marks(), { unsent: 0, since: 0, aside: 0, onServer: false, backedUp: false, coming: 0 }, "of a server nothing is known");
  await phone.setMeta({ heard: 5, backedUp: 9, cursor: 20, coming: 100 });
  assert.deepEqual(await marks(), { unsent: 0, since: 0, aside: 0, onServer: true, backedUp: false, coming: 80 }, "nothing is in no backup");
  await phone.setMeta({ max: 9, cursor: 120 });
  assert.deepEqual(await marks(), { unsent: 0, since: 0, aside: 0, onServer: true, backedUp: true, coming: 0 });
  const first = phone.wall;
  await tab.tap(note("first"));
  phone.wall += 60_000;
  await tab.tap(note("second"));
  assert.deepEqual(await marks(), { unsent: 2, since: first, aside: 0, onServer: false, backedUp: false, coming: 0 });
  const { nextL } = await phone.meta();
  await phone.setMeta({ count: { nextL, unsent: 0, aside: 1 } });
  assert.deepEqual(await marks(), { unsent: 0, since: 0, aside: 1, onServer: false, backedUp: false, coming: 0 }, "what was put aside is not on the server");
}));
