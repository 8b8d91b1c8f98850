// Who has Kerfside in a tab on iOS is told that it does not keep things for long, and how it does; nobody else is.
// What tells iOS from others is in the open data of MDN: css.properties.-webkit-touch-callout.

import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { test } from "node:test";
import { setGlobals, storage } from "./globals.mjs";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { turns } from "./turn.mjs";
import { isTabOnIOS, tellOfHomeScreen } from "../../pwa/parts/home-screen.js";
import { ReadyPage } from "../../pwa/pages/ready.js";
import { SettingsPage } from "../../pwa/pages/settings.js";

const { IDBFactory, IDBKeyRange } = createRequire(new URL("../../cmd/dev/npm/package.json", import.meta.url))("fake-indexeddb");

/** @param {{ios?: boolean, mode?: string, standalone?: boolean}} phone */
function on(t, { ios = true, mode = "browser", standalone }) {
  setGlobals(t, {
    CSS: { supports: (property) => ios && property === "-webkit-touch-callout" },
    matchMedia: (query) => ({ matches: query === `(display-mode: ${mode})` }),
    navigator: { standalone }, localStorage: storage(), location: { hostname: "localhost" }, indexedDB: new IDBFactory(), IDBKeyRange,
  });
}

const phones = {
  "a tab on iOS": { phone: {}, is: true },
  "another browser": { phone: { ios: false }, is: false },
  "installed": { phone: { mode: "standalone" }, is: false },
  "installed, before display modes were known": { phone: { standalone: true }, is: false },
};

for (const [name, { phone, is }] of Object.entries(phones)) {
  test(`${name}: ${is ? "it is told" : "nothing is said"}`, async (t) => {
    on(t, phone);
    assert.equal(isTabOnIOS(), is);
    const deps = {
      life: new AbortController().signal, sumsRun: () => false, asset: async () => ({ fields: [] }), ...ownParts({}),
      journal: Object.assign(new EventTarget(), { now: () => 0, seen: () => null, read: async () => ({ views: {}, arc: {}, sync: {}, crew: "" }) }),
      settings: Object.assign(new EventTarget(), { values: { units: "metric", look: "sun", hand: "left", rig: "", site: "" } }),
    };
    for (const Page of [ReadyPage, SettingsPage]) {
      const main = place();
      new Page(main, /** @type {any} */ (deps)).start({}).catch(() => {}); // what stands below it asks for a store
      await turns();
      assert.equal(main.querySelector("[data-ref=home]").hidden, !is, Page.name);
    }
  });
}

/** What stands after entries. */
function told(t) {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  const journal = new EventTarget();
  const shown = [];
  const went = [];
  const toasts = { element: { children: [] }, show: (text, { undo }) => shown.push({ text, undo }) };
  tellOfHomeScreen(/** @type {any} */ ({ journal, toasts, go: (path) => went.push(path) }));
  const enter = (by = "tap") => {
    journal.dispatchEvent(Object.assign(new Event("change"), { detail: { l: 1, by } }));
    t.mock.timers.tick(60_000);
  };
  return { shown, went, toasts, enter, again: () => tellOfHomeScreen(/** @type {any} */ ({ journal, toasts })) };
}

test("it is said once, after the first entry of this phone, and leads to how", (t) => {
  on(t, {});
  const seen = told(t);
  seen.enter("sync");
  assert.equal(seen.shown.length, 0);
  seen.enter();
  seen.enter();
  assert.equal(seen.shown.length, 1);
  assert.match(seen.shown[0].text, /seven days/);
  seen.shown[0].undo();
  assert.deepEqual(seen.went, ["/settings#kept"]);
  seen.again(); // the next start
  seen.enter();
  assert.equal(seen.shown.length, 1);
});

test("it covers no Undo: then it waits for another entry", (t) => {
  on(t, {});
  const seen = told(t);
  seen.toasts.element.children = [{}];
  seen.enter();
  assert.equal(seen.shown.length, 0);
  seen.toasts.element.children = [];
  seen.enter();
  assert.equal(seen.shown.length, 1);
});

test("nobody else is told", (t) => {
  on(t, { mode: "standalone" });
  const seen = told(t);
  seen.enter();
  assert.equal(seen.shown.length, 0);
});
