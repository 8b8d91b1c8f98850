// Joining and leaving a crew, broken off wherever that can be: what is begun again comes to the same end, and nothing is lost or there twice.
import assert from "node:assert/strict";
import { test } from "node:test";
import { resultOf, note, withPhone } from "./phone.mjs";
import { Database } from "../../pwa/journal/db.js";
import { resumeJoin, join, leave } from "../../pwa/journal/crew/join.js";
import { Photos } from "../../pwa/journal/photo/photos.js";

const crew = "N0sD1w2aRtY7uIo9PqLm3g";
const asking = { code: "7K3Q9M2XWD", name: "Truck 1" };
const local = "kerfside";
const member = `kerfside-${crew}`;
const picture = (name) => ({ sha256: name.repeat(64), type: "image/jpeg", bytes: new TextEncoder().encode(name).buffer });

/** A server whose invitation this phone may use, as often as it asks with the same word. */
function server() {
  const retries = [];
  const send = async (path, { method, body }) => {
    if (method === "POST") retries.push(JSON.parse(body).retry);
    if (path === "/api/status") return Response.json({ enrolled: retries.length > 0 });
    if (method === "GET") return Response.json({ me: "phone-x", crew: { id: crew, name: "Osier Ford Repair" } });
    return Response.json({ crew, device: "phone-x", role: "member", name: "Truck 1" }, { status: 201 });
  };
  return { send: /** @type {any} */ (send), retries };
}

/** A phone with a journal of its own. */
const withJournal = (body) => withPhone(async (phone, t) => {
  phone.name = local;
  const tab = phone.tab();
  for (const text of ["a", "b"]) await tab.tap(note(text));
  await body(phone, tab, t);
});

/** All records of a store of one of the phone's databases. */
function records(phone, name, store) {
  const db = new Database(name, { factory: phone.factory });
  return db.run([store], "readonly", (tx) => resultOf(tx.objectStore(store).getAll())).finally(() => db.close());
}

const texts = async (phone, name) => (await records(phone, name, "event")).map(({ raw }) => JSON.parse(raw).body.text).sort();

/** Runs work that is killed before its step of that number, each a transaction; resolves to whether it came to its end. */
async function killedAt(step, work) {
  let steps = 0;
  const { run } = Database.prototype;
  Database.prototype.run = function (...words) {
    if (steps++ >= step) throw new Error("killed");
    return run.apply(this, words);
  };
  try {
    await work();
    return true;
  } catch (err) {
    assert.match(err.message, /killed/);
    return false;
  } finally {
    Database.prototype.run = run;
  }
}

/** Does something in another tab once, before the transaction of that number begins. */
function between(t, step, act) {
  let steps = 0;
  const { run } = Database.prototype;
  t.mock.method(Database.prototype, "run", async function (...words) {
    if (words[1] === "readwrite" && steps++ === step) await act();
    return run.apply(this, words);
  });
}

test("a join that is killed again and again, a step later each time, comes to its end", withJournal(async (phone, tab) => {
  await new Photos(tab.db).keep(picture("a"), (await tab.tap(note("picture"))).id);
  const { send, retries } = server();
  const deps = { factory: phone.factory, send };
  let kills = 0;
  for (let step = 0; !(await killedAt(step, () => (kills === 0 ? join(asking, deps) : resumeJoin(deps)))); step++) kills++;
  const [meta] = await records(phone, local, "meta");
  if (!meta.home) await join(asking, deps); // killed before the phone had written down what was asked: nothing was to go on with
  assert.ok(kills > 0);
  assert.deepEqual([await texts(phone, member), await texts(phone, local)], [["a", "b", "picture"], []]);
  assert.deepEqual((await records(phone, member, "photo")).map(({ sha256 }) => sha256), ["a".repeat(64), "waiting"]);
  assert.equal(new Set(retries).size, 1, "the server saw one phone");
}));

test("a join that is begun again by hand after each step is one join", withJournal(async (phone) => {
  const { send, retries } = server();
  const deps = { factory: phone.factory, send };
  let kills = 0;
  for (let step = 1; !(await killedAt(step, () => join(asking, deps))); step++) kills++;
  assert.ok(kills >= 8, `${kills} kills`);
  assert.deepEqual([await texts(phone, member), await texts(phone, local), new Set(retries).size], [["a", "b"], [], 1]);
}));

test("another code is another asking, the same one with another name is not", withJournal(async (phone) => {
  const { send, retries } = server();
  const lost = { factory: phone.factory, send: async (path, words) => (await send(path, words), Promise.reject(new TypeError("the line broke"))) };
  for (const one of [asking, { ...asking, name: "Truck 2" }, { ...asking, code: "AAAAAAAAAA" }, { secret: "s", name: "Truck 1" }]) await assert.rejects(join(one, lost), { kind: "no-answer" });
  assert.equal(retries[0], retries[1]);
  assert.equal(new Set(retries).size, 3);
}));

