// A guide that is closed at its end gives way to the screen before it, or to its place where there is none.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { browser } from "./history.mjs";
import { turn } from "./turn.mjs";
import { GuidePage } from "../../pwa/pages/guide.js";

const guide = { id: "torch", title: "Torch", when: "", about: "", place: "ready", form: "steps", minutes: 1, cautions: "", sources: [], steps: [{ id: "cup", title: "Cup", do: "", why: "", answers: ["good"], source: "" }] };

/** Closes a guide in a browser that came to it by these addresses. */
async function close(t, first, ...then) {
  const at = browser(t, first, { guide: async () => GuidePage });
  await at.router.again();
  for (const path of then) await at.router.show(path, true);
  const life = new AbortController();
  t.after(() => life.abort());
  const main = place();
  await new GuidePage(main, /** @type {any} */ ({
    life: life.signal, journal: Object.assign(new EventTarget(), { read: async () => ({ views: {} }) }), asset: async (name) => (name === "gen/drawings.json" ? {} : guide), title() {}, back: () => at.router.back(), call: async () => ({}), ...ownParts(),
    settings: { values: { units: "metric", rig: "", emergency: "" } },
  })).start({ id: "torch", hash: "end" });
  main.querySelector(".dock [data-action=next]").click();
  await turn();
  return at.address;
}

test("a guide that was opened from a screen gives way to that", async (t) => {
  assert.equal(await close(t, "/cut", "/guide/torch"), "/cut");
});

test("one that was opened by its address gives way to its place", async (t) => {
  assert.equal(await close(t, "/guide/torch"), "/book"); // of late screens here
});
