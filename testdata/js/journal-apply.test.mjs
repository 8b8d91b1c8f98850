import assert from "node:assert/strict";
import { test } from "node:test";
import { resultOf, note, withPhone } from "./phone.mjs";
import { applyChange, readExchange } from "../../pwa/worker/apply.js";

const o = (n) => "0199f3c0b4" + n.toString(16).padStart(6, "0");
const id = (letter) => letter.repeat(22);
const raw = (letter) => `{"id":"${id(letter)}","t":"${o(1)}","device":"d","kind":"x.y","v":1,"body":{}}`;
const arrival = (letter, n) => ({ id: id(letter), raw: raw(letter), t: o(1), o: o(n), n });

/** A tab whose store holds what a list of arrivals says. */
async function holding(phone, ...records) {
  const tab = phone.tab();
  await tab.db.run(["event", "meta"], "readwrite", (tx) => {
    records.forEach((record, i) => tx.objectStore("event").put({ ...record, l: i + 1 }));
    tx.objectStore("meta").put({ nextL: records.length + 1 }, "meta");
  });
  return tab;
}

const get = (phone, letter) => phone.tabs[0].db.run(["event"], "readonly", (tx) => resultOf(tx.objectStore("event").get(id(letter))));

test("an acknowledged entry has n and o, is sent no more, and the clock follows the server", withPhone(async (phone) => {
  const tab = phone.tab();
  const { id } = await tab.tap(note("ten years ahead"));
  const exchange = await readExchange(tab.db);
  assert.deepEqual(exchange.unsent.map((r) => r.id), [id]);
  const done = await applyChange(tab.db, exchange, { meta: { turn: 1, maxO: o(5), max: 1 }, ack: [{ id, n: 1, o: o(5) }] });
  assert.deepEqual(done, { done: true, l: 2, unsent: 0 });
  const [record] = await phone.all("event");
  assert.deepEqual({ n: record.n, o: record.o, l: record.l, unsent: record.unsent }, { n: 1, o: o(5), l: 2, unsent: undefined });
  assert.equal((await phone.meta()).clock, o(5));
  assert.deepEqual((await readExchange(tab.db)).promised, [{ id, n: 1 }], "the cursor is below: a promise");
}));

test("with entries still to send the clock never goes back", withPhone(async (phone) => {
  const tab = phone.tab();
  await tab.tap(note("one"));
  const exchange = await readExchange(tab.db);
  await tab.tap(note("two"));
  const { clock } = await phone.meta();
  await applyChange(tab.db, exchange, { meta: { turn: 1, maxO: o(0) }, ack: [{ id: exchange.unsent[0].id, n: 1, o: o(0) }] });
  assert.equal((await phone.meta()).clock, clock);
}));

test("entries to send come oldest first and no more than a request can carry, plus one", withPhone(async (phone) => {
  const tab = await holding(phone, ...Array.from({ length: 510 }, (_, i) => ({ ...arrival("a", 1), id: `${i}`.padStart(22, "z"), t: o(1000 - i), n: undefined, unsent: 1 })));
  const { unsent } = await readExchange(tab.db);
  assert.equal(unsent.length, 501);
  assert.equal(unsent[0].t, o(1000 - 509));
}));

for (const key of ["cursor", "gen", "turn"]) {
  test(`a reply is dropped whole if ${key} moved meanwhile`, withPhone(async (phone) => {
    const tab = phone.tab();
    await tab.tap(note("mine"));
    const exchange = await readExchange(tab.db);
    await phone.setMeta({ [key]: 1 });
    const before = [await phone.all("event"), await phone.meta()];
    const done = await applyChange(tab.db, exchange, { meta: { cursor: 7, turn: 1 }, put: [arrival("a", 7)], ack: [{ id: exchange.unsent[0].id, n: 8, o: o(8) }] });
    assert.deepEqual(done, { done: false, clash: [] });
    assert.deepEqual([await phone.all("event"), await phone.meta()], before);
  }));
}

