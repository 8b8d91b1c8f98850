// What the server will not have is listed with why.

import assert from "node:assert/strict";
import { test } from "node:test";

import { asked, note, withPhone } from "./phone.mjs";

const { heldBack } = await import("../../pwa/journal/carry/held.js");
const { Photos } = await import("../../pwa/journal/photo/photos.js");

test("entries put aside and pictures refused are listed, others are not", withPhone(async (phone) => {
  const tab = phone.tab();
  const { id } = await tab.tap(note("odd"));
  await tab.tap(note("fine"));
  await tab.db.run(["event"], "readwrite", async (tx) => {
    const record = await asked(tx.objectStore("event").get(id));
    tx.objectStore("event").put({ ...record, unsent: 2, aside: { kind: "malformed", msg: "no such thing" } });
  });
  const photos = new Photos(tab.db);
  for (const name of ["a", "b"]) await photos.keep({ sha256: name.repeat(64), type: "image/jpeg", bytes: new ArrayBuffer(1) }, id);
  await photos.done("a".repeat(64), true);
  const { entries, pictures } = await heldBack(tab.db);
  assert.deepEqual(entries.map(({ raw, why }) => [JSON.parse(raw).body.text, why]), [["odd", "no such thing"]]);
  assert.deepEqual(pictures, ["a".repeat(64)]);
}));
