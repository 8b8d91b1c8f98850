// What a canvas writes beside the picture stays behind.

import assert from "node:assert/strict";
import { test } from "node:test";

const { withoutNotes } = await import("../../pwa/parts/jpeg.js");

const bytes = (...parts) => Uint8Array.from(parts.flatMap((part) => (typeof part === "string" ? [...part].map((c) => c.charCodeAt(0)) : part)));
const segment = (marker, data) => [0xff, marker, (data.length + 2) >> 8, (data.length + 2) & 255, ...bytes(data)];
const left = async (...parts) => new Uint8Array(await withoutNotes(bytes([0xff, 0xd8], ...parts).buffer).arrayBuffer());

const jfif = segment(0xe0, "JFIF\x00\x01\x01\x00\x00\x01\x00\x01\x00\x00");
const profile = segment(0xe2, "ICC_PROFILE\x00\x01\x01x");
const adobe = segment(0xee, "Adobe\x00\x64\x00\x00\x00\x00\x01");
const table = segment(0xdb, "a table");
const lines = [...segment(0xda, "a scan"), 1, 2, 0xff, 0, 0xff, 0xe1, 3, 0xff, 0xd9];

test("Exif, XMP, notes and comments go, and what shows the picture stays", async () => {
  const got = await left(jfif, segment(0xe1, "Exif\x00\x00MM\x00*"), segment(0xe1, "http://ns.adobe.com/xap/1.0/\x00"), profile, segment(0xed, "Photoshop 3.0\x00"),
    segment(0xfe, "54.97 N"), adobe, segment(0xef, "x"), segment(0xe4, ""), table, lines);
  assert.deepEqual(got, bytes([0xff, 0xd8], jfif, profile, adobe, table, lines));
});

test("a file without any is the same file", async () => {
  assert.deepEqual(await left(jfif, table, lines), bytes([0xff, 0xd8], jfif, table, lines));
});

test("a file that breaks off gives no more than it has", async () => {
  assert.deepEqual(await left(jfif, [0xff, 0xe1, 0xff]), bytes([0xff, 0xd8], jfif, [0xff, 0xe1, 0xff]));
  assert.deepEqual(await left(jfif, [0xff, 0xdb, 0xff, 0xff, 1]), bytes([0xff, 0xd8], jfif, [0xff, 0xdb, 0xff, 0xff, 1]));
});
