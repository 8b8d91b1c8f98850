// What one screen tells another of today's cut: what each fact is, when it is forgotten, and what is read of
// what is stored when that is damaged or an older version's.

import assert from "node:assert/strict";
import { test } from "node:test";
import { page, withPhone } from "./phone.mjs";
import { LocalState } from "../../pwa/journal/local-state.js";
import { Today } from "../../pwa/today.js";

const current = { value: 45, unit: "A", text: "45 A" };
const short = { verdict: "fails", remedies: [], unknowns: [], here: [{ for: "this" }] };
const answer = { results: { current }, cautions: ["Hot."], asked: "6mm", keys: ["metal", "thickness"], day: short };

/** Each fact: how it is told, what is asked for, what that is of a phone that was told nothing. */
const facts = {
  plan: { tell: (t) => (t.plan = { thickness: "6mm" }), ask: (t) => t.plan, told: { thickness: "6mm" }, never: {} },
  answer: { tell: (t) => (t.answer = answer), ask: (t) => t.answer, told: answer, never: null },
  begun: { tell: (t) => (t.begun = { fields: { thickness: "6mm" }, results: { current } }), ask: (t) => t.begun, told: { fields: { thickness: "6mm" }, results: { current } }, never: { fields: undefined, results: undefined } },
  metal: { tell: (t) => (t.metal = { metal: "brass", thickness: "9mm", past: "yes" }), ask: (t) => t.metal, told: { metal: "brass", thickness: "9mm", past: "yes" }, never: { metal: "", thickness: "", past: "unknown" } },
  verdicts: { tell: (t) => (t.verdicts = { air: "fails", power: "tight", duty: "ok" }), ask: (t) => t.verdicts, told: { air: "fails", power: "tight", duty: "ok" }, never: {} },
  arc: { tell: (t) => t.tellArc(12_345), ask: (t) => t.takeArc(), told: "12.3", never: "" },
  unwatched: { tell: (t) => (t.unwatched = 1_760_731_116_544.5), ask: (t) => t.unwatched, told: 1_760_731_116_544.5, never: NaN },
  rung: { tell: (t) => (t.rung = "w-1 99"), ask: (t) => t.rung, told: "w-1 99", never: "" },
};

/** What version 0.1 and those before it stored, by key of localStorage. */
const stored = {
  plan: ["plan", { thickness: "6mm" }],
  answer: ["plan.answer", answer],
  begun: ["plan.begin", { fields: { thickness: "6mm" }, results: { current } }],
  metal: ["day.plan", { past: "yes", metal: "brass", thickness: "9mm" }],
  verdicts: ["day.verdicts", { air: "fails", power: "tight", duty: "ok" }],
  arc: ["arc.last", { seconds: "12.3" }],
  unwatched: ["watch.declined", { at: "1760731116544.5" }],
  rung: ["watch.rung", { what: "w-1 99" }],
};
const key = (fact) => `kerfside.draft.${stored[fact][0]}`;

/** Gives a test starts of the app on one phone, each with today as it finds it. */
const withToday = (body) => withPhone(async (phone, t) => {
  const { localStorage } = page(t);
  const opened = [];
  const open = async () => {
    const own = new LocalState({ factory: phone.factory, clock: () => phone.wall });
    opened.push(own);
    await own.start();
    return Object.assign(new Today(own), { settled: () => own.settled() });
  };
  await body({ localStorage, open, phone });
  for (const own of opened) {
    await own.settled();
    own.db.close();
  }
});

