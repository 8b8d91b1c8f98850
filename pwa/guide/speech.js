// @ts-check
// Reads words aloud with the phone's own voice, one sentence at a time (a long
// text is cut off by some phones). Nothing is sent: only voices that the phone
// itself holds are used.

export class GuideSpeech {
  #synth;
  #lang;
  #job = Symbol("none");

  /**
   * @param {SpeechSynthesis | undefined} synth
   * @param {string} [lang]
   */
  constructor(synth, lang = "en") {
    this.#synth = synth;
    this.#lang = lang;
  }

  /** Whether the phone has a voice of its own for the language. */
  get available() {
    return this.#voice() !== undefined;
  }

  /**
   * Calls back once the phone's list of voices may have changed.
   * @param {() => void} then
   * @param {AbortSignal} signal
   */
  whenVoicesCome(then, signal) {
    this.#synth?.addEventListener?.("voiceschanged", then, { signal });
  }

  /**
   * Reads the texts in order; resolves when the last is said or stop is called.
   * @param {string[]} texts
   */
  async read(texts) {
    this.stop();
    const job = (this.#job = Symbol("read"));
    for (const sentence of texts.flatMap(sentences)) {
      if (job !== this.#job) return;
      await this.#say(sentence);
    }
  }

  stop() {
    this.#job = Symbol("none");
    this.#synth?.cancel();
  }

  // Private

  #voice() {
    const voices = this.#synth?.getVoices() ?? [];
    return voices.find((v) => v.localService && v.lang.toLowerCase().startsWith(this.#lang));
  }

  /** @param {string} words */
  #say(words) {
    const voice = this.#voice();
    if (!this.#synth || !voice) return Promise.resolve();
    const utterance = new SpeechSynthesisUtterance(words);
    utterance.voice = voice;
    utterance.lang = voice.lang;
    return new Promise((resolve) => {
      utterance.onend = utterance.onerror = () => resolve(undefined);
      this.#synth?.speak(utterance);
    });
  }
}

/** @param {string} text */
function sentences(text) {
  return text.replace(/([.!?:])\s+/g, "$1\0").split("\0").map((s) => s.trim()).filter(Boolean);
}
