// @ts-check
/**
 * Listens for the arc. The microphone's sound is reduced here to three figures
 * a frame; the detector that judges them is calc/listen, in the worker. Nothing
 * is recorded or sent anywhere.
 *
 * Events: "heard" with detail {state, level, running, arcs, hidden, sure}. sure is
 * false where the phone would not switch off its own sound tricks.
 */

import { soundFor } from "../browser/sound.js";

/** Samples a frame, and ms between frames: 2048 at 48 kHz, half overlapping. */
const frameSize = 2048;
const frameMs = 21;
/** How far the sound's own clock may be off the phone's before it is set anew, ms. */
const offClock = 1000;
/** Frames a batch. */
const batch = 6;
/** The bands, in Hz: calc/listen says why. */
const low = [1000, 3000];
const near = [4000, 7500];
const high = [4000, 14_000];

export class ArcListener extends EventTarget {
  /** @type {MediaStream|null} */ #stream = null;
  /** @type {AudioContext|null} */ #audio = null;
  /** @type {ReturnType<typeof setInterval>|undefined} */ #timer;
  /** @type {import("../types/calc.js").Frame[]} */ #frames = [];
  /** What goes along with the first frames of a start. @type {{reset: boolean, taught?: import("../types/calc.js").Taught, teach?: string}} */ #first = { reset: true };
  #isFirst = true;
  #sure = true;
  /** A start under way: the phone may ask for long whether the microphone may be used. @type {Promise<void>|null} */ #starting = null;

  /** @param {typeof import("../calc/calls.js").call} call */
  constructor(call) {
    super();
    this.call = call;
  }

  get on() {
    return this.#stream !== null;
  }

  /**
   * Call in a tap's handler; once more while it starts is the same start. Rejects if the phone does not give its microphone.
   * @param {{taught?: import("../types/calc.js").Taught, teach?: "begin"}} [how]  what a calibration cut taught; or that one begins
   */
  start(how) {
    this.#first = { reset: true, ...how };
    /** @type {Promise<void>} */
    const starting = (this.#starting ??= this.#start().finally(() => {
      if (this.#starting === starting) this.#starting = null;
    }));
    return starting;
  }

  /** Ends a calibration cut. Rejects, with what to do, if it taught nothing. */
  learn() {
    return this.call("listen", { frames: this.#frames.splice(0), reset: false, teach: "end" });
  }

  stop() {
    if (this.on) this.#starting = null; // the phone has been asked: the next start is another
    clearInterval(this.#timer);
    soundFor("auto", "play-and-record");
    for (const track of this.#stream?.getTracks() ?? []) track.stop();
    this.#audio?.close();
    this.#stream = this.#audio = null;
    this.#frames = [];
  }

  // Private

  async #start() {
    const plain = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };
    const stream = await navigator.mediaDevices.getUserMedia({ audio: plain });
    const kept = stream.getAudioTracks()[0]?.getSettings() ?? {};
    this.#sure = !kept.echoCancellation && !kept.noiseSuppression && !kept.autoGainControl;
    this.#stream = stream;
    soundFor("play-and-record");
    const audio = (this.#audio = new AudioContext());
    const analyser = audio.createAnalyser();
    analyser.fftSize = frameSize;
    analyser.smoothingTimeConstant = 0;
    audio.createMediaStreamSource(stream).connect(analyser);
    await audio.resume().catch((err) => this.#audio === audio && Promise.reject(err));
    if (this.#audio !== audio) return; // stopped meanwhile
    const bins = new Float32Array(analyser.frequencyBinCount);
    const width = audio.sampleRate / frameSize;
    this.#isFirst = true;
    let began = -Infinity; // of the sound, by the phone's clock
    this.#timer = setInterval(() => {
      analyser.getFloatFrequencyData(bins);
      const played = audio.currentTime * 1000; // a busy phone hears late: only the sound's own clock tells when it was
      if (!(Math.abs(Date.now() - began - played) < offClock)) began = Date.now() - played;
      this.#frames.push(frameOf(bins, width, Math.round(began + played)));
      if (this.#frames.length >= batch) this.#send();
    }, frameMs);
  }

  async #send() {
    const input = { frames: this.#frames.splice(0), ...(this.#isFirst ? this.#first : { reset: false }) };
    this.#isFirst = false;
    try {
      const report = await this.call("listen", input);
      if (this.on) this.dispatchEvent(new CustomEvent("heard", { detail: { ...report, sure: this.#sure } }));
    } catch {
      // The sums have not started yet: this batch is lost, the next may be heard.
    }
  }
}

/** @param {Float32Array} bins dB @param {number} width Hz a bin @param {number} at */
function frameOf(bins, width, at) {
  const [below, beneath, upper] = [low, near, high].map((band) => bandOf(bins, width, band));
  return { at, high: upper.level, low: below.level, flat: upper.flat, near: beneath.level, nearFlat: beneath.flat };
}

/** Mean power and flatness of a band, in dB. @param {Float32Array} bins @param {number} width @param {number[]} band */
function bandOf(bins, width, [from, to]) {
  let sum = 0;
  let db = 0;
  let n = 0;
  for (let i = Math.ceil(from / width); i <= Math.min(bins.length - 1, Math.floor(to / width)); i++) {
    const level = Math.max(-160, bins[i]); // silence is −Infinity
    sum += 10 ** (level / 10);
    db += level;
    n++;
  }
  const level = 10 * Math.log10(sum / n);
  return { level, flat: db / n - level };
}
