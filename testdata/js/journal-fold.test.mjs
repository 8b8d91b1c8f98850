import assert from "node:assert/strict";
import { test } from "node:test";
import { abortNext, resultOf, note, quota, withPhone } from "./phone.mjs";
import { startWasm } from "./wasm.mjs";
import { applyChange, readExchange } from "../../pwa/worker/apply.js";
import { FoldLoop } from "../../pwa/worker/fold-loop.js";
import { foldVersion } from "../../pwa/journal/fold-version.js";

/** A worker's folder over a phone's store, with the real wasm. */
async function folder(phone) {
  const tab = phone.tabs[0] ?? phone.tab();
  const told = [];
  const call = await startWasm();
  return Object.assign(new FoldLoop({ db: tab.db, call, channel: { tell: (message) => told.push(message) } }), { told });
}

const session = { kind: "session.opened", about: "session-1", body: { rig: "rig-1", title: "Gate post" } };

test("a new phone gets all views, of the version that the pages draw", withPhone(async (phone) => {
  await (await folder(phone)).run();
  const { views } = await phone.tabs[0].read(["now", "rigs", "book", "settings", "guides", "stock"]);
  assert.equal(views.now.session, null);
  assert.deepEqual(views.book.sessions, []);
  for (const [name, view] of Object.entries(views)) assert.ok(view, name);
  assert.equal((await phone.all("view"))[0].fold, foldVersion);
}));

test("taps become views, and the page is told", withPhone(async (phone) => {
  const fold = await folder(phone);
  const tab = phone.tabs[0];
  await fold.run();
  fold.told.length = 0;
  await tab.tap(session);
  await tab.startArc({ rig: "rig-1", in: "session-1" });
  phone.wall += 65_000;
  const { l } = await tab.stopArc({ rig: "rig-1", in: "session-1", starts: 2 });
  await fold.run();
  const { views, l: shown } = await tab.read(["now", "book"]);
  assert.deepEqual([views.now.session.id, views.now.session.ms, views.now.session.starts], ["session-1", 65_000, 2]);
  assert.equal(views.book.sessions[0].title, "Gate post");
  assert.equal(shown.now, l);
  assert.deepEqual(fold.told, [{ what: "views", l }]);
}));

test("the running arc of the fold goes into meta, but never over a newer tap", withPhone(async (phone) => {
  const fold = await folder(phone);
  const tab = phone.tabs[0];
  await tab.tap(session);
  const started = await tab.startArc({ rig: "rig-1", in: "session-1" });
  await phone.setMeta({ arc: {} }); // as after a store that was put together from a sync
  const call = fold.call;
  await fold.run();
  assert.equal((await phone.meta()).arc["rig-1"].id, started.id);
  await tab.tap(note("another"));
  phone.wall += 5000;
  let tapped;
  fold.call = (name, input) => {
    if (name === "journal-fold") tapped ??= tab.stopArc({ rig: "rig-1" }); // while the wasm folds the note
    return call(name, input);
  };
  const { db } = fold;
  fold.db = { run: async (...words) => {
    await tapped;
    return db.run(...words);
  } };
  await fold.run();
  assert.deepEqual((await phone.meta()).arc, {}, "the tap stands");
  await fold.run();
  assert.deepEqual((await phone.meta()).arc, {});
}));

test("a slower worker does not put an older view over a newer one", withPhone(async (phone) => {
  const [slow, quick] = [await folder(phone), await folder(phone)];
  const tab = phone.tabs[0];
  await tab.tap(session);
  await slow.run();
  await tab.tap({ kind: "session.set", about: "session-1", body: { title: "Rail" } });
  const { db } = slow;
  let overtaken = false;
  slow.db = { run: async (stores, mode, body) => {
    if (mode === "readwrite" && !overtaken) {
      overtaken = true;
      await tab.tap({ kind: "session.set", about: "session-1", body: { title: "Hinge" } });
      await quick.run();
    }
    return db.run(stores, mode, body);
  } };
  await slow.run();
  assert.equal(overtaken, true);
  const { views, l } = await tab.read(["book"]);
  assert.deepEqual([views.book.sessions[0].title, l.book], ["Hinge", 3]);
}));

test("the views of a newer version of the fold stay", withPhone(async (phone) => {
  const fold = await folder(phone);
  const newer = { name: "now", fold: foldVersion + 1, l: 0, data: { newer: true } };
  await phone.tabs[0].db.run(["view"], "readwrite", (tx) => resultOf(tx.objectStore("view").put(newer)));
  await fold.run();
  assert.deepEqual((await phone.all("view")).find(({ name }) => name === "now"), newer);
  assert.equal((await phone.tabs[0].read(["now"])).views.now, null);
}));

