// @ts-check
/**
 * Calls for attention by sound, buzz and a flash of the whole screen. Browsers
 * let a page sound only after a tap, so arm() is called from one. iOS interrupts
 * what sounds, for a call or another app, and does not go on by itself; it has no buzz.
 */
import { soundFor } from "../browser/sound.js";
import { make } from "./dom.js";

export class Alarm {
  /** @type {AudioContext|null} */ #audio = null;

  /** Call in a tap's handler, so that a later ring is heard. */
  arm() {
    if (!this.#audio) {
      this.#audio = new AudioContext();
      this.#audio.onstatechange = () => this.#wake();
      document.addEventListener("visibilitychange", () => this.#wake());
    }
    this.#wake();
  }

  /** @param {string} text */
  ring(text) {
    navigator.vibrate?.([400, 200, 400, 200, 800]);
    const flash = make("div", { class: "flash", role: "alert", "data-ref": "flash", text, onclick: () => flash.remove() });
    document.body.append(flash);
    this.#wake().then(() => flash.isConnected && this.#beep()); // not long after it was seen
    setTimeout(() => flash.remove(), 8000);
  }

  /** A short click under the finger. */
  tick() {
    navigator.vibrate?.(30);
    this.#tone(1800, 0, 0.03, 0.2);
  }

  // Private

  /** Goes on after an interruption. While the phone does not let it, it stays silent. */
  async #wake() {
    const audio = this.#audio;
    if (audio && !/running|closed/.test(audio.state) && document.visibilityState === "visible") await audio.resume().catch(() => {});
  }

  #beep() {
    /** @type {OscillatorNode|null} */ let last = null;
    for (let i = 0; i < 4; i++) last = this.#tone(i % 2 ? 1320 : 880, i * 0.4, 0.3, 0.8);
    if (!last) return;
    soundFor("playback", "auto"); // not while the microphone listens
    last.onended = () => soundFor("auto", "playback");
  }

  /** @param {number} hertz @param {number} after @param {number} long @param {number} loud */
  #tone(hertz, after, long, loud) {
    const audio = this.#audio;
    if (audio?.state !== "running") return null;
    const tone = audio.createOscillator();
    const level = audio.createGain();
    tone.type = "square";
    tone.frequency.value = hertz;
    level.gain.value = loud;
    tone.connect(level).connect(audio.destination);
    tone.start(audio.currentTime + after);
    tone.stop(audio.currentTime + after + long);
    return tone;
  }
}
