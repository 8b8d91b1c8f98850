// The interval of draining is the rig's in use, whether a fold has told which rigs there are or not.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { turn } from "./turn.mjs";
import { SettingsPage } from "../../pwa/pages/settings.js";

test("the interval is set before any view is there", async () => {
  const main = place();
  const tapped = [];
  const journal = Object.assign(new EventTarget(), { read: async () => ({ views: { rigs: null }, crew: "", sync: {} }), tap: async (entry) => tapped.push(entry) });
  const page = new SettingsPage(main, /** @type {any} */ ({
    journal, life: new AbortController().signal, pad: { ask: async () => "25" }, toasts: { show: assert.fail, problem: assert.fail },
    settings: { values: { units: "metric", look: "sun", hand: "left", rig: "rig-1", watchMinutes: 60, emergency: "" } },
  }));
  page.start({}).catch(() => {}); // what stands below it asks for a store
  main.querySelector("[data-action=drain]").click();
  await turn();
  assert.deepEqual(tapped, [{ kind: "rig.set", about: "rig-1", body: { drainEvery: 1_500_000 } }]);
});
