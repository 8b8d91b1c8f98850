// @ts-check
// A guide on the screen: its cover with the cautions, then one step a screen,
// then what is left to do; or, for a card, everything on one page.
//
// It speaks upward by events that bubble, and stores nothing itself:
//
//	guide:step     {guide, step}                            shown now; "" the cover, "end" the end
//	guide:answer   {guide, step, result, readings, slot}    answered; who hears it may set kept, a promise
//	guide:reading  {guide, step, readings, slot}            read, perhaps not yet answered
//	guide:fitted   {guide, step, slot}                      a new part went in
//	guide:calls    {guide}                                  wants to enter numbers to call
//	guide:close    {guide}                                  left at the end
//
// Readings are whole numbers as the journal keeps them.
import { coverScreen } from "./cover.js";
import { clone, fill, ref } from "./dom.js";
import { endScreen, leavesSomething } from "./end.js";
import { guidePaper } from "./paper.js";
import { GuideSpeech } from "./speech.js";
import { setText } from "../parts/dom.js";
import { GuideStep } from "./step.js";
import { english } from "../words/guides.js";

/** @typedef {import("./shapes.js").Guide} Guide */
/** @typedef {import("./shapes.js").Answer} Answer */
/** @typedef {import("./shapes.js").GuideDeps} GuideDeps */

export class GuidePage {
  /** A second tap within this time, in ms, and this near, in px, is the first one's echo. */
  static echo = { time: 300, distance: 24 };

  #element;
  #deps;
  #words;
  #speech;
  /** @type {Guide | null} */
  #guide = null;
  /** @type {Map<string, Answer>} */
  #answers = new Map();
  /** @type {import("./shapes.js").Known} */
  #known = {};
  /** @type {{name: string, number: string}[]} */
  #calls = [];
  #at = -1;
  #lastTap = { time: -Infinity, x: 0, y: 0 };
  /** The step shown. @type {GuideStep | null} */
  #step = null;
  /** All that are shown: that step, or the topics of a card. @type {GuideStep[]} */
  #steps = [];

  /**
   * @param {HTMLElement} element emptied and filled by show
   * @param {GuideDeps} deps
   */
  constructor(element, deps) {
    this.#element = element;
    this.#deps = deps;
    this.#words = deps.words ?? english;
    this.#speech = new GuideSpeech(deps.speech);
  }

