import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { place, rows } from "./screen.mjs";
import { startWasm } from "./wasm.mjs";
import { ownParts } from "./own.mjs";
import { describe } from "../../pwa/parts/entry-words.js";
import { BookPage } from "../../pwa/pages/book.js";
import { CutPage } from "../../pwa/pages/cut.js";
import { FixPage } from "../../pwa/pages/fix.js";
import { RigsPage } from "../../pwa/pages/rigs.js";
import { SessionPage } from "../../pwa/pages/session.js";
import { showRejected } from "../../pwa/pages/rejected.js";

const [kinds, odd] = await Promise.all(["kinds", "odd"].map(async (name) => JSON.parse(await readFile(new URL(`../journal/${name}.json`, import.meta.url), "utf8"))));
const began = 1_760_731_116_544;

/** Raw text as a phone writes it; value is raw JSON. */
function raw(name, kind, body, { at = 0, v = 1, about, session = "s-1" } = {}) {
  const id = name.padEnd(22, "_").slice(0, 22);
  const t = ((BigInt(began + at) << 16n) | 1n).toString(16).padStart(16, "0");
  const parts = [`"id":"${id}"`, `"t":"${t}"`, `"wall":[${began + at},60]`, `"device":"phone-b"`, `"kind":${JSON.stringify(kind)}`, `"v":${v}`];
  if (session) parts.push(`"in":"${session}"`);
  if (about) parts.push(`"about":"${about}"`);
  return `{${parts.join(",")},"body":${body}}`;
}

const minute = 60_000;
/** A day on which everything is in order: what each list shows of it has to stay. */
const good = [
  raw("rig", "rig.set", `{"name":"South truck","tips":"40A:0.95mm"}`, { about: "rig-1", session: "" }),
  raw("site", "site.set", `{"name":"Quarry"}`, { about: "site-1", session: "" }),
  raw("open", "session.opened", `{"rig":"rig-1","title":"Gate post"}`, { about: "s-1", session: "" }),
  raw("tip", "part.fitted", `{"slot":"tip"}`, { about: "tip-1", at: minute }),
  raw("drain", "trap.drained", `{}`, { at: 2 * minute }),
  raw("run", "arc.run", `{"start":${began + 3 * minute},"stop":${began + 5 * minute}}`, { at: 9 * minute }),
  raw("read", "part.reading", `{"dmax":1300}`, { about: "tip-1", at: 10 * minute }),
  raw("check", "check.answered", `{"guide":"bring-up","step":"work-clamp","result":"fail"}`, { at: 11 * minute }),
  raw("fault", "fault.seen", `{"symptom":"no-arc","signs":["no-arc"]}`, { about: "fault-1", at: 12 * minute }),
  raw("note", "note.added", `{"text":"all is well"}`, { at: 60 * minute }),
];
const goodRows = ["Session opened", "New cutting tip fitted", "Trap drained", "Arc 2 min · 1 start", "Reading: largest 1.3 mm", "work clamp: failed", "Seen: no arc", "all is well"];

/** What the wasm says of a journal. */
class Told {
  constructor(call, raws) {
    this.call = call;
    call("journal-restore", { rungs: [] });
    this.folded = call("journal-fold", { events: raws.map((text, i) => ({ raw: text, l: i + 1 })), more: false, keep: false, device: "phone-a" });
    assert.deepEqual(this.folded.refused, []);
  }

  /** As much of app.js's Deps as these screens use. */
  get deps() {
    const { views, arc } = this.folded;
    const nothing = () => {};
    return {
      life: new AbortController().signal,
      journal: Object.assign(new EventTarget(), { state: { coming: 0 }, seen: () => null, keepSeen() {}, read: async () => ({ views, arc, offset: 0, lastArc: null, device: "phone-a" }), now: () => began + 60 * minute }),
      ...ownParts(), settings: Object.assign(new EventTarget(), { values: { rig: "", watchMinutes: 30, units: "metric" } }),
      asset: async () => ({ signs: [{ key: "no-arc", label: "No arc" }], groups: [], causes: [], checks: [], pictures: {} }),
      toasts: { show: nothing, problem: (err) => assert.fail(err) }, alarm: { ring: nothing }, call: async (name, input) => this.call(name, input), go: nothing,
    };
  }
}