for (const [fact, { tell, ask, told, never }] of Object.entries(facts)) {
  test(`${fact}: told by one screen, another asks, in a tab beside it and after a kill`, withToday(async ({ localStorage, open, phone }) => {
    const [one, other] = [await open(), await open()];
    assert.deepEqual(ask(one), never);
    tell(one);
    assert.deepEqual(ask(other), told);
    tell(one);
    await one.settled();
    for (const name of Object.keys(localStorage)) localStorage.removeItem(name); // which browsers write late
    phone.wall += 30 * 86_400_000; // nothing is forgotten with the day
    assert.deepEqual(ask(await open()), told);
  }));

  test(`${fact}: what an earlier version stored is read, and stored under the same name again`, withToday(async ({ localStorage, open }) => {
    localStorage.setItem(key(fact), JSON.stringify({ value: stored[fact][1], at: 1 }));
    assert.deepEqual(ask(await open()), told);
    tell(await open());
    const { at, ...value } = JSON.parse(localStorage.getItem(key(fact))).value; // metal and verdicts keep their time as well now
    assert.deepEqual(fact === "unwatched" ? { at } : value, stored[fact][1]);
  }));

  test(`${fact}: what is damaged counts as never told`, withToday(async ({ localStorage, open }) => {
    const inner = Object.fromEntries(Object.keys(stored[fact][1]).map((name) => [name, 5]));
    for (const value of [null, 5, "text", [], ["text"], {}, inner, { ...inner, results: {}, fields: [] }]) {
      localStorage.setItem(key(fact), JSON.stringify({ value, at: 1 }));
      const found = ask(await open());
      if (fact === "begun" && value?.results?.constructor === Object) assert.deepEqual(found, { fields: undefined, results: {} }); // figures, of which none is known
      else assert.deepEqual(found, never, JSON.stringify(value));
    }
    localStorage.setItem(key(fact), "no JSON");
    assert.deepEqual(ask(await open()), never);
  }));
}

test("values of a version that had localStorage alone", withToday(async ({ localStorage, open }) => {
  for (const fact of Object.keys(facts)) localStorage.setItem(key(fact), JSON.stringify(stored[fact][1]));
  const today = await open();
  for (const { ask, told } of Object.values(facts)) assert.deepEqual(ask(today), told);
}));

test("an older plan and metal, with less in them", withToday(async ({ localStorage, open }) => {
  const { results, cautions } = answer;
  localStorage.setItem(key("metal"), JSON.stringify({ past: "no" }));
  localStorage.setItem(key("answer"), JSON.stringify({ results, cautions, working: [], sources: [] }));
  localStorage.setItem(key("begun"), JSON.stringify({ fields: { thickness: "6mm" } }));
  const today = await open();
  assert.deepEqual(today.metal, { metal: "", thickness: "", past: "no" });
  assert.deepEqual(today.answer, { results, cautions, asked: "", keys: [], day: null });
  assert.deepEqual(today.begun, { fields: { thickness: "6mm" }, results: undefined });
  localStorage.setItem(key("answer"), JSON.stringify({ results, cautions, asked: "6mm", day: { verdict: "fails" } }));
  assert.equal((await open()).answer.day, null, "a verdict without what holds here");
}));

test("metal and verdicts of another day are told to nobody", withToday(async ({ open }) => {
  const { now } = Date;
  try {
    for (const [hours, holds] of [[11, true], [13, false], [-13, false]]) {
      const today = await open();
      for (const fact of ["metal", "verdicts"]) facts[fact].tell(today);
      Date.now = () => now() + hours * 3600_000;
      for (const fact of ["metal", "verdicts"]) assert.deepEqual(facts[fact].ask(today), facts[fact][holds ? "told" : "never"], `${fact} after ${hours} h`);
      Date.now = now;
    }
  } finally {
    Date.now = now;
  }
}));

test("what is forgotten, and when", withToday(async ({ open }) => {
  const today = await open();
  for (const { tell } of Object.values(facts)) tell(today);
  today.plan = null;
  assert.deepEqual(today.plan, {});
  today.begun = null;
  assert.deepEqual(today.begun, facts.begun.never);
  assert.deepEqual([today.takeArc(), today.takeArc()], ["12.3", ""]);
  for (const fact of ["answer", "metal", "verdicts", "unwatched", "rung"]) assert.deepEqual(facts[fact].ask(today), facts[fact].told, `${fact} stands`);
  today.unwatched = 7;
  today.rung = "w-2 7";
  assert.deepEqual([today.unwatched, today.rung], [7, "w-2 7"], "the next takes its place");
}));