  /** @param {AbortSignal} signal ends all that start begins */
  start(signal) {
    this.#element.addEventListener("click", (event) => this.#click(event), { signal });
    addEventListener("beforeprint", () => this.#onPaper(), { signal });
    addEventListener("afterprint", () => this.#offPaper(), { signal });
    addEventListener("pagehide", () => this.#hush(), { signal }); // some browsers read on for a page that is left
    this.#speech.whenVoicesCome(() => this.#showSpeak(), signal);
    signal.addEventListener("abort", () => this.#speech.stop());
  }

  /**
   * Shows a guide, at a step or on its cover. Answers given before, on this
   * phone or another, come in by step id.
   * @param {Guide} guide
   * @param {{step?: string, answers?: Record<string, Answer>,
   *   calls?: {name: string, number: string}[]}} [state]
   */
  show(guide, { step = "", answers = {}, calls = [] } = {}) {
    this.#guide = guide;
    this.#answers = new Map(Object.entries(answers));
    this.#calls = calls;
    this.#element.replaceChildren(clone("guide-page"));
    this.#showSpeak();
    if (guide.form === "card") {
      this.#turnTo(-1);
      if (step) document.getElementById(step)?.scrollIntoView();
      return;
    }
    this.#turnTo(step === "end" ? guide.steps.length : guide.steps.findIndex((s) => s.id === step));
  }

  /**
   * Takes in answers that came from elsewhere while the guide is open.
   * @param {Record<string, Answer>} answers
   */
  restore(answers) {
    const late = Object.entries(answers).filter(([id, answer]) => JSON.stringify(answer) !== JSON.stringify(this.#answers.get(id)));
    for (const [id, answer] of late) this.#answers.set(id, answer);
    if (late.length > 0 && !this.#step) this.#turnTo(this.#at, { quiet: true });
    this.#step?.waitFor(this.#first());
  }

  /** Takes in what is known of the rig's sizes, which may come late. @param {import("./shapes.js").Known} known */
  know(known) {
    this.#known = known;
    for (const step of this.#steps) step.know(known);
  }

  // Private

  /** @param {MouseEvent} event */
  #click(event) {
    if (!(event.target instanceof Element)) return;
    const link = event.target.closest("a");
    if (link) return this.#follow(link, event);
    const button = event.target.closest("[data-action]");
    if (!(button instanceof HTMLElement) || !this.#guide) return;
    if (this.#isEcho(event)) return;
    const { action, result, key, step, slot } = button.dataset;
    switch (action) {
      case "back": return this.#back();
      case "next": return this.#next();
      case "go": return this.#turnTo(this.#guide.steps.findIndex((s) => s.id === step));
      case "answer": return void this.#answer(result ?? "");
      case "read": return void this.#read(key ?? "");
      case "speak": return void this.#speak();
      case "fitted": return this.#fitted(step ?? "", slot);
      case "print": return print();
      case "calls": return void this.#emit("guide:calls", {});
    }
  }

  /**
   * Whether the tap is the echo of the one before: a glove that bounced would
   * else answer the next step too. Keys (detail 0) do not bounce.
   * @param {MouseEvent} event
   */
  #isEcho({ detail, timeStamp: time, clientX: x, clientY: y }) {
    if (detail === 0) return false;
    const last = this.#lastTap;
    this.#lastTap = { time, x, y };
    return time - last.time < GuidePage.echo.time && Math.hypot(x - last.x, y - last.y) < GuidePage.echo.distance;
  }

  /**
   * A link to another step of this guide turns to it; all others are the app's.
   * @param {HTMLAnchorElement} link @param {Event} event
   */
  #follow(link, event) {
    const guide = /** @type {Guide} */ (this.#guide);
    const at = link.pathname === location.pathname ? guide.steps.findIndex((s) => `#${s.id}` === link.hash) : -1;
    if (at < 0 || guide.form === "card") return;
    event.preventDefault();
    this.#turnTo(at);
  }

  #back() {
    this.#turnTo(Math.max(-1, this.#at - 1));
  }

  #next() {
    const guide = /** @type {Guide} */ (this.#guide);
    if (this.#at >= guide.steps.length) return void this.#emit("guide:close", {});
    this.#turnTo(this.#at < 0 ? this.#firstOpen() : this.#at + 1);
  }

  /** Answers, and turns to the next step once the answer is kept. @param {string} result */
  async #answer(result) {
    const step = /** @type {GuideStep} */ (this.#step);
    const { id, slot } = /** @type {Guide} */ (this.#guide).steps[this.#at];
    step.answer(result);
    this.#answers.set(id, structuredClone(step.given));
    const detail = this.#emit("guide:answer", { step: id, result, readings: { ...step.given.readings }, slot });
    await detail.kept;
    if (!leavesSomething(result) && step === this.#step) this.#turnTo(this.#at + 1);
  }

  /**
   * A new part went in: it is good, and its old readings are not its own.
   * @param {string} step @param {string} [slot]
   */
  #fitted(step, slot) {
    this.#emit("guide:fitted", { step, slot });
    this.#answers.set(step, { result: "good" });
    this.#emit("guide:answer", { step, result: "good", readings: {}, slot });
    this.#turnTo(this.#at, { quiet: true });
  }

  /** @param {string} key */
  async #read(key) {
    const step = /** @type {GuideStep} */ (this.#step);
    const { id, slot } = /** @type {Guide} */ (this.#guide).steps[this.#at];
    if (!(await step.read(key))) return;
    this.#answers.set(id, structuredClone(step.given));
    this.#emit("guide:reading", { step: id, readings: { ...step.given.readings }, slot });
  }

  async #speak() {
    const button = ref(this.#element, "speak");
    if (button.getAttribute("aria-pressed") === "true") return this.#hush();
    button.setAttribute("aria-pressed", "true");
    setText(button, this.#words.hush);
    await this.#speech.read(this.#step ? this.#step.spoken() : [ref(this.#element, "screen").innerText]);
    this.#hush();
  }

  /** The whole guide, for the printer. */
  #onPaper() {
    this.#offPaper();
    if (this.#guide) this.#element.append(guidePaper(this.#guide, this.#deps, { answers: this.#answers, known: this.#known }));
  }

  #offPaper() {
    this.#element.querySelector(".guide-paper")?.remove();
  }

  #hush() {
    this.#speech.stop();
    const button = ref(this.#element, "speak");
    button.setAttribute("aria-pressed", "false");
    setText(button, this.#words.speak);
  }

  #showSpeak() {
    const button = this.#element.querySelector('[data-ref="speak"]');
    if (button instanceof HTMLElement) button.hidden = !this.#speech.available;
  }

  /** The first step without an answer; the first of all if none is left. */
  #firstOpen() {
    const open = /** @type {Guide} */ (this.#guide).steps.findIndex((s) => !this.#answers.get(s.id)?.result);
    return Math.max(0, open);
  }

  /**
   * @param {number} at -1 the cover, a step's place, or the number of steps for the end
   * @param {{quiet?: boolean}} [how] quiet: neither focus nor event
   */
  #turnTo(at, { quiet = false } = {}) {
    const guide = /** @type {Guide} */ (this.#guide);
    this.#hush();
    this.#at = at;
    this.#step = null;
    this.#steps = [];
    const screen = ref(this.#element, "screen");
    const [content, place, id] = at < 0
      ? [this.#cover(guide), this.#words.cover, ""]
      : at >= guide.steps.length
        ? [endScreen(guide, this.#state()), this.#words.end, "end"]
        : [this.#stepScreen(guide), this.#words.place(at + 1, guide.steps.length), guide.steps[at].id];
    screen.replaceChildren(content);
    ref(this.#element, "place").hidden = guide.form === "card";
    fill(this.#element, { place, back: this.#words.back, next: this.#nextWord(guide) });
    ref(this.#element, "turn").hidden = at < 0;
    if (quiet) return;
    ref(content, "title").focus({ preventScroll: true });
    this.#element.firstElementChild?.scrollIntoView({ block: "start" });
    this.#emit("guide:step", { step: id });
  }

  /** What the cover and the end are made from. */
  #state() {
    return { answers: this.#answers, deps: this.#deps, words: this.#words, known: this.#known };
  }

  /** @param {Guide} guide */
  #cover(guide) {
    const { screen, topics } = coverScreen(guide, { ...this.#state(), calls: this.#calls, begin: this.#nextWord(guide) });
    this.#steps = topics;
    return screen;
  }

  /** @param {Guide} guide */
  #nextWord({ steps }) {
    const open = this.#firstOpen();
    if (this.#at < 0) return open === 0 ? this.#words.start : this.#words.resume(open + 1);
    if (this.#at >= steps.length) return this.#words.close;
    return this.#at === steps.length - 1 ? this.#words.finish : this.#words.next;
  }

  /**
   * What is still to be done before a hand goes to a part: the guide that was
   * taken in before that step, at its first step that is not done.
   */
  #first() {
    const { steps, taken = [] } = /** @type {Guide} */ (this.#guide);
    for (const { title, steps: before } of steps[this.#at].slot ? taken : []) {
      const open = before.find((of) => this.#answers.get(of)?.result !== "done");
      if (open && steps.findIndex((s) => s.id === open) < this.#at) return { title, step: open };
    }
    return undefined;
  }

  /** @param {Guide} guide */
  #stepScreen(guide) {
    const step = guide.steps[this.#at];
    this.#step = new GuideStep(step, this.#deps, { given: this.#answers.get(step.id), known: this.#known, first: this.#first() });
    this.#steps = [this.#step];
    return this.#step.element;
  }

  /** @param {string} type @param {Record<string, any>} detail @returns {Record<string, any>} what those who heard it made of the detail */
  #emit(type, detail) {
    const told = { guide: this.#guide?.id, ...detail };
    this.#element.dispatchEvent(new CustomEvent(type, { bubbles: true, detail: told }));
    return told;
  }
}
