// What stands above every page of fire watches: whose arc is offered one, and which one a tap ends.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { turn } from "./turn.mjs";
import { StatusBar } from "../../pwa/parts/status-bar.js";

const minute = 60_000;
const noon = 1_760_731_200_000;
Object.assign(globalThis, { location: { pathname: "/ready" } });

/** The phone a, with rig-1, and what it shows of a moment. */
class Here {
  tapped = [];
  rung = 0;
  #life = new AbortController();

  /** @param {Record<string, any>} moment @param {Here} [other]  another tab of the phone: what one keeps the other reads */
  constructor(moment, other, onCut = {}) {
    this.now = noon;
    this.drafts = other?.drafts ?? {};
    this.moment = { watch: [], lastArc: null, arc: {}, session: null, ...moment };
    const journal = Object.assign(new EventTarget(), {
      now: () => this.now,
      tap: async (entry) => (this.tapped.push(...[entry].flat()), { ids: [] }),
      read: async () => ({ views: { now: { session: this.moment.session, watch: this.moment.watch }, rigs: { rigs: ["rig-1", "rig-2"].map((id) => ({ id, fields: { name: id } })), sites: [] } },
        arc: this.moment.arc, lastArc: this.moment.lastArc, device: "a", offset: 0 }),
    });
    this.element = place();
    this.standing = new StatusBar(/** @type {any} */ ({
      journal, alarm: { arm() {}, ring: () => this.rung++ }, toasts: { show() {}, problem: (err) => assert.fail(err) },
      settings: { values: { rig: "rig-1", watchMinutes: 60, watcher: "" } },
      ...ownParts(this.drafts),
    }), this.element, onCut);
    this.journal = journal;
  }

