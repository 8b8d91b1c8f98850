import assert from "node:assert/strict";
import { test } from "node:test";
import { abortNext, resultOf, note, quota, withPhone } from "./phone.mjs";

test("an entry is stored as its bytes, in the key order of the specification", withPhone(async (phone) => {
  const tab = phone.tab();
  const { id, l, written } = await tab.tap({ kind: "note.added", in: "S7d2mKx0PqLw9Zr4Tt1uVg", at: 1760731000000, body: { text: "tip changed" } });
  const [record] = await phone.all("event");
  const { device } = await phone.meta();
  const zone = -new Date(phone.wall).getTimezoneOffset() || 0;
  assert.equal(written, true);
  assert.match(id, /^[\w-]{22}$/);
  assert.match(device, /^[\w-]{22}$/);
  assert.equal(record.raw, `{"id":"${id}","t":"0199f3c0b4000000","wall":[1760731116544,${zone}],"device":"${device}","kind":"note.added","v":1,"in":"S7d2mKx0PqLw9Zr4Tt1uVg","at":1760731000000,"body":{"text":"tip changed"}}`);
  assert.deepEqual({ t: record.t, l: record.l, unsent: record.unsent, n: record.n }, { t: "0199f3c0b4000000", l, unsent: 1, n: undefined });
  assert.equal((await phone.meta()).nextL, l + 1);
}));

test("entries tapped at the same time get stamps and change numbers of their own", withPhone(async (phone) => {
  const [a, b] = [phone.tab(), phone.tab()];
  await Promise.all([a, b, a, b, a, b].map((tab, i) => tab.tap(note(String(i)))));
  const records = await phone.all("event");
  assert.equal(new Set(records.map((r) => r.t)).size, 6);
  assert.deepEqual(records.map((r) => r.l).sort(), [1, 2, 3, 4, 5, 6]);
}));

test("several entries are stored whole or not at all", withPhone(async (phone) => {
  const tab = phone.tab();
  await assert.rejects(tab.tap([note("good"), { kind: "note added", body: {} }]), { kind: "malformed", field: "kind" });
  assert.equal((await phone.all("event")).length, 0);
  const { ids } = await tab.tap([note("one"), note("two")]);
  assert.equal(ids.length, 2);
  assert.equal((await phone.all("event")).length, 2);
}));

test("a session is open as soon as its entry is stored, before any fold", withPhone(async (phone) => {
  await phone.tab().tap({ kind: "session.opened", about: "s-1", body: { rig: "rig-1" } });
  const restarted = phone.tab(); // as after a kill: no worker has run
  assert.equal((await restarted.read(["now"])).views.now.session.id, "s-1");
  assert.equal((await restarted.read(["now"])).views.now.session.rig, "rig-1");
  await restarted.tap({ kind: "session.closed", about: "s-1", body: {} });
  assert.equal((await phone.tab().read(["now"])).views.now?.session ?? null, null);
}));

test("an entry of more than 16 KiB is refused with its size", withPhone(async (phone) => {
  const tab = phone.tab();
  await assert.rejects(tab.tap(note("é".repeat(8192))), (err) => err.kind === "too-large" && err.field === "body" && /16\d\d\d bytes/.test(err.msg));
  await tab.tap(note("é".repeat(7900)));
  assert.equal((await phone.all("event")).length, 1);
  assert.equal(tab.failed.length, 0);
}));

for (const [what, entry, field] of [
  ["a name with a space", { kind: "note.added", about: "rig 1", body: {} }, "about"],
  ["a time of 0", { kind: "note.added", at: 0, body: {} }, "at"],
  ["a time with a fraction", { kind: "note.added", at: 1.5, body: {} }, "at"],
  ["a list for a body", { kind: "note.added", body: [] }, "body"],
  ["no body", { kind: "note.added" }, "body"],
  ["a body too deep", { kind: "note.added", body: { a: { b: { c: { d: { e: { f: { g: {} } } } } } } } }, "body"],
  ["a short id", { kind: "note.added", id: "abc", body: {} }, "id"],
]) {
  test(`${what} is refused before it is stored`, withPhone(async (phone) => {
    await assert.rejects(phone.tab().tap(entry), (err) => err.kind === "malformed" && err.field === field && err.hint !== "");
    assert.equal((await phone.all("event")).length, 0);
  }));
}

test("half a surrogate pair is stored as the replacement character", withPhone(async (phone) => {
  await phone.tab().tap(note("a\ud83d b \udd25\ud83d\udd25"));
  const [{ raw }] = await phone.all("event");
  assert.equal(JSON.parse(raw).body.text, "a\ufffd b \ufffd\u{1f525}");
}));

test("a start and a stop run and end the arc", withPhone(async (phone) => {
  const tab = phone.tab();
  const start = await tab.startArc({ rig: "rig-1", in: "session-1" });
  assert.deepEqual(start.arc, { "rig-1": { id: start.id, start: phone.wall, in: "session-1" } });
  phone.wall += 5000;
  const stop = await tab.stopArc({ rig: "rig-1", starts: 3 });
  assert.deepEqual(stop.arc, {});
  const events = (await phone.all("event")).map(({ raw }) => JSON.parse(raw)).sort((x, y) => (x.t < y.t ? -1 : 1));
  assert.deepEqual(events.map((e) => [e.kind, e.in, e.body]), [
    ["arc.started", "session-1", { rig: "rig-1" }],
    ["arc.stopped", "session-1", { of: start.id, starts: 3 }],
  ]);
}));