test("a start from the snapshot reads only what came after it, and comes to the same hash", withPhone(async (phone) => {
  const first = await folder(phone);
  const tab = phone.tabs[0];
  await tab.tap([session, ...Array.from({ length: 1200 }, (_, i) => ({ ...note(`note ${i}`), in: "session-1" }))]);
  await first.run({ keep: true });
  assert.ok((await phone.all("snapshot")).length >= 2, "more than one rung");
  await tab.tap(note("after"));
  const second = await folder(phone);
  const read = [];
  const call = second.call;
  second.call = (name, input) => {
    if (name === "journal-fold") read.push(input.events.length);
    return call(name, input);
  };
  await second.run();
  assert.deepEqual(read, [1]);
  const whole = await folder(phone);
  await phone.tabs[0].db.run(["snapshot"], "readwrite", (tx) => resultOf(tx.objectStore("snapshot").clear()));
  await whole.run();
  assert.deepEqual(second.call("journal-hash", {}), whole.call("journal-hash", {}));
}));

test("a damaged snapshot is dropped, and built again", withPhone(async (phone) => {
  const first = await folder(phone);
  const tab = phone.tabs[0];
  await tab.tap([session, note("one")]);
  await first.run({ keep: true });
  await tab.db.run(["snapshot"], "readwrite", async (tx) => {
    const store = tx.objectStore("snapshot");
    const [rung] = await resultOf(store.getAll());
    store.put({ ...rung, data: rung.data.slice(0, -9) + "damaged" });
  });
  const second = await folder(phone);
  await second.run({ keep: true });
  assert.deepEqual(second.call("journal-hash", {}), first.call("journal-hash", {}));
  const third = await folder(phone);
  await third.run();
  assert.deepEqual(third.call("journal-hash", {}), first.call("journal-hash", {}));
  assert.equal((await phone.all("snapshot")).length, 1);
}));

test("two workers never mix their rungs", withPhone(async (phone) => {
  const [a, b] = [await folder(phone), await folder(phone)];
  const tab = phone.tabs[0];
  await tab.tap(session);
  await Promise.all([a.run(), b.run()]);
  let n = 0;
  for (let i = 0; i < 12; i++) {
    await tab.tap(Array.from({ length: 110 }, (_, k) => ({ ...note(`${i}-${k}`), in: "session-1" })));
    await a.run(); // a folds the entries and then what the server said of them; b folds both at once
    const exchange = await readExchange(tab.db);
    const ack = exchange.unsent.map(({ id, t }) => ({ id, n: ++n, o: t }));
    await applyChange(tab.db, exchange, { meta: { turn: exchange.meta.turn + 1 }, ack });
    for (const one of i % 2 ? [a, b] : [b, a]) await one.run();
  }
  const fresh = await folder(phone);
  let restored;
  const call = fresh.call;
  fresh.call = (name, input) => {
    const out = call(name, input);
    if (name === "journal-restore") restored = out;
    return out;
  };
  await fresh.run();
  assert.deepEqual(restored.stale, []);
  assert.ok(restored.l > 1200, `the snapshot reaches ${restored.l}`);
  assert.deepEqual(call("journal-hash", {}), a.call("journal-hash", {}));
  assert.deepEqual(call("journal-hash", {}), b.call("journal-hash", {}));
}));

test("a view that did not change is not written again", withPhone(async (phone) => {
  const fold = await folder(phone);
  await phone.tabs[0].tap({ kind: "rig.set", about: "rig-1", body: { name: "Truck 1" } });
  await fold.run();
  await phone.tabs[0].tap(session);
  await fold.run();
  const { l } = await phone.tabs[0].read(["rigs", "book"]);
  assert.deepEqual(l, { rigs: 1, book: 2 });
}));

test("on a full phone the snapshot goes and the views come with the next run", withPhone(async (phone) => {
  const fold = await folder(phone);
  const tab = phone.tabs[0];
  await tab.tap(session);
  await fold.run({ keep: true });
  assert.equal((await phone.all("snapshot")).length, 1);
  await tab.tap({ kind: "session.set", about: "session-1", body: { title: "Rail" } });
  abortNext(tab, quota());
  await fold.run();
  assert.equal((await phone.all("snapshot")).length, 0);
  await fold.run();
  assert.equal((await tab.read(["book"])).views.book.sessions[0].title, "Rail");
}));