test("of two replies to the same state the second is dropped", withPhone(async (phone) => {
  const tab = phone.tab();
  await tab.tap(note("mine"));
  const [first, second] = [await readExchange(tab.db), await readExchange(tab.db)];
  const change = { meta: { turn: 1 }, ack: [{ id: first.unsent[0].id, n: 1, o: o(1) }] };
  const both = await Promise.all([applyChange(tab.db, first, change), applyChange(tab.db, second, change)]);
  assert.deepEqual(both.map(({ done }) => done), [true, false]);
}));

test("forget takes back every number above and offers those entries again with their o", withPhone(async (phone) => {
  const tab = await holding(phone, arrival("a", 1), arrival("b", 2), arrival("c", 3));
  const exchange = await readExchange(tab.db);
  await applyChange(tab.db, exchange, { meta: { turn: 1, gen: 1, cursor: 1 }, forget: 1 });
  assert.deepEqual([(await get(phone, "a")).n, (await get(phone, "b")).n, (await get(phone, "c")).n], [1, undefined, undefined]);
  const { unsent } = await readExchange(tab.db);
  assert.deepEqual(unsent.map((r) => [r.id, r.o]), [[id("b"), o(2)], [id("c"), o(3)]]);
}));

test("a promise that was not kept is sent again; one that was kept by an arrival is not", withPhone(async (phone) => {
  const tab = await holding(phone, arrival("a", 5), arrival("b", 6));
  const exchange = await readExchange(tab.db);
  assert.deepEqual(exchange.promised, [{ id: id("a"), n: 5 }, { id: id("b"), n: 6 }]);
  await applyChange(tab.db, exchange, { meta: { turn: 1, cursor: 6 }, put: [arrival("c", 5), arrival("b", 6)], unsend: [id("a")] });
  assert.deepEqual((await readExchange(tab.db)).unsent.map((r) => r.id), [id("a")]);
  assert.equal((await get(phone, "b")).l, 2, "nothing changed in it, so it keeps its change number");
}));

test("what the server would not have is put aside, is counted, and can be offered again", withPhone(async (phone) => {
  const tab = phone.tab();
  const written = await tab.tap(note("odd"));
  const exchange = await readExchange(tab.db);
  await applyChange(tab.db, exchange, { meta: { turn: 1 }, aside: [{ id: written.id, error: { kind: "malformed", msg: "odd", hint: "h" } }] });
  assert.deepEqual((await readExchange(tab.db)).unsent, []);
  const { sync: marks } = await tab.read([]);
  assert.deepEqual([marks.unsent, marks.aside, marks.onServer], [0, 1, false]);
  const { requeueRejected } = await import("../../pwa/worker/retry.js");
  await requeueRejected(tab.db, "/a/2/calc/");
  const { unsent } = await readExchange(tab.db);
  assert.deepEqual(unsent.map((r) => [r.id, r.aside]), [[written.id, undefined]]);
  await applyChange(tab.db, await readExchange(tab.db), { meta: { turn: 2 }, aside: [{ id: written.id, error: { kind: "malformed", msg: "odd" } }] });
  await requeueRejected(tab.db, "/a/2/calc/");
  assert.deepEqual((await readExchange(tab.db)).unsent, [], "once for each build");
}));

test("an arrival under an id that this phone holds with other bytes waits until Go has seen those", withPhone(async (phone) => {
  const mine = { ...arrival("a", 0), raw: raw("a").replace("x.y", "m.n"), n: undefined, o: undefined };
  const tab = await holding(phone, mine); // neither n nor to be sent: as after a damaged copy
  const exchange = await readExchange(tab.db);
  const change = { meta: { turn: 1, cursor: 1 }, put: [arrival("a", 1)] };
  const done = await applyChange(tab.db, exchange, change);
  assert.deepEqual(done, { done: false, clash: [id("a")] });
  assert.equal((await get(phone, "a")).raw, mine.raw);
  const again = await readExchange(tab.db, done.clash);
  assert.deepEqual(again.unsent.map((r) => r.raw), [mine.raw]);
  assert.equal((await applyChange(tab.db, again, change)).done, true);
  assert.equal((await get(phone, "a")).raw, raw("a"));
}));