for (const [what, step] of [["before its entries are read", 3], ["once they are read", 4], ["once they are copied", 5]]) {
  test(`what another tab enters while a phone joins, ${what}, comes along`, withJournal(async (phone, tab, t) => {
    const other = phone.tab();
    let tapped = 0;
    between(t, step, async () => {
      tapped++;
      const { id } = await other.tap(note("meanwhile"));
      await new Photos(other.db).keep(picture("f"), id);
    });
    await join(asking, { factory: phone.factory, send: server().send });
    assert.equal(tapped, 1);
    assert.deepEqual([await texts(phone, member), await texts(phone, local)], [["a", "b", "meanwhile"], []]);
    assert.deepEqual((await records(phone, member, "photo")).map(({ sha256 }) => sha256), ["f".repeat(64), "waiting"]);
    assert.deepEqual(await records(phone, local, "photo"), []);
  }));
}

test("a picture that another tab keeps for an entry that is copied already comes along", withJournal(async (phone, tab, t) => {
  const { id } = await tab.tap(note("of a picture to come"));
  between(t, 5, () => new Photos(phone.tab().db).keep(picture("f"), id));
  await join(asking, { factory: phone.factory, send: server().send });
  assert.deepEqual((await records(phone, member, "photo")).map(({ sha256 }) => sha256), ["f".repeat(64), "waiting"]);
}));

test("two tabs that join at a time join once", withJournal(async (phone) => {
  const deps = { factory: phone.factory, send: server().send };
  await Promise.all([join(asking, deps), join(asking, deps)]);
  assert.deepEqual([await texts(phone, member), await texts(phone, local)], [["a", "b"], []]);
  const [meta] = await records(phone, local, "meta");
  assert.deepEqual([meta.home, meta.joining, meta.crews], [crew, null, [crew]]);
}));

test("an entry whose id the crew knows with other words stays behind, and holds nothing up", withJournal(async (phone, tab) => {
  const [first] = await records(phone, local, "event");
  const text = JSON.parse(first.raw).body.text;
  const db = new Database(member, { factory: phone.factory });
  await db.run(["event"], "readwrite", (tx) => void tx.objectStore("event").put({ ...first, raw: first.raw.replace(`"${text}"`, '"of another"'), n: 1, o: "1", unsent: undefined }));
  db.close();
  await join(asking, { factory: phone.factory, send: server().send });
  assert.deepEqual(await texts(phone, local), [text]);
  assert.deepEqual(await texts(phone, member), ["of another", text === "a" ? "b" : "a"].sort());
  assert.equal((await tab.read([])).crew, crew);
}));

test("more entries than go into one transaction all come along, each under a number of its own", withJournal(async (phone, tab) => {
  await tab.tap(Array.from({ length: 499 }, (_, i) => note(`n${i}`))); // with two before: one more than a portion
  await join(asking, { factory: phone.factory, send: server().send });
  const moved = await records(phone, member, "event");
  assert.deepEqual([moved.length, new Set(moved.map(({ l }) => l)).size, (await records(phone, local, "event")).length], [501, 501, 0]);
}));

test("what the crew has open stands, what it has not comes along, and no clock goes back", withJournal(async (phone, tab) => {
  const meta = (name, change) => {
    const db = new Database(name, { factory: phone.factory });
    return db.run(["meta"], "readwrite", async (tx) => void tx.objectStore("meta").put({ ...(await resultOf(tx.objectStore("meta").get("meta"))), ...change }, "meta")).finally(() => db.close());
  };
  const arc = (id) => ({ id, start: 1, in: "" });
  await meta(local, { session: { id: "own" }, gate: { stops: [{ id: "own" }], asked: [] }, clock: "5".padStart(16, "0"), arc: { "rig-1": arc("own-1"), "rig-2": arc("own-2") } });
  await meta(member, { session: { id: "crew's" }, clock: "7".padStart(16, "0"), arc: { "rig-2": arc("crew's-2") } });
  await join(asking, { factory: phone.factory, send: server().send });
  const [there] = await records(phone, member, "meta");
  assert.deepEqual([there.session.id, there.gate.stops[0].id, there.clock], ["crew's", "own", "7".padStart(16, "0")]);
  assert.deepEqual(Object.values(there.arc).map(({ id }) => id).sort(), ["crew's-2", "own-1"]);
}));

test("leaving that is killed leaves the phone in the crew or out of it, and nothing is lost", async () => {
  let kills = 0;
  for (let step = 0, isDone = false; !isDone; step++) {
    await withJournal(async (phone, tab) => {
      tab.close(); // else it looks for its home meanwhile
      const deps = { factory: phone.factory, send: server().send };
      await join(asking, deps);
      isDone = await killedAt(step, () => leave(phone.factory));
      kills += isDone ? 0 : 1;
      const [{ home }] = await records(phone, local, "meta");
      assert.equal(home, step === 0 ? crew : "", `before step ${step}`);
      assert.deepEqual(await texts(phone, member), ["a", "b"], "those that the crew has stay with it");
      await leave(phone.factory);
      await join(asking, deps);
      assert.deepEqual([await texts(phone, member), await texts(phone, local)], [["a", "b"], []]);
    })();
  }
  assert.equal(kills, 2);
});