test("what cannot be read as an event holds nothing up", withPhone(async (phone) => {
  const fold = await folder(phone);
  await phone.tabs[0].tap(session);
  await phone.tabs[0].db.run(["event", "meta"], "readwrite", async (tx) => {
    tx.objectStore("event").put({ id: "x".repeat(22), raw: "{broken", t: "0".repeat(16), l: 2, unsent: 1 });
    const meta = await resultOf(tx.objectStore("meta").get("meta"));
    tx.objectStore("meta").put({ ...meta, nextL: 3 }, "meta");
  });
  await fold.run();
  assert.equal((await phone.tabs[0].read(["book"])).views.book.total, 1);
}));

test("a record that this version cannot read is told of, and kept, and hides no other", withPhone(async (phone) => {
  const fold = await folder(phone);
  const tab = phone.tabs[0];
  await tab.tap(session);
  const { id } = await tab.tap({ ...note("good"), in: "session-1" });
  await tab.db.run(["event"], "readwrite", async (tx) => {
    const store = tx.objectStore("event");
    const record = await resultOf(store.get(id));
    const deep = JSON.stringify({ ...JSON.parse(record.raw), id: "deep".padEnd(22, "_"), body: { a: [[[[[[[[1]]]]]]]] } });
    store.put({ ...record, id: "deep".padEnd(22, "_"), raw: deep, l: record.l + 1 });
  });
  await phone.setMeta({ nextL: 4 });
  await fold.run();
  assert.deepEqual(fold.told.filter(({ what }) => what === "trouble").map(({ trouble }) => trouble.msg), ["one entry cannot be read by this version"]);
  assert.equal((await phone.all("event")).length, 3);
  assert.equal(fold.call("journal-session", { id: "session-1" }).entries.length, 2);
  await tab.tap(note("another"));
  await fold.run();
  assert.equal(fold.told.filter(({ what }) => what === "trouble").length, 1);
}));

test("the views of an earlier version of the fold give way, however far they reached", withPhone(async (phone) => {
  const fold = await folder(phone);
  const tab = phone.tabs[0];
  await tab.tap(session);
  await tab.db.run(["view"], "readwrite", (tx) => resultOf(tx.objectStore("view").put({ name: "book", fold: foldVersion - 1, l: 900, data: { sessions: [] } })));
  assert.equal((await tab.read(["book"])).views.book, null, "which the pages cannot draw");
  await fold.run();
  const { views, l } = await tab.read(["book"]);
  assert.deepEqual([views.book.sessions.length, l.book], [1, 1]);
}));

test("what another worker has shown already is not written again, and no page is told", withPhone(async (phone) => {
  const [a, b] = [await folder(phone), await folder(phone)];
  await phone.tabs[0].tap(session);
  await a.run();
  const before = await phone.all("view");
  await b.run();
  await a.run();
  assert.deepEqual([a.told.length, b.told], [1, []]);
  assert.deepEqual(await phone.all("view"), before);
}));

test("with the arc the fold takes over session, stops, watches and what was entered since, unless a tap came meanwhile", withPhone(async (phone) => {
  const fold = await folder(phone);
  const tab = phone.tabs[0];
  const kept = async () => {
    const { session: open, gate, watch, since } = await phone.meta();
    return [open?.id ?? "", gate?.stops.length ?? 0, watch?.length ?? 0, since.things.length];
  };
  await tab.tap([session, { kind: "rig.set", about: "rig-1", body: { name: "Truck 1" } }]);
  await phone.setMeta({ session: null, gate: { stops: [{ id: "gone" }], asked: [] }, watch: [{ id: "gone" }] }); // as of an older store
  const { db } = fold;
  let isBetween = true;
  fold.db = { run: async (stores, mode, ...words) => {
    if (mode === "readwrite" && isBetween) {
      isBetween = false;
      await tab.tap(note("meanwhile"));
    }
    return db.run(stores, mode, ...words);
  } };
  await fold.run();
  assert.deepEqual(await kept(), ["", 1, 1, 1]);
  await fold.run();
  assert.deepEqual(await kept(), ["session-1", 0, 0, 0]);
}));

/** A folder whose wasm is made up: it answers each portion, and tells what it was asked. */
async function madeUp(phone, answer = (_portion) => ({})) {
  const fold = await folder(phone);
  const calls = [];
  fold.call = /** @type {any} */ ((name, input) => {
    if (name === "journal-restore") return calls.push("restore"), { l: 0, fold: foldVersion, stale: [] };
    calls.push(input);
    return { l: input.events.at(-1)?.l ?? 0, ...answer(input) };
  });
  return Object.assign(fold, { calls, portions: () => calls.filter((call) => call !== "restore") });
}

