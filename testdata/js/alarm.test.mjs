// What iOS does to sound: it interrupts a page's audio for a call, leaves it so, and keeps a page silent
// while the mute switch is on, unless the sound is for playback (W3C, Web Audio and Audio Session).

import assert from "node:assert/strict";
import { test } from "node:test";
import "./screen.mjs";
import { setGlobals } from "./globals.mjs";
import { turns } from "./turn.mjs";
import { Alarm } from "../../pwa/parts/alarm.js";
import { soundFor } from "../../pwa/browser/sound.js";

const { document } = globalThis;

/** A phone whose audio is in a state, and which lets it go on or not. */
function phone(t, { state = "suspended", lets = true, session = /** @type {{type: string}|undefined} */ ({ type: "auto" }) } = {}) {
  const page = Object.assign(new EventTarget(), { visibilityState: "visible", body: document.body, createElement: (name) => document.createElement(name) });
  const seen = { page, tones: [], audio: null, lets, session };
  class AudioContext extends EventTarget {
    state = state;
    currentTime = 0;
    destination = {};
    onstatechange = null;
    constructor() {
      super();
      seen.audio = this;
    }
    be(now) {
      this.state = now;
      this.onstatechange?.();
    }
    async resume() {
      if (!seen.lets) throw new DOMException("not now", "InvalidStateError");
      if (this.state !== "running") this.be("running");
    }
    createOscillator() {
      const tone = { frequency: {}, connect: () => tone, start: () => seen.tones.push(tone), stop() {}, type: "" };
      return tone;
    }
    createGain = () => ({ gain: {}, connect() {} });
  }
  t.mock.timers.enable({ apis: ["setTimeout"] });
  setGlobals(t, { AudioContext, document: page, navigator: { audioSession: session } }); // and no vibrate
  return seen;
}

test("a tap lets it sound, also after a call", async (t) => {
  const seen = phone(t);
  const alarm = new Alarm();
  alarm.arm();
  await turns();
  assert.equal(seen.audio.state, "running");
  seen.lets = false; // while the call lasts
  seen.audio.be("interrupted");
  await turns();
  assert.equal(seen.audio.state, "interrupted");
  seen.lets = true;
  alarm.arm();
  await turns();
  assert.equal(seen.audio.state, "running");
});

test("back on the page it goes on by itself, and rings", async (t) => {
  const seen = phone(t);
  const alarm = new Alarm();
  alarm.arm();
  await turns();
  seen.page.visibilityState = "hidden";
  seen.audio.be("interrupted");
  await turns();
  assert.equal(seen.audio.state, "interrupted", "it does not fight with what interrupts it");
  seen.page.visibilityState = "visible";
  seen.page.dispatchEvent(new Event("visibilitychange"));
  await turns();
  assert.equal(seen.audio.state, "running");
  alarm.ring("over");
  await turns();
  assert.equal(seen.tones.length, 4);
});

test("it rings from an interruption, and where nothing lets it sound it still flashes", async (t) => {
  const seen = phone(t);
  const alarm = new Alarm();
  alarm.arm();
  await turns();
  seen.audio.state = "interrupted"; // nobody said so
  alarm.ring("over");
  await turns();
  assert.equal(seen.tones.length, 4);
  seen.lets = false;
  seen.audio.state = "interrupted";
  alarm.ring("again");
  await turns();
  assert.equal(seen.tones.length, 4);
});

test("it sounds with the mute switch on, and leaves the phone as it was", async (t) => {
  const seen = phone(t);
  const alarm = new Alarm();
  alarm.arm();
  alarm.ring("over");
  await turns();
  assert.equal(seen.session?.type, "playback");
  seen.tones.at(-1).onended();
  assert.equal(seen.session?.type, "auto");
});

test("it does not take the microphone away from who listens", async (t) => {
  const seen = phone(t);
  const alarm = new Alarm();
  alarm.arm();
  soundFor("play-and-record");
  alarm.ring("over");
  await turns();
  seen.tones.at(-1).onended();
  assert.equal(seen.session?.type, "play-and-record");
  soundFor("auto", "play-and-record");
  assert.equal(seen.session?.type, "auto");
});

test("without an audio session, and before any tap, it only flashes", async (t) => {
  const seen = phone(t, { session: undefined });
  const alarm = new Alarm();
  alarm.ring("over");
  await turns();
  assert.deepEqual([seen.tones.length, seen.audio], [0, null]);
  alarm.arm();
  alarm.ring("over");
  alarm.tick();
  await turns();
  assert.ok(seen.tones.length >= 4);
});
