// The count of what is unsent is kept as entries are written; here it is compared with the entries.

import assert from "node:assert/strict";
import { test } from "node:test";
import { abortNext, resultOf, note, quota, withPhone } from "./phone.mjs";
import { applyChange, readExchange } from "../../pwa/worker/apply.js";
import { requeueRejected, resumeSync } from "../../pwa/worker/retry.js";
import { importJournal } from "../../pwa/worker/transfer.js";
import { leave, settle } from "../../pwa/journal/crew/join.js";
import { Database } from "../../pwa/journal/db.js";
import { newId } from "../../pwa/journal/id.js";
import { isCounted } from "../../pwa/journal/records.js";
import { recover } from "../../pwa/journal/recovery/recover.js";

/** Numbers that a seed gives, below n. */
function drawing(seed) {
  let state = seed * 2654435761 + 1;
  return (n) => {
    state = (Math.imul(state ^ (state >>> 15), 2246822519) + 374761393) >>> 0;
    return (state >>> 8) % n;
  };
}

const stampOf = (n) => "0199f3c0b4" + n.toString(16).padStart(6, "0");
const rawOf = (id, text) => JSON.stringify({ id, t: stampOf(1), device: "d", kind: "note.added", v: 1, body: { text } });
const held = { kind: "refused", msg: "not here" };

/** Counts the entries of a tab's database one by one. */
async function truth(tab) {
  const [records, meta] = await tab.db.run(["event", "meta"], "readonly", (tx) => Promise.all([resultOf(tx.objectStore("event").getAll()), resultOf(tx.objectStore("meta").get("meta"))]));
  const of = (which) => records.filter(({ unsent }) => unsent === which);
  return { records, meta, unsent: of(1).length, aside: of(2).length };
}

/** A phone on which everything that writes entries happens in an order that a seed gives. */
class Busy {
  /** An app that keeps no count has written since it was last counted. */ uncounted = false;
  l = 0;

  constructor(phone, seed) {
    this.phone = phone;
    this.tab = phone.tab();
    this.draw = drawing(seed);
  }

  pick = (list) => (list.length ? list[this.draw(list.length)] : undefined);
  some = (list, n) => list.filter(() => this.draw(3) === 0).slice(0, n);

  steps = {
    tap: () => this.tab.tap(note("one")),
    several: () => this.tab.tap(Array.from({ length: 1 + this.draw(4) }, () => note("of several"))),
    again: async () => {
      const entry = { ...note("twice"), id: newId() };
      await this.tab.tap(entry);
      await this.tab.tap(entry);
    },
    arc: () => (this.draw(2) ? this.tab.startArc({ rig: "rig-1" }) : this.tab.stopArc({ rig: "rig-1" })),
    hide: async () => {
      const { records } = await truth(this.tab);
      const one = this.pick(records);
      if (one) await this.tab.voidEntry(one.id);
    },
    aborted: async () => {
      abortNext(this.tab, quota());
      await this.tab.tap(note("no room at first")).catch(() => {});
    },
    reply: async () => {
      const exchange = await readExchange(this.tab.db);
      const { records } = await truth(this.tab);
      const ids = this.some(exchange.unsent, 5).map(({ id }) => id);
      const fresh = Array.from({ length: this.draw(3) }, newId);
      const [ack, aside] = [ids.filter(() => this.draw(4) > 0), ids.filter(() => this.draw(6) === 0)];
      const numbered = () => ({ n: ++this.l, o: stampOf(this.l) });
      const put = [
        ...fresh.map((id) => ({ id, raw: rawOf(id, "from afar"), t: stampOf(1), ...(this.draw(4) ? numbered() : {}) })),
        ...this.some(exchange.unsent, 1).map(({ id, t }) => ({ id, raw: rawOf(id, "erased"), t, ...numbered() })),
      ];
      await applyChange(this.tab.db, exchange, {
        meta: { turn: exchange.meta.turn + 1, heard: 1, maxO: stampOf(this.l) },
        put,
        ack: ack.map((id) => ({ id, ...numbered() })),
        unsend: this.some(records, 2).map(({ id }) => id).concat(this.draw(3) ? [] : "nobody knows this"),
        aside: aside.map((id) => ({ id, error: held })),
        ...(this.draw(5) ? {} : { forget: this.draw(this.l + 1) }),
      });
      this.uncounted = false;
    },
    stale: async () => {
      const exchange = await readExchange(this.tab.db);
      await applyChange(this.tab.db, exchange, { meta: { turn: exchange.meta.turn + 1 } });
      this.uncounted = false;
      const done = await applyChange(this.tab.db, exchange, { meta: {}, ack: exchange.unsent.map(({ id }) => ({ id, n: 1, o: stampOf(1) })) });
      assert.equal(done.done, false);
    },
    bringIn: async () => {
      const { records } = await truth(this.tab);
      const known = this.some(records, 2).map(({ id, raw, t }) => ({ id, raw: this.draw(2) ? raw : rawOf(id, "other bytes"), t, else: { id: newId(), raw } }));
      const fresh = [newId(), newId()].map((id) => ({ id, raw: rawOf(id, "carried"), t: stampOf(1), o: this.draw(2) ? stampOf(2) : undefined, else: { id, raw: "" } }));
      await importJournal(this.tab.db, () => ({ events: [...known, ...fresh] }), "");
    },
    rescue: async () => {
      const { records, meta } = await truth(this.tab);
      const db = this.tab.db.name;
      const left = [...this.some(records, 3), ...[newId()].map((id) => ({ id, raw: rawOf(id, "cut off"), t: stampOf(3) }))].map(({ id, raw, t, o }) => ({ id, raw, t, o, db }));
      const bucket = { run: (_, __, body) => body({ objectStore: () => new Shelf(left) }) };
      const copy = { held: new Map(), keep: async () => {}, eachLeft: (body) => body(bucket, { crew: "", device: "" }, []) };
      await recover(copy, meta?.crew ?? "", { merge() {}, copyAll: async () => {} }, this.phone.factory);
    },
    update: async () => {
      await requeueRejected(this.tab.db, newId());
      this.uncounted = false;
    },
    sameBuild: async () => {
      const { meta } = await truth(this.tab);
      await requeueRejected(this.tab.db, meta?.build ?? "");
      this.uncounted = false;
    },
    goOn: () => resumeSync(this.tab.db),
    older: async () => {
      await this.tab.db.run(["event", "meta"], "readwrite", async (tx) => {
        const meta = await resultOf(tx.objectStore("meta").get("meta"));
        if (!meta) return;
        const id = newId();
        tx.objectStore("event").put({ id, raw: rawOf(id, "older app"), t: stampOf(1), l: meta.nextL++, unsent: 1 });
        tx.objectStore("meta").put(meta, "meta");
        this.uncounted = true;
      });
    },
    join: async () => {
      if (this.uncounted) return;
      await settle({ crew: "N0sD1w2aRtY7uIo9PqLm3g", device: "phone-x" }, this.phone.factory);
      await this.check("join, what is left");
      await this.tab.read([]);
    },
    leave: async () => {
      if (this.uncounted) return;
      await leave(this.phone.factory);
      await this.check("leave, what is left");
      await this.tab.read([]);
    },
  };