const notes = (n) => Array.from({ length: n }, (_, i) => note(`note ${i}`));

test("entries go through the fold a thousand at a time, in the order of their change numbers; views and snapshot come with the last", withPhone(async (phone) => {
  const fold = await madeUp(phone);
  const tab = phone.tabs[0];
  for (let i = 0; i < 2; i++) await tab.tap(notes(500));
  await fold.run({ keep: true });
  assert.deepEqual(fold.portions().map(({ events, more, keep }) => [events.length, more, keep]), [[1000, true, false], [0, false, true]]);
  await tab.tap(notes(2));
  await fold.run();
  const { events } = fold.portions().at(-1);
  assert.deepEqual([events.map(({ l }) => l), fold.portions().at(-1).more], [[1001, 1002], false]);
  const all = fold.portions().flatMap((portion) => portion.events.map(({ l }) => l));
  assert.deepEqual(all, Array.from({ length: 1002 }, (_, i) => i + 1));
}));

test("an entry that the server has acknowledged goes through the fold again, with what it said of it", withPhone(async (phone) => {
  const fold = await madeUp(phone);
  const tab = phone.tabs[0];
  await tab.tap(notes(3));
  await fold.run();
  const exchange = await readExchange(tab.db);
  const { id, t } = exchange.unsent[1];
  await applyChange(tab.db, exchange, { meta: { turn: exchange.meta.turn + 1 }, ack: [{ id, n: 7, o: t }] });
  await fold.run();
  assert.deepEqual(fold.portions().at(-1).events.map(({ n, o, l }) => [n, o, l]), [[7, t, 4]]);
}));

test("what is stored, or to be kept, while a run is under way is in the views when the second is over", withPhone(async (phone) => {
  const tab = phone.tab();
  let second;
  const fold = await madeUp(phone, ({ events }) => {
    if (events.length === 1) second ??= tab.tap(note("meanwhile")).then(() => fold.run({ keep: true }));
    return {};
  });
  const { db } = fold;
  fold.db = { run: async (stores, mode, ...words) => {
    if (mode === "readwrite") await phone.all("event"); // so that the tap is stored before the first run ends
    return db.run(stores, mode, ...words);
  } };
  await tab.tap(note("first"));
  const first = fold.run();
  await first;
  await second;
  const after = fold.portions().slice(1);
  assert.deepEqual(after.flatMap(({ events }) => events.map(({ l }) => l)), [2]);
  assert.equal(after.at(-1).keep, true);
}));

test("a run that fails tells why, and the next begins again from the snapshot", withPhone(async (phone) => {
  let isBroken = true;
  const fold = await madeUp(phone, () => {
    if (isBroken) throw new Error("the wasm has ended");
    return { views: { now: { session: null } } };
  });
  await phone.tabs[0].tap(session);
  await assert.rejects(fold.run(), /ended/);
  isBroken = false;
  await fold.run();
  assert.equal(fold.calls.filter((call) => call === "restore").length, 2);
  assert.deepEqual(fold.portions().map(({ events }) => events.length), [1, 1]);
  await phone.tabs[0].tap(note("another"));
  abortNext(phone.tabs[0], new DOMException("no", "DataError"));
  await assert.rejects(fold.run(), { name: "DataError" });
  assert.equal((await phone.all("view"))[0].l, 1);
  await fold.run();
  assert.deepEqual([fold.calls.filter((call) => call === "restore").length, (await phone.all("view"))[0].l], [3, 2]);
}));

test("what cannot be read in any portion is told once, in one number", withPhone(async (phone) => {
  const fold = await madeUp(phone, ({ more }) => ({ refused: more ? [{}, {}] : [{}] }));
  for (let i = 0; i < 3; i++) await phone.tabs[0].tap(notes(500));
  await fold.run();
  assert.deepEqual(fold.told.filter(({ what }) => what === "trouble").map(({ trouble }) => trouble.msg), ["3 entries cannot be read by this version"]);
}));

test("there is something to keep while the snapshot lacks what was folded", withPhone(async (phone) => {
  const fold = await madeUp(phone);
  assert.equal(fold.toKeep, false);
  await phone.tabs[0].tap(note("one"));
  await fold.run();
  assert.equal(fold.toKeep, true);
  await fold.run({ keep: true });
  assert.equal(fold.toKeep, false);
}));
