// @ts-check
/**
 * Calls for attention by sound, buzz and a flash of the whole screen. Browsers
 * let a page sound only after a tap, so arm() is called from one.
 */
import { make } from "./dom.js";

export class Alarm {
  /** @type {AudioContext|null} */ #audio = null;

  /** Call in a tap's handler, so that a later ring is heard. */
  arm() {
    this.#audio ??= new AudioContext();
    if (this.#audio.state === "suspended") this.#audio.resume();
  }

  /** @param {string} text */
  ring(text) {
    navigator.vibrate?.([400, 200, 400, 200, 800]);
    this.#beep();
    const flash = make("div", { class: "flash", role: "alert", "data-ref": "flash", text, onclick: () => flash.remove() });
    document.body.append(flash);
    setTimeout(() => flash.remove(), 8000);
  }

  /** A short click under the finger. */
  tick() {
    navigator.vibrate?.(30);
    this.#tone(1800, 0, 0.03, 0.2);
  }

  // Private

  #beep() {
    for (let i = 0; i < 4; i++) this.#tone(i % 2 ? 1320 : 880, i * 0.4, 0.3, 0.8);
  }

  /** @param {number} hertz @param {number} after @param {number} long @param {number} loud */
  #tone(hertz, after, long, loud) {
    const audio = this.#audio;
    if (!audio || audio.state !== "running") return;
    const tone = audio.createOscillator();
    const level = audio.createGain();
    tone.type = "square";
    tone.frequency.value = hertz;
    level.gain.value = loud;
    tone.connect(level).connect(audio.destination);
    tone.start(audio.currentTime + after);
    tone.stop(audio.currentTime + after + long);
  }
}