test("stubs of erased entries replace what is here, all that differ passed along at once, and their pictures go", withPhone(async (phone) => {
  const stub = (letter) => raw(letter).replace("x.y", "erased");
  const tab = await holding(phone, arrival("a", 1), arrival("b", 2));
  const sha256 = "ab".repeat(32);
  await tab.db.run(["photo"], "readwrite", (tx) => void tx.objectStore("photo").put({ sha256, type: "image/png", bytes: new ArrayBuffer(1) }));
  const change = { meta: { turn: 1, gone: "list" }, put: ["a", "b"].map((letter, i) => ({ ...arrival(letter, i + 1), raw: stub(letter) })), drop: [sha256] };
  const first = await applyChange(tab.db, await readExchange(tab.db, [id("a")]), change);
  assert.deepEqual(first, { done: false, clash: [id("a"), id("b")] }, "with a known only, both are asked for");
  assert.equal((await phone.all("photo")).length, 1, "nothing of a change that waits is written");
  assert.equal((await applyChange(tab.db, await readExchange(tab.db, first.clash), change)).done, true);
  assert.deepEqual([(await get(phone, "a")).raw, (await get(phone, "b")).raw], [stub("a"), stub("b")]);
  assert.deepEqual((await phone.all("photo")).filter(({ bytes }) => bytes), []);
}));

test("a picture goes with the last entry that tells of it, whichever is erased first", async (t) => {
  const sha256 = "ab".repeat(32);
  const telling = (letter) => raw(letter).replace("x.y", "photo.added").replace('"body":{}', `"body":{"sha256":"${sha256}"}`);
  const stub = (letter) => raw(letter).replace("x.y", "erased");
  for (const order of ["ab", "ba"]) {
    await t.test(order, withPhone(async (phone) => {
      const tab = await holding(phone, ...["a", "b"].map((letter, i) => ({ ...arrival(letter, i + 1), raw: telling(letter) })));
      await tab.db.run(["photo"], "readwrite", (tx) => void tx.objectStore("photo").put({ sha256, type: "image/jpeg", bytes: new ArrayBuffer(1) }));
      for (const [i, letter] of [...order].entries()) {
        const put = [{ ...arrival(letter, letter === "a" ? 1 : 2), raw: stub(letter) }];
        await applyChange(tab.db, await readExchange(tab.db, [id(letter)]), { meta: { turn: i + 1 }, put, drop: [sha256] });
        const left = (await phone.all("photo")).filter(({ bytes }) => bytes).length;
        assert.equal(left, 1 - i, `after ${letter}`);
      }
    }));
  }
});

test("of what is promised only what a reply can reach is read, and the highest", withPhone(async (phone) => {
  const records = [3, 4, 1004, 1005, 4000, 9000].map((n, i) => ({ ...arrival("abcdef"[i], n) }));
  const tab = await holding(phone, ...records);
  await phone.setMeta({ cursor: 3 });
  assert.deepEqual((await readExchange(tab.db)).promised.map(({ n }) => n), [4, 9000]);
  await phone.setMeta({ cursor: 4 });
  assert.deepEqual((await readExchange(tab.db)).promised, [{ id: id("c"), n: 1004 }, { id: id("f"), n: 9000 }]);
  await phone.setMeta({ cursor: 8000 });
  assert.deepEqual((await readExchange(tab.db)).promised, [{ id: id("f"), n: 9000 }]);
  await phone.setMeta({ cursor: 9000 });
  assert.deepEqual((await readExchange(tab.db)).promised, []);
}));
