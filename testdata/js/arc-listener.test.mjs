// The microphone is opened once for however many taps, and is let go of whatever comes between.
import assert from "node:assert/strict";
import { test } from "node:test";
import { setGlobals } from "./globals.mjs";
import { place } from "./screen.mjs";
import { ownParts } from "./own.mjs";
import { turns } from "./turn.mjs";
import { CutPage } from "../../pwa/pages/cut.js";
import { ArcListener } from "../../pwa/parts/arc-listener.js";

/** A phone that asks, each time, whether the microphone may be used. */
function microphone(t) {
  const asked = [];
  const streams = [];
  const resumes = [];
  const allow = () => {
    for (const answer of asked.splice(0)) {
      const track = { live: true, stop: () => (track.live = false), getSettings: () => ({}) };
      streams.push(track);
      answer.resolve({ getAudioTracks: () => [track], getTracks: () => [track] });
    }
  };
  const deny = () => asked.splice(0).forEach(({ reject }) => reject(new Error("no")));
  let isSlow = false;
  class AudioContext {
    sampleRate = 48_000;
    #reject = () => {};
    createAnalyser = () => ({ frequencyBinCount: 1024, getFloatFrequencyData() {} });
    createMediaStreamSource = () => ({ connect() {} });
    resume = () => (isSlow ? new Promise((resolve, reject) => (resumes.push(resolve), (this.#reject = () => reject(new Error("closed"))))) : Promise.resolve());
    close = () => this.#reject();
  }
  let framed = 0;
  t.mock.method(globalThis, "setInterval", (_, ms) => (ms < 100 ? ++framed : 0));
  setGlobals(t, { AudioContext, navigator: { mediaDevices: { getUserMedia: () => new Promise((resolve, reject) => asked.push({ resolve, reject })) } } });
  return { asked, allow, deny, live: () => streams.filter(({ live }) => live).length, listens: () => framed, beSlow: (slow = true) => (isSlow = slow), wake: () => resumes.splice(0).forEach((r) => r()) };
}

test("two taps while the phone asks are one start", async (t) => {
  const phone = microphone(t);
  const ear = new ArcListener(async () => ({}));
  const both = [ear.start(), ear.start()];
  assert.equal(phone.asked.length, 1);
  phone.allow();
  await Promise.all(both);
  assert.deepEqual([phone.live(), phone.listens()], [1, 1]);
  ear.stop();
  assert.equal(phone.live(), 0);
  const again = ear.start();
  phone.allow();
  await again;
  assert.deepEqual([phone.live(), ear.on], [1, true]);
});

test("after a no it may be asked again", async (t) => {
  const phone = microphone(t);
  const ear = new ArcListener(async () => ({}));
  const no = assert.rejects(ear.start());
  phone.deny();
  await no;
  const yes = ear.start();
  phone.allow();
  await yes;
  assert.equal(ear.on, true);
});

for (const how of ["closes", "wakes late"]) {
  test(`a stop before the sound runs is a stop, and no trouble, where it ${how}`, async (t) => {
    const phone = microphone(t);
    const ear = new ArcListener(async () => ({}));
    phone.beSlow();
    const starting = ear.start();
    phone.allow();
    await turns();
    assert.equal(ear.on, true);
    ear.stop();
    phone.beSlow(false);
    const again = ear.start();
    phone.allow();
    if (how === "wakes late") phone.wake();
    await Promise.all([starting, again]);
    assert.deepEqual([phone.live(), phone.listens(), ear.on], [1, 1, true]);
  });
}

/** Gives a test Cut, open in a document that is looked at. */
const withCut = (body) => async (t) => {
  const phone = microphone(t);
  const main = place();
  const life = new AbortController();
  const journal = Object.assign(new EventTarget(), { now: Date.now, seen: () => null, keepSeen() {}, read: async () => ({ views: { now: null, rigs: null }, arc: {}, offset: 0, lastArc: null, device: "a" }) });
  const asked = [];
  const entered = [];
  const settings = Object.assign(new EventTarget(), { values: { rig: "rig-1", watchMinutes: 60, units: "metric", watcher: "", taught: { other: { level: 1 } } }, set(v) { Object.assign(this.values, v); } });
  const answers = { next: async () => ({}) };
  Object.assign(journal, { tap: async (entry) => (entered.push(...[entry].flat()), { ids: ["e"] }) });
  const cut = new CutPage(main, /** @type {any} */ ({
    journal, life: life.signal, ...ownParts(), alarm: { arm() {} }, call: async (name, input) => (name === "listen" && asked.push(input), answers.next()),
    settings, toasts: { show() {} },
  }));
  const look = (state) => Object.defineProperty(document, "visibilityState", { value: state, configurable: true });
  look("visible");
  await cut.start();
  try {
    await body({ phone, cut, look, life, asked, entered, settings, answers, main, listen: () => main.querySelector("[data-action=listen]").click(), note: () => main.querySelector("[data-ref=earNote]") });
  } finally {
    life.abort();
    cut.stop();
    delete document.visibilityState;
  }
};

test("Listen tapped twice listens once", withCut(async ({ phone, cut, listen }) => {
  listen();
  listen();
  phone.allow();
  await turns();
  assert.deepEqual([phone.live(), phone.listens(), cut.ear.on], [1, 1, true]);
}));

for (const [what, go] of [["hides", ({ look }) => look("hidden")], ["is left", ({ life }) => life.abort()]]) {
  test(`a page that ${what} while the phone asks does not listen`, withCut(async (at) => {
    at.listen();
    go(at);
    at.phone.allow();
    await turns();
    assert.deepEqual([at.phone.live(), at.cut.ear.on], [0, false]);
    assert.equal(at.note().textContent, "");
  }));
}

/** Has the torch taught, up to the tap that ends it. */
async function teach(at) {
  at.main.querySelector("[data-action=teach]").click();
  at.phone.allow();
  await turns();
}

const taught = { level: -50, tilt: 3, flat: -2.5, drop: 10, floor: -90 };

test("a cut teaches this rig on this phone, and its own arc is kept", withCut(async (at) => {
  await teach(at);
  assert.match(at.main.querySelector("[data-ref=listen]").textContent, /learn/);
  at.answers.next = async () => ({ taught, arcs: [{ start: 1000, stop: 11000, starts: 1 }] });
  at.listen();
  await turns();
  assert.equal(at.asked.at(-1).teach, "end");
  assert.deepEqual(at.settings.values.taught, { other: { level: 1 }, "rig-1": taught });
  assert.deepEqual(at.entered.filter((e) => e.kind === "arc.run").map((e) => e.body.stop - e.body.start), [10_000]);
  assert.match(at.note().textContent, /Learned from/);
  assert.equal(at.cut.ear.on, true);
  assert.match(at.main.querySelector("[data-ref=listen]").textContent, /Stop/);
}));

test("a cut that teaches nothing says what to do, and sets nothing", withCut(async (at) => {
  await teach(at);
  at.answers.next = () => Promise.reject({ kind: "refused", msg: "no arc stood out", hint: "Stop what is loud." });
  at.listen();
  await turns();
  assert.deepEqual(Object.keys(at.settings.values.taught), ["other"]);
  assert.match(at.note().textContent, /Nothing was learned.*no arc stood out.*Stop what is loud/);
  assert.deepEqual([at.cut.ear.on, at.entered.length], [false, 0]);
}));

test("what hides an arc is told, also when listening ends", withCut(async (at) => {
  at.listen();
  at.phone.allow();
  await turns();
  at.cut.ear.dispatchEvent(Object.assign(new Event("heard"), { detail: { state: "masked", level: 1, running: 0, arcs: [], hidden: 14_000, sure: true } }));
  assert.match(at.note().textContent, /Masked for 0:14|Masked for 14/);
  at.cut.stop();
  assert.match(at.note().textContent, /by hand/);
}));

test("an arc that goes on behind noise is no second start", withCut(async (at) => {
  at.listen();
  at.phone.allow();
  await turns();
  at.cut.ear.dispatchEvent(Object.assign(new Event("heard"), { detail: { state: "quiet", level: 0, running: 0, arcs: [{ start: 1, stop: 5001, starts: 0 }], hidden: 0, sure: true } }));
  await turns();
  assert.deepEqual(at.entered.filter((e) => e.kind === "arc.run").map((e) => e.body.starts), [0]);
}));
