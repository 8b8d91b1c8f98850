import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { test } from "node:test";
import { resultOf, withPhone } from "./phone.mjs";
import { startWasm } from "./wasm.mjs";
import { importJournal, exportJournal } from "../../pwa/worker/transfer.js";
import { SyncLoop } from "../../pwa/worker/sync-loop.js";

// The exchange that the package comment of calc/journal/event works through, line by line.
const raw = '{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","wall":[1760731116544,60],"device":"phone-a","kind":"note.added","v":1,"in":"S7d2mKx0PqLw9Zr4Tt1uVg","body":{"text":"tip changed"}}';
const wanted = `{"proto":1,"crew":"N0sD1w2aRtY7uIo9PqLm3g","now":1760731116600,"gen":0,"at":{"n":0,"h":"00000000000000000000000000000000"},"gone":"","early":"","count":1}\n${raw}\n`;
const reply = `{"proto":1,"crew":"N0sD1w2aRtY7uIo9PqLm3g","now":1760731116700,"max":1,"backedUp":0}
{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","n":1,"o":"0199f3c0b4000000"}
{"n":1,"o":"0199f3c0b4000000","id":"Qk3vZ0mJ8cW1xT5rLb2hYA","sum":"9eddaf0de18c0a80da4ec01676456b971b6b02fea7a0730c126a5935475bf9d9"}
{"n":1,"h":"2bf3474b71340c9f19a9e7aa6ea08c53"}
`;

/** A phone that holds the entry of the example. */
async function example(phone) {
  const tab = phone.tab();
  phone.wall = 1760731116600;
  await tab.db.run(["event", "meta"], "readwrite", (tx) => {
    tx.objectStore("event").put({ id: "Qk3vZ0mJ8cW1xT5rLb2hYA", raw, t: "0199f3c0b4000000", l: 1, unsent: 1 });
    tx.objectStore("meta").put({ crew: "N0sD1w2aRtY7uIo9PqLm3g", nextL: 2, clock: "0199f3c0b4000000", device: "phone-a" }, "meta");
  });
  const sent = [];
  const replies = [];
  const sync = new SyncLoop({ db: tab.db, call: await startWasm(), channel: { tell() {} }, now: () => phone.wall, locks: undefined, send: async (_, { body }) => {
    sent.push(body);
    return replies.shift();
  } });
  return { tab, sync, sent, replies };
}

test("the worked example goes over the wire byte for byte", withPhone(async (phone) => {
  const { tab, sync, sent, replies } = await example(phone);
  replies.push(new Response(reply));
  await sync.run();
  assert.deepEqual(sent, [wanted]);
  const [record] = await phone.all("event");
  assert.deepEqual(record, { id: "Qk3vZ0mJ8cW1xT5rLb2hYA", raw, t: "0199f3c0b4000000", o: "0199f3c0b4000000", n: 1, l: 2 });
  const meta = await phone.meta();
  assert.deepEqual([meta.crew, meta.cursor, meta.head, meta.max, meta.offset, meta.turn, meta.clock], ["N0sD1w2aRtY7uIo9PqLm3g", 1, "2bf3474b71340c9f19a9e7aa6ea08c53", 1, 100, 1, "0199f3c0b4000000"]);
  assert.equal((await tab.read([])).sync.onServer, true);
}));

test("a reply whose chain does not fit leaves the cursor; what was acknowledged stays a promise", withPhone(async (phone) => {
  const { sync, replies } = await example(phone);
  replies.push(new Response(reply.replace("2bf3474b", "00000000")));
  replies.push(new Response("", { status: 502 }));
  await sync.run();
  const [record] = await phone.all("event");
  assert.deepEqual([record.n, (await phone.meta()).cursor], [1, 0]);
}));

test("a sign-in page of a strange network is no success", withPhone(async (phone) => {
  const { tab, sync, replies } = await example(phone);
  replies.push(new Response("<html>Welcome to the café</html>"));
  assert.ok(await sync.run() <= 1000);
  const { sync: state } = await tab.read([]);
  assert.deepEqual([state.unsent, state.onServer], [1, false]);
}));

test("an entry that the server refuses is put aside, and the next one goes through", withPhone(async (phone) => {
  const { tab, sync, sent, replies } = await example(phone);
  replies.push(Response.json({ error: { kind: "malformed", field: "kind", msg: "no such thing" } }, { status: 400 }));
  replies.push(new Response('{"proto":1,"crew":"N0sD1w2aRtY7uIo9PqLm3g","now":1760731116700,"max":0,"backedUp":0}\n{"n":0,"h":"00000000000000000000000000000000"}\n'));
  await sync.run();
  assert.equal(sent.length, 2);
  assert.match(sent[1], /"count":0/);
  const { sync: state } = await tab.read([]);
  assert.deepEqual([state.unsent, state.aside], [0, 1]);
}));

