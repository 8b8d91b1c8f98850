// A sync that stopped for a person goes on when one asks for it, as calc/journal/states.md has it.
import assert from "node:assert/strict";
import { test } from "node:test";
import { place } from "./screen.mjs";
import { SettingsPage } from "../../pwa/pages/settings.js";

for (const [name, stopped, asked] of [["in step", null, "now"], ["stopped", { kind: "rewound", msg: "two servers seem to share this name" }, "resumed"]]) {
  test(`Sync now, ${name}`, () => {
    const main = place();
    const done = [];
    const journal = Object.assign(new EventTarget(), { state: { stopped }, read: () => new Promise(() => {}), syncNow: () => done.push("now"), resumeSync: () => done.push("resumed") });
    const page = new SettingsPage(main, /** @type {any} */ ({
      journal, life: new AbortController().signal, settings: { values: { units: "metric", look: "sun", hand: "left", rig: "", watchMinutes: 60, emergency: "" } },
    }));
    page.start({}).catch(() => {}); // what stands below it asks for a store
    main.querySelector("[data-action=sync]").click();
    assert.deepEqual(done, [asked]);
  });
}
