// A good answer clears every failed check of its step, whichever this screen has from where.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { turn } from "./turn.mjs";

const { GuidePage } = await import("../../pwa/pages/guide.js");

const step = (id) => ({ id, title: id, do: "", why: "", answers: ["good", "change"], source: "" });
const guide = { id: "torch", title: "Torch", when: "", about: "", place: "ready", form: "steps", minutes: 1, cautions: "", sources: [], steps: [step("cup"), step("tip")] };

/** The guide on a phone whose views are given, and which stores when it is let. */
async function open(t, views) {
  const life = new AbortController();
  t.after(() => life.abort());
  const main = place();
  const tapped = [];
  const writes = [];
  const phone = { views: { now: null, guides: null, rigs: null, ...views } };
  const journal = Object.assign(new EventTarget(), {
    read: async () => ({ views: phone.views }),
    tap: (entries) => (tapped.push(...entries), new Promise((resolve) => writes.push(resolve))),
  });
  await new GuidePage(main, /** @type {any} */ ({
    life: life.signal, journal, asset: async (name) => (name === "gen/drawings.json" ? {} : guide), title() {}, go() {}, call: async () => ({}), toasts: { show() {} }, pad: {}, ...ownParts(),
    settings: { values: { units: "metric", rig: "", emergency: "" } },
  })).start({ id: "torch", hash: "cup" });
  const answer = async (of, result) => {
    tapped.length = 0;
    main.dispatchEvent(new CustomEvent("guide:answer", { detail: { guide: "torch", step: of, result } }));
    await turn();
    return tapped.filter(({ kind }) => kind === "check.cleared").map(({ body }) => body.of);
  };
  const fold = async (fails) => {
    phone.views = { ...phone.views, ...viewsOf(fails) };
    journal.dispatchEvent(new Event("views"));
    await turn();
  };
  return { answer, fold, tapped, idOf: () => tapped.find(({ kind }) => kind === "check.answered").id };
}

/** The views that a fold makes of failed checks, oldest first. */
function viewsOf(fails, session = "s-1") {
  const steps = Object.fromEntries(fails.map(({ id, step: of }) => [of, { id, result: "change", body: {} }]));
  return {
    now: { session: session ? { id: session, rig: "" } : null, fails: fails.map((f) => ({ guide: "torch", in: session, at: Date.now(), result: "change", ...f })) },
    guides: { progress: [{ guide: "torch", in: session, last: Date.now(), steps, fails: fails.map(({ id }) => id) }] },
  };
}

test("one that failed twice, with a fold between", async (t) => {
  const { answer, fold, idOf } = await open(t, viewsOf([]));
  await answer("cup", "change");
  const first = idOf();
  await fold([{ id: first, step: "cup" }]);
  await answer("cup", "change");
  const second = idOf();
  await fold([{ id: first, step: "cup" }, { id: second, step: "cup" }]);
  assert.deepEqual((await answer("cup", "good")).sort(), [first, second].sort());
  await fold([{ id: first, step: "cup" }, { id: second, step: "cup" }]); // of before the answer
  assert.deepEqual(await answer("cup", "good"), [], "once is enough");
});

test("those of an earlier visit, and none of another step, guide, session or day", async (t) => {
  const own = [{ id: "a", step: "cup" }, { id: "b", step: "cup" }];
  const others = [{ id: "c", step: "tip" }, { id: "d", step: "cup", guide: "ground" }, { id: "e", step: "cup", in: "s-0" }];
  assert.deepEqual(await (await open(t, viewsOf([...others, ...own]))).answer("cup", "good"), ["a", "b"]);
  const yesterday = { id: "f", step: "cup", at: Date.now() - 86_400_000 };
  assert.deepEqual(await (await open(t, viewsOf([yesterday, ...own], ""))).answer("cup", "good"), ["a", "b"]);
});

test("one that is still being stored", async (t) => {
  const { answer, idOf } = await open(t, viewsOf([]));
  await answer("cup", "change"); // nothing lets it be stored
  const id = idOf();
  assert.deepEqual(await answer("cup", "good"), [id]);
});
