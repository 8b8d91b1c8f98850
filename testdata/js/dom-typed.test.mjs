import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { test } from "node:test";

// What is put into a control goes through fill, which leaves alone what somebody has typed; and a page
// listens for as long as its life lasts.

const folders = ["pages", "parts"].map((name) => new URL(`../../pwa/${name}/`, import.meta.url));
const lines = folders.flatMap((folder) => readdirSync(folder).filter((name) => name.endsWith(".js"))
  .flatMap((name) => readFileSync(new URL(name, folder), "utf8").split("\n").map((line) => ({ name, line: line.trim() }))));

/** Writes to a control that are no stored value coming late. */
const right = [
  /^if \(!\("touched" in control\.dataset\)\) control\.value = text;$/, // fill itself
  /^this\.at\.text\.value = .*#drafts/, // the text prompt, before it is shown
  /^if \(old\.value !== this\.#value\) old\.value = this\.#value;$/, // a field shows its own value
  /\.value = "";$/, // a control for files is emptied for the next one
  /^this\.#radios\.value = this\.effective;$/, /^this\.value = value;$/, /^(level|tone)\./, // no controls
];

test("nothing but fill writes into a control", () => {
  const found = lines.filter(({ line }) => /\.value = /.test(line) && !right.some((one) => one.test(line)));
  assert.deepEqual(found, []);
});

test("what a page hears from beyond itself ends with its life", () => {
  const beyond = /(?:^|[^.\w])(?:addEventListener|document\.addEventListener|this\.deps\.\w+\.addEventListener)\(/;
  const found = lines.filter(({ name, line }) => beyond.test(line) && !line.includes("signal") && !["alarm.js", "toasts.js", "settings.js"].includes(name)); // which last as long as the app
  assert.deepEqual(found, []);
});
