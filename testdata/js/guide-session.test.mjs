// A session that ends while a guide's cover is open, on this phone or another: what makes the torch dead is done anew.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { turn } from "./turn.mjs";

const { GuidePage } = await import("../../pwa/pages/guide.js");

const step = (id) => ({ id, title: id, do: "", why: "", answers: ["done"], source: "" });
const guide = { id: "torch", title: "Torch", when: "", about: "", place: "ready", form: "steps", minutes: 1, cautions: "", sources: [], steps: [step("unplug"), step("cup"), step("tip")], taken: [{ steps: ["unplug"] }] };
const viewsOf = (session, steps) => ({ now: { session: session ? { id: session, rig: "" } : null, fails: [] }, rigs: null,
  guides: { progress: steps ? [{ guide: "torch", in: session, last: Date.now(), steps, fails: [] }] : [] } });

/** The cover, what it says of each step and on its button. */
async function open(t, views, drafts = {}) {
  const life = new AbortController();
  t.after(() => life.abort());
  const main = place();
  const phone = { views };
  const journal = Object.assign(new EventTarget(), { read: async () => ({ views: phone.views }), tap: async () => {} });
  const own = ownParts();
  for (const [key, value] of Object.entries(drafts)) own.drafts.keep(key, value);
  await new GuidePage(main, /** @type {any} */ ({
    life: life.signal, journal, asset: async (name) => (name === "gen/drawings.json" ? {} : guide), title() {}, go() {}, call: async () => ({}), toasts: { show() {} }, pad: {}, ...own,
    settings: { values: { units: "metric", rig: "", emergency: "" } },
  })).start({ id: "torch", hash: "" });
  return {
    shows: () => [...main.querySelectorAll("[data-step]")].map((row) => row.textContent.trim().replace(/\s+/g, " ")),
    fold: async (now) => {
      phone.views = now;
      journal.dispatchEvent(new Event("views"));
      await turn();
    },
  };
}

const done = { result: "done", body: {} };

test("the session ends: what makes the torch dead is asked again, the parts stay looked at", async (t) => {
  const kept = (id) => ({ [id]: { at: Date.now(), result: "done", rig: "", in: "s-1" } });
  const cover = await open(t, viewsOf("s-1", { unplug: done, cup: done }), { "guide.torch": { ...kept("unplug"), ...kept("cup") } });
  const before = cover.shows();
  await cover.fold(viewsOf("", null));
  const after = cover.shows();
  assert.notEqual(before[0], "unplug");
  assert.equal(after[0], "unplug", "asked anew");
  assert.equal(after[1], before[1], "stays");
  assert.equal(after[2], "tip");
});

test("the same session goes on: nothing is asked again, though a view may be late", async (t) => {
  const cover = await open(t, viewsOf("s-1", { unplug: done, cup: done }));
  const before = cover.shows();
  await cover.fold(viewsOf("s-1", { unplug: done }));
  assert.deepEqual(cover.shows(), before);
});