test("a double tap within 300 ms writes once", withPhone(async (phone) => {
  const tab = phone.tab();
  await tab.startArc({ rig: "rig-1" });
  phone.wall += 299; // the screen may already offer to stop
  const second = await tab.stopArc({ rig: "rig-1" });
  assert.equal(second.written, false);
  assert.ok(second.arc["rig-1"], "the arc runs on");
  phone.wall += 1;
  assert.equal((await tab.stopArc({ rig: "rig-1" })).written, true);
  assert.equal((await phone.all("event")).length, 2);
}));

test("a tap on the arc button right after another button is no double tap", withPhone(async (phone) => {
  const tab = phone.tab();
  await tab.startArc({ rig: "rig-1" });
  phone.wall += 5000;
  await tab.stopArc({ rig: "rig-1" });
  phone.wall += 100;
  await tab.tap({ kind: "note.added", in: "session-1", body: { text: "trap drained" } });
  phone.wall += 100;
  assert.equal((await tab.startArc({ rig: "rig-1" })).written, true);
}));

test("a clock set back does not make the arc button deaf", withPhone(async (phone) => {
  const tab = phone.tab();
  await tab.startArc({ rig: "rig-1" });
  phone.wall -= 86_400_000;
  assert.equal((await tab.stopArc({ rig: "rig-1" })).written, true);
}));

test("two tabs cannot both start an arc", withPhone(async (phone) => {
  const [a, b] = [phone.tab(), phone.tab()];
  const both = await Promise.all([a.startArc({ rig: "rig-1" }), b.startArc({ rig: "rig-1" })]);
  assert.deepEqual(both.map((w) => w.written).sort(), [false, true]);
  assert.deepEqual(both[0].arc, both[1].arc);
  phone.wall += 10_000;
  assert.equal((await b.startArc({ rig: "rig-1" })).written, false);
  assert.equal((await b.startArc({ rig: "rig-2" })).written, true, "another rig is free");
  assert.equal((await phone.all("event")).length, 2);
}));

test("an arc that is hidden does not run", withPhone(async (phone) => {
  const tab = phone.tab();
  const { id } = await tab.startArc({ rig: "rig-1", in: "session-1" });
  const { arc, id: voided } = await tab.voidEntry(id, "by mistake");
  assert.deepEqual(arc, {});
  const record = (await phone.all("event")).find((r) => r.id === voided);
  const { kind, in: session, body } = JSON.parse(record.raw);
  assert.deepEqual({ kind, session, body }, { kind: "void", session: "session-1", body: { of: id, on: true, why: "by mistake" } });
}));

test("an amendment stands in the session of its target", withPhone(async (phone) => {
  const tab = phone.tab();
  const { id } = await tab.tap({ ...note("tip"), in: "session-1" });
  const amended = await tab.amend(id, { text: "tip and electrode" });
  const { raw } = (await phone.all("event")).find((r) => r.id === amended.id);
  assert.deepEqual([JSON.parse(raw).in, JSON.parse(raw).body], ["session-1", { of: id, set: { text: "tip and electrode" } }]);
}));

test("an aborted write rejects, keeps the entry for retry and stores it with the time of its tap", withPhone(async (phone) => {
  const tab = phone.tab();
  const troubles = [];
  tab.addEventListener("trouble", (event) => troubles.push(event.detail));
  abortNext(tab, new DOMException("disk", "DataError"));
  await assert.rejects(tab.tap(note("kept")), (err) => err.kind === "internal" && err.hint !== "");
  assert.equal((await phone.all("event")).length, 0);
  assert.equal((await phone.meta())?.nextL, undefined, "meta was rolled back too");
  assert.equal(tab.failed.length, 1);
  assert.equal(troubles.length, 1);
  const tapped = phone.wall;
  phone.wall += 60_000;
  assert.equal(await tab.retry(), 1);
  const [{ raw, id }] = await phone.all("event");
  assert.equal(JSON.parse(raw).wall[0], tapped);
  assert.equal(id, JSON.parse(raw).id);
  assert.deepEqual(tab.failed, []);
}));

test("a failed retry keeps the entry", withPhone(async (phone) => {
  const tab = phone.tab();
  abortNext(tab, new DOMException("disk", "DataError"));
  await assert.rejects(tab.tap(note("kept")));
  abortNext(tab, new DOMException("disk", "DataError"));
  assert.equal(await tab.retry(), 0);
  assert.equal(tab.failed.length, 1);
}));

test("a full phone gives up the snapshot before an entry", withPhone(async (phone) => {
  const tab = phone.tab();
  await tab.db.run(["snapshot"], "readwrite", (tx) => resultOf(tx.objectStore("snapshot").put({ name: "a", fold: 1, l: 3, data: "…" })));
  abortNext(tab, quota());
  assert.equal((await tab.tap(note("small"))).written, true);
  assert.equal((await phone.all("event")).length, 1);
  assert.equal((await phone.all("snapshot")).length, 0);
}));

test("a tap is heard in the other tab", withPhone(async (phone) => {
  const [a, b] = [phone.tab(), phone.tab()];
  const heard = new Promise((resolve) => b.addEventListener("change", (event) => resolve(event.detail)));
  const { l } = await a.tap(note("hello"));
  assert.deepEqual(await heard, { l, by: "tap" });
}));

test("an arc of a rig that is called what every object has", withPhone(async (phone) => {
  const tab = phone.tab();
  for (const rig of ["hasOwnProperty", "valueOf", "__proto__", "constructor"]) {
    const started = await tab.startArc({ rig, in: "session-1" });
    assert.ok(started.written, rig);
    assert.equal((await phone.meta()).arc[rig].id, started.id);
    assert.ok(Object.hasOwn((await tab.read([])).arc, rig), rig);
    phone.wall += 10_000;
    assert.ok((await tab.stopArc({ rig })).written, rig);
    assert.ok(!Object.hasOwn((await phone.meta()).arc, rig), rig);
    phone.wall += 10_000;
  }
}));
