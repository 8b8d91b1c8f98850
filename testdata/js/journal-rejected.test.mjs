// What the server will not have is listed with why.

import assert from "node:assert/strict";
import { test } from "node:test";

import { resultOf, note, withPhone } from "./phone.mjs";

const { readRejected } = await import("../../pwa/journal/recovery/rejected.js");
const { PhotoQueue } = await import("../../pwa/worker/photo-queue.js");
const { Photos } = await import("../../pwa/journal/photo/photos.js");

test("entries put aside and pictures refused are listed, others are not", withPhone(async (phone) => {
  const tab = phone.tab();
  const { id } = await tab.tap(note("odd"));
  await tab.tap(note("fine"));
  await tab.db.run(["event"], "readwrite", async (tx) => {
    const record = await resultOf(tx.objectStore("event").get(id));
    tx.objectStore("event").put({ ...record, unsent: 2, aside: { kind: "malformed", msg: "no such thing" } });
  });
  const photos = new Photos(tab.db);
  for (const name of ["a", "b"]) await photos.keep({ sha256: name.repeat(64), type: "image/jpeg", bytes: new ArrayBuffer(1) }, id);
  const { id: photo } = await tab.tap({ kind: "photo.added", body: { sha256: "a".repeat(64) } });
  await new PhotoQueue(tab.db).refused("a".repeat(64), "it may say where it was taken");
  const { entries, pictures } = await readRejected(tab.db);
  assert.deepEqual(entries.map(({ raw, why }) => [JSON.parse(raw).body.text, why]), [["odd", "no such thing"]]);
  assert.deepEqual(pictures.map(({ sha256, raw, why }) => [sha256, JSON.parse(raw).id, why]), [["a".repeat(64), photo, "it may say where it was taken"]]);
  assert.ok(JSON.parse(pictures[0].raw).wall[0] > 0, "it says when");
}));

test("pictures that an earlier version noted as refused are listed too", withPhone(async (phone) => {
  const tab = phone.tab();
  await tab.tap({ kind: "photo.added", body: { sha256: "a".repeat(64) } });
  await tab.db.run(["photo"], "readwrite", (tx) => void tx.objectStore("photo").put({ sha256: "waiting", gen: 0, list: [], refused: ["a".repeat(64), "b".repeat(64)] }));
  const { pictures } = await readRejected(tab.db);
  assert.deepEqual(pictures.map(({ sha256, raw }) => [sha256[0], raw !== ""]), [["a", true], ["b", false]]);
}));
