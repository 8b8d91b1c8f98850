// @ts-check
// A guide on the screen: its cover with the cautions, then one step a screen,
// then what is left to do; or, for a card, everything on one page.
//
// It speaks upward by events that bubble, and stores nothing itself:
//
//	guide:step     {guide, step}                            shown now; "" the cover, "end" the end
//	guide:answer   {guide, step, result, readings, slot, left}    answered; left: the number of the first step
//	                                                        without an answer, 0 for none; who hears it may set kept, a promise
//	guide:reading  {guide, step, readings, slot}            read, and not yet answered; what is answered is told again
//	guide:fitted   {guide, step, slot}                      a new part went in
//	guide:calls    {guide}                                  wants to enter numbers to call
//	guide:close    {guide}                                  left at the end
//
// Readings are whole numbers as the journal keeps them.
import { clone, onActions, refs, emit } from "../parts/dom.js";
import { inertWhile } from "../parts/inert-while.js";
import { say } from "../words/words.js";
import { coverScreen } from "./cover.js";
import { endScreen } from "./end.js";
import { guidePaper } from "./paper.js";
import { GuideSpeech } from "./speech.js";
import { GuideStep, leavesSomething } from "./step.js";

/** @typedef {import("./shapes.js").Guide} Guide */
/** @typedef {import("./shapes.js").Answer} Answer */
/** @typedef {import("./shapes.js").GuideDeps} GuideDeps */

export class GuideView {
  /**
   * A second tap within this time, in ms, and this near, in px, is the first one's echo. What a
   * step brings to the place of the last answer is deaf for a moment as well.
   */
  static echo = { time: 300, distance: 24 };

