// Joining a crew may break off anywhere: it is begun again, and nothing is there twice or lost.

import assert from "node:assert/strict";
import { test } from "node:test";

import { resultOf, note, page, withPhone } from "./phone.mjs";
import { turn } from "./turn.mjs";

const { Database } = await import("../../pwa/journal/db.js");
const { Journal } = await import("../../pwa/journal/journal.js");
const { Photos } = await import("../../pwa/journal/photo/photos.js");
const { findHome } = await import("../../pwa/journal/crew/home.js");
const { resumeJoin, join, leave } = await import("../../pwa/journal/crew/join.js");

const crew = "N0sD1w2aRtY7uIo9PqLm3g";
const picture = (name) => ({ sha256: name.repeat(64), type: "image/jpeg", bytes: new TextEncoder().encode(name).buffer });

/**
 * A server with one invitation; lose: the answer of that enrolment never arrives, or only its
 * "cookie" is lost as well.
 */
function server({ lose = "", id = crew } = {}) {
  let used = "";
  const asks = [];
  const send = async (path, { method, body, headers }) => {
    asks.push(`${method} ${path}`);
    assert.equal(headers["X-Kerfside"], "1");
    const known = used && lose !== "cookie";
    if (path === "/api/status") return Response.json({ enrolled: Boolean(known) });
    if (method === "GET") return known ? Response.json({ me: "phone-x", crew: { id, name: "Osier Ford Repair" }, devices: [] }) : Response.json({ error: { kind: "no-token", msg: "m" } }, { status: 401 });
    const { retry } = JSON.parse(body);
    assert.deepEqual(Object.keys(JSON.parse(body)).sort(), ["code", "device", "name", "retry"]);
    assert.match(retry, /^[\w-]{22,}$/);
    if (used && used !== retry) return Response.json({ error: { kind: "not-found", field: "code", msg: "this code opens nothing" } }, { status: 404 });
    const first = !used;
    used = retry;
    if (lose && first) throw new TypeError("the line broke");
    return Response.json({ crew: id, device: "phone-x", role: "member", name: "Truck 1" }, { status: 201 });
  };
  return { send, asks };
}

/** Lets what is under way go on. */

const asking = { code: "7K3Q9M2XWD", name: "Truck 1" };

/** The local journal of a phone, with an open session, notes, a picture and a running arc. */
async function withJournal(phone) {
  phone.name = "kerfside";
  const tab = phone.tab();
  for (let i = 0; i < 3; i++) await tab.tap(note(`${i}`));
  await tab.tap({ kind: "session.opened", about: "s-1", body: { rig: "rig-1" } });
  await tab.startArc({ rig: "rig-1" });
  const { id } = await tab.tap(note("picture"));
  await new Photos(tab.db).keep(picture("a"), id);
  return tab;
}

function records(phone, name, store) {
  const db = new Database(name, { factory: phone.factory });
  return db.run([store], "readonly", (tx) => resultOf(tx.objectStore(store).getAll())).finally(() => db.close());
}

/** All that a phone has after a join: six entries and a picture in the crew, none outside it. */
async function arrived(phone) {
  const events = await records(phone, `kerfside-${crew}`, "event");
  assert.deepEqual(events.map(({ raw }) => JSON.parse(raw)).map(({ kind, body }) => body.text ?? kind).sort(), ["0", "1", "2", "arc.started", "picture", "session.opened"]);
  assert.deepEqual([...new Set(events.map(({ l }) => l))].length, 6, "each entry has a number of its own");
  assert.ok(events.every(({ unsent }) => unsent === 1));
  assert.deepEqual(await records(phone, "kerfside", "event"), []);
  const photos = await records(phone, `kerfside-${crew}`, "photo");
  assert.deepEqual(photos.map(({ sha256 }) => sha256), ["a".repeat(64), "waiting"]);
  assert.equal(photos[1].list.length, 1);
  assert.deepEqual(await records(phone, "kerfside", "photo"), []);
  const [meta] = await records(phone, `kerfside-${crew}`, "meta");
  assert.deepEqual([meta.crew, meta.device, meta.session.id, Object.keys(meta.arc)], [crew, "phone-x", "s-1", ["rig-1"]]);
  const [local] = await records(phone, "kerfside", "meta");
  assert.deepEqual([local.home, local.joining, local.crews, local.session, local.arc], [crew, null, [crew], null, {}]);
}

test("what a phone entered before it joined moves to the crew, once", withPhone(async (phone) => {
  const tab = await withJournal(phone);
  const { send, asks } = server();
  assert.equal(await join(asking, { factory: phone.factory, send }), crew);
  await arrived(phone);
  assert.deepEqual(asks, ["POST /api/enrol"]);
  const { written } = await tab.tap(note("a tab that had not heard of it"));
  assert.equal(written, true);
  assert.equal((await records(phone, `kerfside-${crew}`, "event")).length, 7);
  assert.equal((await records(phone, "kerfside", "event")).length, 0);
  const late = new Journal({ name: "kerfside", factory: phone.factory, bridge: tab.bridge });
  assert.equal((await late.read([])).crew, crew, "an old hint leads to the crew all the same");
  late.close();
}));