  async check(what) {
    const { meta, unsent, aside } = await truth(this.tab);
    if (!meta) return;
    if (!this.uncounted) assert.ok(isCounted(meta), `after ${what} it is counted`);
    if (isCounted(meta)) assert.deepEqual({ unsent: meta.count.unsent, aside: meta.count.aside }, { unsent, aside }, `after ${what}`);
  }

  async shown(what) {
    const { sync } = await this.tab.read([]);
    const { unsent, aside } = await truth(this.tab);
    assert.deepEqual({ unsent: sync.unsent, aside: sync.aside }, { unsent, aside }, `what is shown after ${what}`);
  }
}

/** As much of a store as reading a bucket takes. */
class Shelf {
  constructor(records) {
    this.records = records;
  }

  #ask(result) {
    const request = {};
    queueMicrotask(() => request.onsuccess?.({ target: Object.assign(request, { result }) }));
    return Object.assign(request, { result });
  }

  getAllKeys = () => this.#ask(this.records.map(({ id }) => id));
  get = (id) => this.#ask(this.records.find((record) => record.id === id));
}

const first = Number(process.env.KERFSIDE_SEED ?? 1);
const seeds = process.env.KERFSIDE_SEED ? 1 : 12;
const long = 60;

for (let seed = first; seed < first + seeds; seed++) {
  test(`the count of what is unsent is that of the entries, whatever wrote them (seed ${seed})`, withPhone(async (phone) => {
    phone.name = "kerfside";
    const busy = new Busy(phone, seed);
    const names = Object.keys(busy.steps);
    for (let i = 0; i < long; i++) {
      const name = names[busy.draw(names.length)];
      phone.wall += 1000;
      await busy.steps[name]();
      await busy.check(`${name}, step ${i}`);
      await busy.shown(`${name}, step ${i}`);
    }
  }));
}

/** Counts how often an index is counted entry by entry. */
function counting(t) {
  const was = IDBIndex.prototype.count;
  const seen = { times: 0 };
  IDBIndex.prototype.count = function (...words) {
    seen.times++;
    return was.apply(this, words);
  };
  t.after(() => (IDBIndex.prototype.count = was));
  return seen;
}

test("no screen, tap, reply or look for what waits counts the entries", withPhone(async (phone, t) => {
  const seen = counting(t);
  const tab = phone.tab();
  await tab.tap([note("one"), note("two")]);
  assert.equal((await tab.read(["now"])).sync.unsent, 2);
  const exchange = await readExchange(tab.db);
  await applyChange(tab.db, exchange, { meta: { turn: 1 }, ack: [{ id: exchange.unsent[0].id, n: 1, o: stampOf(1) }] });
  assert.equal((await tab.read(["now"])).sync.unsent, 1);
  assert.equal(seen.times, 0);
}));

test("a store of an app that kept no count is counted by the first screen, and then by none", withPhone(async (phone, t) => {
  const tab = phone.tab();
  await tab.tap([note("one"), note("two")]);
  const { count, ...older } = await phone.meta();
  await tab.db.run(["meta"], "readwrite", (tx) => void tx.objectStore("meta").put(older, "meta"));
  const seen = counting(t);
  const another = phone.tab();
  assert.equal((await another.read([])).sync.unsent, 2);
  const once = seen.times;
  assert.ok(once > 0);
  assert.equal((await another.read([])).sync.unsent, 2);
  assert.equal(seen.times, once, "the second screen");
  await requeueRejected(another.db, "/a/2/calc/"); // the worker's start
  seen.times = 0;
  await another.tap(note("three"));
  assert.equal((await phone.tab().read([])).sync.unsent, 3);
  assert.equal(seen.times, 0, "once the worker has counted");
}));