/** Bodies with one field after another replaced by what nobody asked for, field by field, and what no version knows yet. */
function* oddBodies() {
  for (const [kind, { about, body }] of Object.entries(kinds)) {
    const some = (list, v = 1) => ({ kind, about, v, bodies: list });
    for (const key of Object.keys(body)) {
      const spelt = (value) => `{${Object.entries(body).map(([k, was]) => `${JSON.stringify(k)}:${k === key ? value : JSON.stringify(was)}`).join(",")}}`;
      yield some([...odd.map((value) => JSON.stringify(value)), "1e999", "9".repeat(400)].map(spelt));
    }
    yield some(["{}"]);
    yield some([JSON.stringify(body)], 2);
  }
  for (const kind of ["hasOwnProperty", "valueOf", "__proto__", "constructor", "toString", "drone.flown", "session.flown"]) yield { kind, v: 1, bodies: [`{"text":"x"}`] };
}

/** Those that have no line of their own: they say something of another entry, or of things. */
const lineless = ["amend", "void", "same"];

test("odd entries hide no other, and have a row each", async (t) => {
  const call = await startWasm();
  let tried = 0;
  for (const { kind, about, bodies, v } of oddBodies()) {
    tried += bodies.length;
    const what = `${kind} v${v} ${bodies.join(" ").slice(0, 600)}`;
    const told = new Told(call, [...good, ...bodies.map((body, i) => raw(`odd-${i}`, kind, body, { about, v, at: 30 * minute }))]);
    const main = place();
    await new SessionPage(main, told.deps).start({ id: "s-1" });
    const shown = rows(main, "entries");
    for (const row of goodRows) assert.ok(shown.some((text) => text.startsWith(row)), `${what} hide "${row}" of ${JSON.stringify(shown)}`);
    if (v === 1 && lineless.includes(kind)) {
      assert.equal(shown.length, goodRows.length, what);
      continue;
    }
    for (const i of bodies.keys()) {
      const own = main.querySelector(`[data-id="${`odd-${i}`.padEnd(22, "_")}"]`);
      assert.ok(own, `${kind} v${v} ${bodies[i]} has no row`);
      assert.match(own.textContent, /\d/, `${bodies[i]} shows no time`);
      assert.doesNotMatch(own.textContent, /undefined|NaN|\[object|cannot be shown/, bodies[i]);
      if (v > 1) assert.match(own.textContent, /: entered by a newer version/, what);
    }
  }
  t.diagnostic(`tally: ${tried} odd entries`);
});

test("nor do they hide a session, a rig, a site, a fault or a part from the other lists", async () => {
  const call = await startWasm();
  const things = new Map([["rig.set", "rig-1"], ["site.set", "site-1"], ["part.reading", "tip-1"]]);
  for (const { kind, about, bodies, v } of oddBodies()) {
    if (kind === "session.closed") continue; // closes it, whatever else it says
    const at = (i) => ({ v, at: (30 + i) * minute });
    const { deps } = new Told(call, [...good, ...bodies.flatMap((body, i) => [raw(`odd-${i}`, kind, body, { about, ...at(i) }), raw(`odder-${i}`, kind, body, { about: things.get(kind) ?? about, ...at(i) })])]);
    const seen = async (Page, list) => {
      const main = place();
      const life = new AbortController();
      const page = new Page(main, { ...deps, life: life.signal });
      try {
        await page.start({});
      } finally {
        life.abort(); // or its clocks would keep the process
        page.stop?.();
      }
      return rows(main, list).join("\n");
    };
    const lists = [[BookPage, "days", /of arc/], [CutPage, "parts", kind.startsWith("session.") ? /^/ : /cutting tip/], [FixPage, "list", /No arc/], [RigsPage, "rigs", kind === "rig.set" ? /./ : /South truck/], [RigsPage, "sites", kind === "site.set" ? /./ : /Quarry/]];
    for (const [Page, list, good] of lists) {
      const text = await seen(Page, list);
      assert.match(text, good, `${list} beside ${kind} v${v} ${bodies.join(" ").slice(0, 600)}`);
      assert.doesNotMatch(text, /undefined|NaN|\[object|cannot be shown/, `${list} beside ${kind} v${v} ${bodies.join(" ").slice(0, 600)}`);
    }
  }
});

test("a row that cannot be drawn says so with its name and time, and the rest stands", async (t) => {
  t.mock.method(console, "error", () => {});
  const told = new Told(await startWasm(), good);
  const { deps } = told;
  const session = await deps.call("journal-session", { id: "s-1" });
  Object.defineProperty(session.entries[2], "body", { get() { throw new Error("a slip in a drawing"); } });
  deps.call = async (name, input) => (name === "journal-session" ? session : told.call(name, input));
  const main = place();
  await new SessionPage(main, deps).start({ id: "s-1" });
  const shown = rows(main, "entries");
  assert.equal(shown.length, goodRows.length);
  assert.match(shown[2], /^Trap drained: cannot be shown.*\d/);
  for (const row of goodRows.toSpliced(2, 1)) assert.ok(shown.some((text) => text.startsWith(row)), row);
  assert.ok(console.error.mock.callCount() > 0);
});

test("what is held back is listed, whatever its bytes are", async (t) => {
  t.mock.method(console, "error", () => {});
  const list = [["{", "why not"], [raw("a", "note.added", `{"text":{}}`), "too long"], [raw("b", "note.added", `{"text":"kept"}`, { v: 2 }), "newer"], [raw("c", "note.added", `{"text":"good"}`), "full"], ["null", "empty"]];
  const main = place();
  await showRejected(main, { db: { run: async () => ({ entries: list.map(([text, why], i) => ({ id: String(i), raw: text, why })), pictures: [] }) } });
  const shown = [...main.children].map((row) => row.textContent);
  assert.equal(shown.length, list.length);
  assert.match(shown[0], /cannot be shown/);
  assert.match(shown[1], /^Note added: cannot be read here.*too long/);
  assert.match(shown[2], /^Note added: entered by a newer version/);
  assert.match(shown[3], /^good/);
  assert.match(shown[4], /cannot be shown/);
});

test("every kind that the fold lists is said in words of its own", () => {
  for (const [kind, { body }] of Object.entries(kinds)) {
    const said = describe({ kind, v: 1, body });
    if (lineless.includes(kind)) assert.match(said, /newer version/);
    else assert.doesNotMatch(said, /newer version|cannot|undefined|NaN/, kind);
  }
});

test("of a key that stands twice in a body the last counts, in the fold as on the screen", async () => {
  const told = new Told(await startWasm(), [...good,
    raw("twice", "note.added", `{"text":"said first","text":"said last"}`, { at: 30 * minute }),
    raw("arc", "arc.run", `{"start":${began + 20 * minute},"start":${began + 21 * minute},"st\\u006fp":1,"stop":${began + 25 * minute}}`, { at: 30 * minute })]);
  const main = place();
  await new SessionPage(main, told.deps).start({ id: "s-1" });
  const shown = rows(main, "entries").join("\n");
  assert.match(shown, /said last/);
  assert.doesNotMatch(shown, /said first/);
  assert.match(shown, /Arc 4 min · 1 start/);
  const twice = `{"id":"${"top".padEnd(22, "_")}","id":"${"pot".padEnd(22, "_")}","t":"0199f3c0b4000000","device":"d","kind":"note.added","v":1,"body":{}}`;
  assert.throws(() => told.call("journal-check", { raw: twice }), { kind: "malformed", msg: /stands twice/ });
});

test("an overlong line of an import is refused by its length, and the others come in", async () => {
  const call = await startWasm();
  const keys = `{${Array.from({ length: 120_000 }, (_, i) => `"${i}":0`).join(",")}}`;
  const text = ['{"kerfside":1,"count":4}', good[0], keys, `{"o":"0199f3c0b4000000","raw":${keys}}`, good[1]].join("\n");
  const { events, refused } = call("journal-import", { text });
  assert.deepEqual(events.map(({ raw: text }) => text), good.slice(0, 2));
  assert.deepEqual(refused.map(({ line, error }) => [line, error.kind]), [[3, "too-large"], [4, "too-large"]]);
});
