// What a control shows may change while it is held down, and the click comes all the same: the text
// that was pressed has to be there still when it is let go (WebKit).

import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { test } from "node:test";
import { place } from "./screen.mjs";

const { make, setText } = await import("../../pwa/parts/dom.js");

test("a control keeps its text node when it says something else", () => {
  const button = make("button", { text: "Listen" });
  place().append(button);
  const pressed = button.firstChild;
  setText(button, "Stop listening");
  assert.equal(button.textContent, "Stop listening");
  assert.equal(button.firstChild, pressed);
});

test("setText takes the place of whatever was there", () => {
  for (const children of [[], ["one ", "two"], [make("b", { text: "one" })], [make("b", { text: "one" }), " two"]]) {
    const button = make("button", {}, ...children);
    setText(button, "three");
    assert.equal(button.textContent, "three");
    assert.equal(button.childNodes.length, 1);
  }
});

test("nothing but setText says something else in a control", () => {
  const pwa = new URL("../../pwa/", import.meta.url);
  const read = (end) => ["pages/", "parts/", "guide/"].flatMap((dir) => readdirSync(new URL(dir, pwa)).filter((name) => name.endsWith(end))
    .map((name) => ({ name, text: readFileSync(new URL(dir + name, pwa), "utf8") })));
  // Templates and their page share a name, but for those of lists.
  const controls = new Set(read(".html").flatMap(({ text }) => [...text.matchAll(/<(?:button|a|summary)\b[^>]*\bdata-ref="(\w+)"[^>]*>/g)].map((m) => m[1])));
  assert.ok(controls.size > 20, "the templates name their controls");
  const others = ["metal", "title"]; // of other templates, where they are no controls
  const found = read(".js").flatMap(({ name, text }) => [...text.matchAll(/(\w+)\.textContent = .*/g)]
    .filter((m) => (controls.has(m[1]) && !others.includes(m[1])) || /button$/i.test(m[1])).map((m) => `${name}: ${m[0]}`));
  assert.deepEqual(found, []);
});
