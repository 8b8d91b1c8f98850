// What a page has in flight as it goes away is cut off, and begun again if it comes back.

import assert from "node:assert/strict";
import { test } from "node:test";
import { asked, note, withPhone } from "./phone.mjs";
import { back, leave } from "../../pwa/journal/db.js";

const turn = () => new Promise((resolve) => setImmediate(resolve));

test("a tap that is cut off is stored when the page comes back, once", withPhone(async (phone) => {
  const tab = phone.tab();
  await tab.tap(note("before"));
  const tapping = tab.tap(note("cut off"));
  let isStored = false;
  tapping.then(() => (isStored = true), () => {});
  await Promise.resolve();
  leave();
  const late = tab.tap(note("while away"));
  for (let i = 0; i < 20; i++) await turn();
  assert.equal(isStored, false);
  const other = await asked(phone.factory.open(phone.name, 2)); // nothing holds the store: else this would be blocked
  assert.deepEqual(Array.from(other.objectStoreNames).includes("event"), true);
  const kept = await asked(other.transaction("event").objectStore("event").count());
  assert.equal(kept, 1);
  other.close();
  await asked(phone.factory.deleteDatabase(phone.name));
  back();
  await Promise.all([tapping, late]);
  assert.deepEqual((await phone.all("event")).map(({ raw }) => JSON.parse(raw).body.text).sort(), ["cut off", "while away"]);
  assert.deepEqual(tab.failed, []);
}));
