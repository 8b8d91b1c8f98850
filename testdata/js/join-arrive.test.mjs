// Where joining ends: in another crew the app is loaded anew, at the screen of its phones; until then no
// screen of the old page may be used.
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { test } from "node:test";
import { setGlobals, storage } from "./globals.mjs";
import { place } from "./screen.mjs";
import { JoinPage } from "../../pwa/pages/join.js";

const require = createRequire(new URL("../../cmd/dev/npm/package.json", import.meta.url));
const { IDBFactory, IDBKeyRange } = require("fake-indexeddb");

const crew = "N0sD1w2aRtY7uIo9PqLm3g";

for (const [what, before, screens] of [["another crew", "", []], ["the crew it is in", crew, ["/devices"]]]) {
  test(`joined ${what}`, { timeout: 20_000 }, async (t) => {
    setGlobals(t, {
      indexedDB: new IDBFactory(), IDBKeyRange, localStorage: storage(), location: { hostname: "localhost" }, navigator: {},
      fetch: async (path, { method }) => Response.json(method === "POST" ? { crew, device: "phone-x", role: "member", name: "Truck 1" } : { enrolled: false }),
    });
    const main = place();
    const life = new AbortController();
    t.after(() => life.abort());
    const went = [];
    let paints = 0;
    let arrived = () => {};
    const done = new Promise((resolve) => (arrived = () => resolve(null)));
    const journal = { read: async () => (++paints === 3 && arrived(), { crew: before }) };
    const drafts = { of: () => ({ name: "Truck 1", code: "7K3Q9-M2XWD" }), keep() {}, drop() {} };
    await new JoinPage(main, /** @type {any} */ ({ life: life.signal, journal, drafts, go: (path) => (went.push(path), arrived()) })).start({});
    main.querySelector("[data-ref=join]").click();
    await done;
    assert.deepEqual(went, screens);
    assert.equal(main.querySelector("[data-ref=wrong]").hidden, true);
    assert.equal(main.querySelector("[data-ref=join]").disabled, true);
  });
}