test("a join that is killed at any step is gone on with at the next start", async () => {
  let kills = 0;
  for (let at = 0; ; at++) {
    let done = false;
    await withPhone(async (phone) => {
      await withJournal(phone);
      const { send } = server();
      let steps = 0;
      const run = Database.prototype.run;
      const dying = function (...words) {
        if (steps++ >= at) throw new Error("killed");
        return run.apply(this, words);
      };
      Database.prototype.run = dying;
      try {
        await join(asking, { factory: phone.factory, send });
        done = true;
      } catch (err) {
        assert.equal(err.message, "killed");
        kills++;
      } finally {
        Database.prototype.run = run;
      }
      const [meta] = await records(phone, "kerfside", "meta");
      if (!meta.joining && !meta.home) return; // killed before the phone had written down what was asked
      await resumeJoin({ factory: phone.factory, send });
      await arrived(phone);
    })();
    if (done) break;
  }
  assert.ok(kills >= 10, `${kills} steps`);
});

test("an answer that is lost is asked for again, and the code is not used twice", withPhone(async (phone) => {
  await withJournal(phone);
  const { send, asks } = server({ lose: "answer" });
  await assert.rejects(join(asking, { factory: phone.factory, send }), { kind: "no-answer" });
  assert.equal(await resumeJoin({ factory: phone.factory, send }), crew);
  assert.deepEqual(asks, ["POST /api/enrol", "GET /api/status", "GET /api/devices"]);
  await arrived(phone);
}));

test("a cookie that is lost with the answer is given once more, whoever asks again", async () => {
  for (const askAgain of [resumeJoin, (deps) => join(asking, deps)]) {
    await withPhone(async (phone) => {
      await withJournal(phone);
      const { send, asks } = server({ lose: "cookie" });
      await assert.rejects(join(asking, { factory: phone.factory, send }), { kind: "no-answer" });
      assert.equal(await askAgain({ factory: phone.factory, send }), crew);
      assert.deepEqual(asks.filter((ask) => ask.startsWith("POST")), ["POST /api/enrol", "POST /api/enrol"]);
      await arrived(phone);
    })();
  }
});

test("a code that opens nothing leaves the phone as it was, and another works", withPhone(async (phone) => {
  const tab = await withJournal(phone);
  const used = server();
  await used.send("/api/enrol", { method: "POST", headers: { "X-Kerfside": "1" }, body: JSON.stringify({ code: "", device: "", name: "", retry: "another-phone-that-used-it" }) });
  const refuse = (path, words) => (words.method === "GET" ? Response.json({ enrolled: false }) : used.send(path, words));
  await assert.rejects(join(asking, { factory: phone.factory, send: refuse }), { kind: "not-found", field: "code" });
  assert.equal((await tab.read([])).sync.unsent, 6);
  assert.equal((await phone.meta()).joining, null);
  await join(asking, { factory: phone.factory, send: server().send });
  await arrived(phone);
}));

test("what was once in a crew stays, and two crews one after the other stay apart", withPhone(async (phone) => {
  await withJournal(phone);
  await phone.tabs[0].db.run(["event"], "readwrite", (tx) => void tx.objectStore("event").put({ id: "imported", raw: '{"id":"imported"}', t: "1", o: "1", l: 99, unsent: 1 }));
  await join(asking, { factory: phone.factory, send: server().send });
  assert.deepEqual((await records(phone, "kerfside", "event")).map(({ id }) => id), ["imported"]);
  await leave(phone.factory);
  const alone = new Journal({ name: "kerfside", factory: phone.factory, bridge: phone.tabs[0].bridge, clock: () => phone.wall });
  await alone.tap(note("between"));
  alone.close();
  const other = "Zz0D1w2aRtY7uIo9PqLm3g";
  assert.equal(await join(asking, { factory: phone.factory, send: server({ id: other }).send }), other);
  assert.equal((await records(phone, `kerfside-${crew}`, "event")).length, 6);
  assert.deepEqual((await records(phone, `kerfside-${other}`, "event")).map(({ raw }) => JSON.parse(raw).body.text), ["between"]);
}));

test("a phone whose store the browser emptied goes on in its crew, and says so once; one that left does not", withPhone(async (phone) => {
  const hints = new Map();
  const { localStorage } = globalThis;
  globalThis.localStorage = /** @type {any} */ ({ getItem: (key) => hints.get(key) ?? null, setItem: (key, value) => hints.set(key, value) });
  try {
    const told = [];
    const hears = { onEmptied: () => told.push("emptied") };
    await withJournal(phone);
    assert.equal(await findHome(phone.factory, hears), "", "a phone that never joined");
    await join(asking, { factory: phone.factory, send: server().send });
    assert.equal(await findHome(phone.factory, hears), crew);
    const emptied = new (phone.factory.constructor)();
    assert.equal(await findHome(emptied, hears), crew);
    assert.equal(await findHome(emptied, hears), crew);
    await leave(emptied);
    hints.set("kerfside.crew", crew); // not written yet when the phone was killed
    assert.equal(await findHome(emptied, hears), "");
    assert.deepEqual(told, ["emptied"]);
  } finally {
    globalThis.localStorage = localStorage;
  }
}));

