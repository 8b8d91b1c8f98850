// The time of day is put together as the phone writes it, or as its browser does.
import assert from "node:assert/strict";
import { test } from "node:test";
import { clockTime, formOf } from "../../pwa/parts/times.js";

const languages = ["en-US", "en-GB", "de", "fi", "it", "fr-CA", "es-MX", "ja", "ko", "ar-EG", "fa", "bn", "hi", "zh-TW", "en-IN"];

test("what is put together is what the browser would write, at each minute of a day", () => {
  const minutes = Array.from({ length: 24 * 60 }, (_, minute) => new Date(2026, 5, 1, 0, minute));
  const put = [];
  for (const language of languages) {
    const format = (date) => date.toLocaleTimeString([language], { hour: "2-digit", minute: "2-digit" });
    const form = formOf(format);
    if (!form) continue;
    put.push(language);
    const two = (n) => String(n).padStart(2, "0");
    for (const date of minutes) {
      const hours = date.getHours();
      assert.equal(two(form.half ? hours % 12 || 12 : hours) + form.apart + two(date.getMinutes()) + (form.half?.[hours < 12 ? 0 : 1] ?? ""), format(date), language);
    }
  }
  assert.ok(["en-US", "en-GB", "de", "fi"].every((language) => put.includes(language)), put.join());
  assert.ok(!put.includes("ar-EG"), "other digits are not put together");
});

test("the phone's own times", () => {
  for (const hours of [0, 9, 12, 23]) {
    const date = new Date(2026, 5, 1, hours, 7);
    assert.equal(clockTime(date.getTime()), date.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" }));
  }
});

test("another form of the same language is found out once nobody waits", async () => {
  const { navigator } = globalThis;
  globalThis.navigator = { language: "en-US" };
  const kept = new Map([["kerfside.clock", JSON.stringify(["en-US", { apart: "h", half: null }])]]);
  globalThis.localStorage = { getItem: (key) => kept.get(key) ?? null, setItem: (key, value) => kept.set(key, value) };
  try {
    const fresh = await import("../../pwa/parts/times.js?fresh");
    const noon = new Date(2026, 5, 1, 12, 7);
    assert.equal(fresh.clockTime(noon.getTime()), "12h07");
    fresh.learnClock();
    assert.equal(fresh.clockTime(noon.getTime()), noon.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" }));
    assert.notEqual(JSON.parse(kept.get("kerfside.clock"))[1].apart, "h");
  } finally {
    delete globalThis.localStorage;
    globalThis.navigator = navigator;
  }
});