test("what one phone carries out another carries in, once", withPhone(async (phone) => {
  const { tab } = await example(phone);
  const call = await startWasm();
  await tab.tap([{ kind: "note.added", body: { text: "two\u2028lines" } }, { kind: "new.kind", body: { n: 1 } }]);
  const { text, name } = await exportJournal(tab.db, call, phone.wall);
  assert.match(name, /\.jsonl$/);
  await withPhone(async (other) => {
    const { db } = other.tab();
    assert.deepEqual(await importJournal(db, call, text), { added: 3, known: 0, l: 3, refused: [] });
    assert.deepEqual(await importJournal(db, call, text), { added: 0, known: 3, l: 0, refused: [] });
    const raws = (await phone.all("event")).map((record) => record.raw);
    const events = await other.all("event");
    assert.deepEqual(events.map((record) => record.raw), raws);
    assert.deepEqual(events.map((record) => record.unsent), [1, 1, 1]);
  })();
}));

test("an entry carried in under an id that is taken gets another id, the same each time", withPhone(async (phone) => {
  const { tab } = await example(phone);
  const call = await startWasm();
  const { text } = await exportJournal(tab.db, call, phone.wall);
  const other = text.replace("tip changed", "tip changed again");
  assert.equal((await importJournal(tab.db, call, other)).added, 1);
  assert.deepEqual(await importJournal(tab.db, call, other), { added: 0, known: 1, l: 0, refused: [] });
  const events = await phone.all("event");
  assert.equal(events.length, 2);
  for (const record of events) assert.equal(JSON.parse(record.raw).id, record.id);
}));

test("a text that is no export is refused and says so", withPhone(async (phone) => {
  const { tab } = await example(phone);
  await assert.rejects(importJournal(tab.db, await startWasm(), "hello"), (err) => err.kind === "malformed" && err.hint !== "");
  assert.equal(await tab.db.run(["event"], "readonly", (tx) => resultOf(tx.objectStore("event").count())), 1);
}));

const sha256 = (...parts) => parts.reduce((hash, part) => hash.update(part), createHash("sha256")).digest();
const note = (n) => `{"id":"${String(n).padStart(22, "n")}","t":"${stamp(n)}","device":"phone-b","kind":"note.added","v":1,"body":{"text":"${n}"}}`;
const stamp = (n) => `0199f3c0b4${String(n).padStart(6, "0")}`;
const line = (n) => `{"n":${n},"o":"${stamp(n)}","raw":${note(n)}}\n`;

/** The chain after more arrivals. @param {(n: number) => string} name what stands for an arrival in it */
function chain(from, numbers, name) {
  return numbers.reduce((h, n) => sha256(h, name(n) + stamp(n), sha256(note(n))).subarray(0, 16), from);
}

/** A reply that brings early arrivals, and then what follows the cursor. */
function reply5(next, early, after = []) {
  const h = chain(Buffer.alloc(16), early, (n) => `${n}.${String(n).padStart(22, "n")}`).toString("hex");
  const head = { proto: 1, crew: "N0sD1w2aRtY7uIo9PqLm3g", now: 1760731116700, max: 5, backedUp: 0, early: { next, count: early.length, h } };
  const end = chain(Buffer.alloc(16), after, (n) => String(n).padStart(22, "n")).toString("hex");
  const mark = after.length > 0 ? `{"n":${after.at(-1)},"h":"${end}"}\n` : "";
  return new Response(`${JSON.stringify(head)}\n${early.map(line).join("")}${after.map(line).join("")}${mark}`);
}

test("a phone that joins has the newest at once, knows that older ones still come, and goes on where it broke off", withPhone(async (phone) => {
  const { tab, sync, sent, replies } = await example(phone);
  await tab.db.run(["event"], "readwrite", (tx) => void tx.objectStore("event").clear());
  replies.push(reply5("5.1.4", [5, 4])); // and then no network
  await sync.run();
  assert.deepEqual((await phone.all("event")).map(({ n }) => n).sort(), [4, 5]);
  assert.deepEqual([(await phone.meta()).cursor, (await tab.read([])).sync.coming], [0, 5]);
  const begun = new SyncLoop({ db: tab.db, call: sync.call, channel: { tell() {} }, now: () => phone.wall, locks: undefined, send: async (_, { body }) => {
    sent.push(body);
    return replies.shift();
  } });
  replies.push(reply5("5.5.0", []), reply5("5.5.0", [], [1, 2, 3, 4, 5]));
  await begun.run();
  assert.deepEqual(sent.map((body) => JSON.parse(body).early), ["", "5.1.4", "5.1.4", "5.5.0"]);
  const records = await phone.all("event");
  assert.deepEqual(records.map(({ n, raw }) => raw === note(n)), [true, true, true, true, true]);
  assert.deepEqual(records.filter(({ n }) => n > 3).map(({ l }) => l).sort(), [2, 3], "what was here has not changed again");
  assert.deepEqual([(await phone.meta()).cursor, (await tab.read([])).sync.coming], [5, 0]);
}));