test("a page with an old hint finds at its first read that the phone has left, and its taps go to the local journal", withPhone(async (phone) => {
  const tab = await withJournal(phone);
  await join(asking, { factory: phone.factory, send: server().send });
  const old = () => new Journal({ name: `kerfside-${crew}`, factory: phone.factory, bridge: tab.bridge, clock: () => phone.wall });
  const [before, tapping] = [old(), old()];
  assert.equal((await before.read([])).crew, crew);
  await leave(phone.factory);
  try {
    const late = old();
    assert.equal((await late.read([])).crew, "");
    late.close();
    assert.equal((await before.read([])).crew, "");
    await tapping.tap(note("after"));
    await tapping.startArc({ rig: "rig-2" });
    assert.deepEqual((await records(phone, "kerfside", "event")).map(({ raw }) => JSON.parse(raw).kind).sort(), ["arc.started", "note.added"]);
    assert.equal((await records(phone, `kerfside-${crew}`, "event")).length, 6);
    const again = { send: server().send, factory: phone.factory };
    await join(asking, again);
    assert.equal((await before.read([])).crew, crew, "back in the crew");
    assert.equal((await records(phone, `kerfside-${crew}`, "event")).length, 8);
  } finally {
    for (const one of [before, tapping]) one.close();
  }
}));

test("a look for the home that took long does not undo what was found meanwhile", withPhone(async (phone, t) => {
  for (const find of ["a read", "another look"]) {
    await (async () => {
      phone.factory = new (phone.factory.constructor)();
      page(t);
      const tab = await withJournal(phone);
      await join(asking, { factory: phone.factory, send: server().send });
      let go = () => {};
      const slow = new Promise((resolve) => (go = () => resolve(null)));
      const copy = { buckets: {}, held: new Map(), whose: async () => undefined, seal() {}, eachLeft: () => (asks++, slow), drop() {}, keep() {} };
      let asks = 0;
      const late = new Journal({ name: `kerfside-${crew}`, factory: phone.factory, bridge: tab.bridge, copy, clock: () => phone.wall });
      let moves = 0;
      late.addEventListener("moved", () => moves++);
      try {
        late.start();
        while (asks === 0) await turn();
        await leave(phone.factory);
        if (find === "a read") await late.read([]);
        go();
        while (moves === 0) await turn();
        for (let i = 0; i < 20; i++) await turn();
        assert.deepEqual([moves, late.db.name, localStorage.getItem("kerfside.crew")], [1, "kerfside", ""], find);
      } finally {
        late.localState.db.close();
        late.close();
      }
    })();
  }
}));

test("who leaves a crew keeps no pictures of its other phones", withPhone(async (phone) => {
  (await withJournal(phone)).close();
  await join(asking, { factory: phone.factory, send: server().send });
  const name = `kerfside-${crew}`;
  const db = new Database(name, { factory: phone.factory });
  const own = (await records(phone, name, "photo")).map(({ sha256 }) => sha256);
  await db.run(["event"], "readwrite", (tx) => void tx.objectStore("event").put({ id: "theirs", raw: JSON.stringify({ kind: "photo.added", body: { sha256: picture("f").sha256 } }), t: "1", o: "1", n: 1, l: 999 }));
  await new Photos(db).see(picture("f"), "theirs");
  db.close();
  assert.equal((await records(phone, name, "photo")).some(({ sha256 }) => sha256 === picture("f").sha256), true);
  await leave(phone.factory);
  const left = (await records(phone, name, "photo")).map(({ sha256 }) => sha256);
  assert.deepEqual(left.filter((sha256) => sha256 !== "seen"), own);
}));

test("a journal that is closed goes nowhere any more, and keeps no process alive", withPhone(async (phone, t) => {
  const open = new Set();
  t.mock.method(globalThis, "BroadcastChannel", class extends BroadcastChannel {
    constructor(name) {
      super(name);
      open.add(this);
    }

    close() {
      open.delete(this);
      super.close();
    }
  });
  page(t);
  const tab = await withJournal(phone);
  await join(asking, { factory: phone.factory, send: server().send });
  let go = () => {};
  const slow = new Promise((resolve) => (go = () => resolve(null)));
  let asks = 0;
  const copy = { buckets: {}, held: new Map(), whose: async () => undefined, seal() {}, eachLeft: () => (asks++, slow), drop() {}, keep() {} };
  const closed = new Journal({ name: "kerfside", factory: phone.factory, bridge: tab.bridge, copy, clock: () => phone.wall });
  closed.start();
  while (asks === 0) await turn();
  closed.localState.db.close();
  closed.close();
  const others = open.size;
  go();
  for (let i = 0; i < 50; i++) await turn();
  assert.equal(open.size, others);
  assert.equal(closed.db.name, "kerfside");
}));

test("a page that a test makes twice is gone after it", async (t) => {
  const was = globalThis.document;
  await t.test("makes two", (inner) => {
    page(inner);
    page(inner);
  });
  assert.equal(globalThis.document, was);
});
