// Settings are one value on the phone, whichever tab sets one of them.
import assert from "node:assert/strict";
import { test } from "node:test";
import { page, withPhone } from "./phone.mjs";
import { Settings } from "../../pwa/parts/settings.js";

globalThis.navigator ??= /** @type {any} */ ({ language: "en-GB" }); // Node before 21 has none

test("a tab that sets one of them leaves what another has set meanwhile", withPhone(async (phone, t) => {
  const { document } = page(t);
  Object.assign(document, { documentElement: { dataset: {} }, querySelectorAll: () => [] });
  globalThis.matchMedia = () => /** @type {any} */ (Object.assign(new EventTarget(), { matches: false }));
  t.after(() => delete globalThis.matchMedia);
  const [one, other] = [0, 1].map(() => new Settings(phone.tab().localState));
  other.set({ emergency: "112", watcher: "The mate" });
  one.take({ rig: "rig-1" });
  assert.deepEqual([one.values, new Settings(phone.tab().localState).values].map(({ rig, emergency, watcher }) => [rig, emergency, watcher]),
    [["rig-1", "112", "The mate"], ["rig-1", "112", "The mate"]]);
}));