  #element;
  #deps;
  /** What the frame around each screen refers to. @type {import("../parts/dom.js").Refs} */
  #frame = {};
  #speech;
  /** @type {Guide | null} */
  #guide = null;
  /** @type {Map<string, Answer>} */
  #answers = new Map();
  /** @type {import("./shapes.js").Known} */
  #known = {};
  /** @type {import("./shapes.js").TakenReadings} */
  #taken = {};
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
    this.#speech = new GuideSpeech(deps.speech);
  }

  /** @param {AbortSignal} signal ends all that start begins */
  start(signal) {
    this.#element.addEventListener("click", (event) => this.#follow(event));
    this.#act({
      back: () => this.#back(),
      next: () => this.#next(),
      go: ({ step }) => this.#turnTo(this.#placeOf(step)),
      answer: ({ result }) => this.#answer(result ?? ""),
      read: ({ key }) => this.#read(key ?? ""),
      speak: () => this.#speak(),
      fitted: ({ step, slot }) => this.#fitted(step ?? "", slot),
      print: () => print(),
      calls: () => this.#emit("guide:calls", {}),
    });
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
    const frame = clone("guide-page");
    this.#frame = refs(frame);
    this.#element.replaceChildren(frame);
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
   * @param {Record<string, Answer>} answers @param {string[]} [gone]  steps whose answers hold no more
   */
  restore(answers, gone = []) {
    const dropped = gone.filter((id) => this.#answers.delete(id)).length;
    const late = Object.entries(answers).filter(([id, answer]) => JSON.stringify(answer) !== JSON.stringify(this.#answers.get(id)));
    for (const [id, answer] of late) this.#answers.set(id, answer);
    if (late.length + dropped > 0 && !this.#step) this.#turnTo(this.#at, { quiet: true });
    const here = late.find(([id]) => id === this.#guide?.steps[this.#at]?.id);
    if (here) this.#step?.restore(here[1]);
    this.#step?.waitFor(this.#first());
  }

  /**
   * Takes in what is known of the rig's sizes, and was read off its parts today, which may come late.
   * @param {import("./shapes.js").Known} known @param {import("./shapes.js").TakenReadings} [taken]
   */
  know(known, taken = {}) {
    [this.#known, this.#taken] = [known, taken];
    for (const step of this.#steps) step.know(known, taken);
  }

  // Private

  /** Does what the controls say, but not for the echo of a tap. @param {Record<string, (said: DOMStringMap) => unknown>} actions */
  #act(actions) {
    const once = (/** @type {(said: DOMStringMap) => unknown} */ action) => (/** @type {HTMLElement} */ el, /** @type {MouseEvent} */ event) => this.#isEcho(event) || action(el.dataset);
    onActions(this.#element, Object.fromEntries(Object.entries(actions).map(([name, action]) => [name, once(action)])));
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
    return time - last.time < GuideView.echo.time && Math.hypot(x - last.x, y - last.y) < GuideView.echo.distance;
  }

  /** A link to another step of this guide turns to it; all others are the app's. @param {Event} event */
  #follow(event) {
    const link = /** @type {HTMLElement} */ (event.target).closest("a");
    if (!link || link.pathname !== location.pathname || this.#guide?.form === "card") return;
    const at = this.#placeOf(link.hash.slice(1));
    if (at < 0) return;
    event.preventDefault();
    this.#turnTo(at);
  }

  /** The place of a step, -1 if there is none. @param {string} [id] */
  #placeOf(id) {
    return /** @type {Guide} */ (this.#guide).steps.findIndex((s) => s.id === id);
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
    const detail = this.#emit("guide:answer", { step: id, result, readings: { ...step.given.readings }, slot, left: this.#left });
    await detail.kept;
    if (!leavesSomething(result) && step === this.#step) this.#turnTo(this.#after(this.#at));
  }

  /** The place after a step: what was answered before is left out where something behind it was not. @param {number} at */
  #after(at) {
    const open = /** @type {Guide} */ (this.#guide).steps.findIndex(({ id }, i) => i > at && !this.#answers.get(id)?.result);
    return open < 0 ? at + 1 : open;
  }

  /** The number of the first step without an answer, 0 for none. */
  get #left() {
    return this.#after(-1) === 0 && this.#answers.get(/** @type {Guide} */ (this.#guide).steps[0].id)?.result ? 0 : this.#after(-1) + 1;
  }

  /**
   * A new part went in: it is good, and its old readings are not its own.
   * @param {string} step @param {string} [slot]
   */
  #fitted(step, slot) {
    this.#emit("guide:fitted", { step, slot });
    this.#answers.set(step, { result: "good" });
    this.#emit("guide:answer", { step, result: "good", readings: {}, slot, left: this.#left });
    if (this.#step) this.#turnTo(this.#after(this.#at));
    else this.#turnTo(this.#at, { quiet: true });
  }

  /** @param {string} key */
  async #read(key) {
    const step = /** @type {GuideStep} */ (this.#step);
    const { id, slot } = /** @type {Guide} */ (this.#guide).steps[this.#at];
    if (!(await step.read(key))) return;
    this.#answers.set(id, structuredClone(step.given));
    const { result, readings } = structuredClone(step.given);
    if (result) this.#emit("guide:answer", { step: id, result, readings, slot, left: this.#left }); // it was stored without the reading
    else this.#emit("guide:reading", { step: id, readings, slot });
  }

  async #speak() {
    const { speak, screen } = this.#frame;
    if (speak.getAttribute("aria-pressed") === "true") return this.#hush();
    speak.setAttribute("aria-pressed", "true");
    speak.setAttribute("aria-label", say("guide.hush"));
    await this.#speech.read(this.#step ? this.#step.spoken() : [screen.innerText]);
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
    const { speak } = this.#frame;
    if (!speak) return; // nothing is shown yet
    speak.setAttribute("aria-pressed", "false");
    speak.setAttribute("aria-label", say("guide.speak"));
  }

  #showSpeak() {
    const { speak } = this.#frame;
    if (speak) speak.hidden = !this.#speech.available;
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
    const [content, place, id] = at < 0
      ? [this.#cover(guide), say("guide.cover"), ""]
      : at >= guide.steps.length
        ? [endScreen(guide, this.#state()), say("guide.end"), "end"]
        : [this.#stepScreen(guide), say("guide.place", { n: at + 1, of: guide.steps.length }), guide.steps[at].id];
    this.#frame.screen.replaceChildren(content);
    this.#frame.heading.replaceChildren(...(guide.form === "card" ? [] : this.#steps.map((step) => step.heading)));
    this.#frame.place.hidden = guide.form === "card";
    this.#frame.place.textContent = place;
    this.#frame.next.setAttribute("aria-label", this.#nextWord(guide));
    this.#frame.back.hidden = at < 0;
    this.#frame.next.hidden = !this.#step;
    if (quiet) return;
    const dock = /** @type {HTMLElement|null} */ (content.querySelector(".dock"));
    if (dock) inertWhile([dock], async () => {});
    this.#element.querySelector("h2")?.focus({ preventScroll: true });
    this.#element.firstElementChild?.scrollIntoView({ block: "start" });
    this.#emit("guide:step", { step: id });
  }

  /** What the cover and the end are made from. */
  #state() {
    return { answers: this.#answers, deps: this.#deps, known: this.#known };
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
    if (this.#at < 0) return open === 0 ? say("guide.start") : say("guide.resume", { n: open + 1 });
    if (this.#at >= steps.length) return say("guide.close");
    return say(this.#at === steps.length - 1 ? "guide.finish" : "guide.next");
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
    this.#step = new GuideStep(step, this.#deps, { given: this.#answers.get(step.id), known: this.#known, taken: this.#taken, first: this.#first() });
    this.#steps = [this.#step];
    return this.#step.element;
  }

  /** @template {object} D @param {string} type @param {D} detail @returns {D & {guide?: string, kept?: unknown}} what those who heard it made of the detail */
  #emit(type, detail) {
    const told = { guide: this.#guide?.id, ...detail };
    emit(this.#element, type, told);
    return told;
  }
}