  async shown() {
    await (this.started ??= this.standing.start(this.#life.signal));
    this.journal.dispatchEvent(new Event("views"));
    await turn();
    return this.element.textContent;
  }

  async tap(text) {
    [...this.element.querySelectorAll("button")].find((b) => b.textContent === text).click();
    await turn();
  }

  leave() {
    this.#life.abort();
  }
}

const watch = (id, more) => ({ id, in: "", rig: "rig-1", device: "a", ms: 60 * minute, from: noon, ends: noon + 60 * minute, running: false, ...more });
const off = { rig: "rig-1", in: "s-1", at: noon - minute };

/** Runs body on a phone, and lets go of its clock. */
const on = (moment, body) => async () => {
  const here = new Here(moment);
  try {
    await body(here);
  } finally {
    here.leave();
  }
};

test("another truck’s watch hides neither the offer nor the way to begin one’s own", on({ lastArc: off, watch: [watch("theirs", { rig: "rig-2", device: "b", in: "s-2" })] }, async (here) => {
  assert.match(await here.shown(), /Start the fire watch\?.*rig-2/);
  await here.tap("Start fire watch");
  assert.deepEqual(here.tapped.map(({ kind, body }) => [kind, body.rig]), [["watch.started", "rig-1"]]);
}));

test("an own watch that counts from the last arc is not offered again", on({ lastArc: off, watch: [watch("own")] }, async (here) => {
  assert.doesNotMatch(await here.shown(), /Start the fire watch/);
  await here.standing.begin();
  assert.deepEqual(here.tapped, []);
}));

test("a watch of the rig before, or one that was over, does not count from the last arc", async () => {
  for (const other of [{ rig: "rig-2", in: "s-0" }, { ends: noon - 2 * minute }]) {
    await on({ lastArc: off, watch: [watch("before", other)] }, async (here) => {
      assert.match(await here.shown(), /Start the fire watch\?/);
      await here.tap("End watch");
      here.moment.watch = [];
      assert.match(await here.shown(), /Start the fire watch\?/, "its end is no word on that arc");
      await here.tap("Start fire watch");
      assert.deepEqual(here.tapped.map(({ kind }) => kind), ["watch.ended", "watch.started"]);
    })();
  }
});

test("who ends a watch, or says not now, is not asked about that arc again, but about the next", on({ lastArc: off, watch: [watch("own")] }, async (here) => {
  await here.shown();
  await here.tap("End watch");
  here.moment.watch = [];
  assert.doesNotMatch(await here.shown(), /Start the fire watch/);
  here.now = noon - 300 * minute; // a clock that ran ahead was set right
  here.moment.lastArc = { ...off, at: here.now - minute };
  assert.match(await here.shown(), /Start the fire watch\?/);
  await here.tap("Not now");
  assert.doesNotMatch(await here.shown(), /Start the fire watch/);
}));

test("of other phones’ watches the one that is shown is ended", on({ watch: [
  watch("later", { rig: "rig-2", device: "b", ends: noon + 90 * minute }), watch("burning", { rig: "rig-9", device: "c", running: true }),
] }, async (here) => {
  assert.match(await here.shown(), /after this arc.*another rig/);
  await here.tap("End watch");
  assert.deepEqual(here.tapped.map(({ body }) => body.of), ["burning"]);
}));

test("a name of any length leaves room", on({ watch: [watch("own")] }, async (here) => {
  here.standing.deps.settings.values.watcher = `${"🔥".repeat(30)}x`;
  assert.match(await here.shown(), /· 🔥{24}… watches/u);
}));

test("a tab that nobody sees uses up no alarm", on({ watch: [watch("own")] }, async (seen) => {
  const unseen = new Here(seen.moment, seen);
  const look = (here, visibility) => {
    Object.defineProperty(document, "visibilityState", { value: visibility, configurable: true });
    return here.shown();
  };
  try {
    for (const here of [seen, unseen]) here.now = noon + 61 * minute;
    await look(unseen, "hidden");
    await look(unseen, "hidden");
    assert.equal(unseen.rung, 1, "once, if it can");
    await look(seen, "visible");
    assert.equal(seen.rung, 1);
    await look(unseen, "visible");
    assert.equal(unseen.rung, 1, "it was seen in the other");
    for (const here of [seen, unseen]) here.moment.watch = [watch("next", { ends: noon + 60.5 * minute })];
    await look(unseen, "hidden");
    await look(unseen, "visible");
    await look(seen, "visible");
    assert.deepEqual([unseen.rung, seen.rung], [3, 1], "once more when it is looked at, and in no other");
  } finally {
    unseen.leave();
    await look(seen, "visible");
  }
}));

test("Cut has one row for the fire watch, which begins it, and does not end it with the same double tap", async (t) => {
  t.mock.timers.enable({ apis: ["Date"], now: noon });
  const more = document.createElement("div");
  const here = new Here({}, undefined, { more });
  const begin = () => here.element.querySelector("button").click();
  try {
    assert.equal(await here.shown(), "Start fire watch");
    here.moment.lastArc = off;
    assert.match(await here.shown(), /^Start fire watch Arc off .*Watch until/);
    begin();
    await turn();
    assert.deepEqual(here.tapped.map(({ kind }) => kind), ["watch.started"]);
    here.moment.watch = [watch("own")];
    assert.match(await here.shown(), /^Fire watch until/);
    assert.match(more.textContent, /Who watches\?.*locked phone may stay silent/);
    begin();
    await turn();
    assert.equal(here.tapped.length, 1, "the finger was still on its way");
    t.mock.timers.tick(1001);
    begin();
    await turn();
    assert.deepEqual(here.tapped.map(({ kind }) => kind), ["watch.started", "watch.ended"]);
    here.moment.watch = [watch("theirs", { rig: "rig-2", device: "b", in: "s-2" })];
    assert.match(await here.shown(), /^Start fire watch/, "another truck’s hides no button");
    assert.match(more.textContent, /Fire watch until.*rig-2/);
  } finally {
    here.leave();
  }
});
