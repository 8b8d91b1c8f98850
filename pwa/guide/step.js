// @ts-check
// One step on the screen: what to do, how to judge it, its drawing drawn to the
// readings, and the answers.
import { clone, make, refs, setText } from "../parts/dom.js";
import { sayOfStep } from "../words/guides.js";
import { say } from "../words/words.js";

/** @typedef {import("./shapes.js").Step} Step */
/** @typedef {import("./shapes.js").Answer} Answer */
/** @typedef {import("./shapes.js").GuideDeps} GuideDeps */

export class GuideStep {
  /** The shape beside each answer, so that no state rests on colour. @type {Record<string, string>} */
  static signs = {
    good: "M4 13 L10 19 L20 5", done: "M4 13 L10 19 L20 5",
    worn: "M4 9 Q8 5 12 9 T20 9 M4 16 Q8 12 12 16 T20 16",
    change: "M5 5 L19 19 M19 5 L5 19", "not-done": "M5 5 L19 19 M19 5 L5 19",
    unsure: "M8 8 Q8 4 12 4 Q16 4 16 8 Q16 11 12 13 L12 15 M12 20 L12 20.1",
    pass: "M4 13 L10 19 L20 5", fail: "M5 5 L19 19 M19 5 L5 19",
  };

  #step;
  #deps;
  #at;
  /** @type {Answer} */
  #given;
  #known;
  #taken;
  /** @type {symbol | null} */
  #job = null;
  #isCard = false;

  /**
   * @param {Step} step
   * @param {GuideDeps} deps
   * @param {{given?: Answer, known?: import("./shapes.js").Known, taken?: import("./shapes.js").TakenReadings, first?: {title: string, step: string}}} state first: what has to be done before, and its step
   */
  constructor(step, deps, { given, known = {}, taken = {}, first } = {}) {
    this.#step = step;
    this.#deps = deps;
    this.#given = { result: given?.result ?? "", readings: { ...given?.readings } };
    this.#known = known;
    this.#taken = taken;
    this.element = clone("guide-step");
    this.#at = refs(this.element);
    this.#fill();
    this.waitFor(first);
    this.#judge();
    this.#draw();
    this.#readings();
    this.#answers();
    this.#learn();
    this.#suggest();
  }

  /** What was given so far. */
  get given() {
    return this.#given;
  }

  /** @param {import("./shapes.js").Known} known @param {import("./shapes.js").TakenReadings} taken */
  know(known, taken) {
    [this.#known, this.#taken] = [known, taken];
    this.#draw();
    if (!this.#isCard) this.#readings();
    this.#learn();
    this.#suggest();
  }

  /** Takes in what was given before a restart, or on another phone. @param {Answer} given */
  restore({ result, readings }) {
    this.#given = { result, readings: { ...readings } };
    this.know(this.#known, this.#taken);
    this.#mark();
  }

  /** Leads to what has to be done before this step. @param {{title: string, step: string}} [first] */
  waitFor(first) {
    this.#at["first-box"].hidden = !first;
    setText(this.#at.first, first ? say("guide.first", { title: first.title }) : "");
    this.#at.first.setAttribute("href", `#${first?.step ?? ""}`);
  }

  /** Its title, for who shows it above the step, beside the way back and on. */
  get heading() {
    return this.#at.title;
  }

  /** Leaves out what only makes sense one step a screen. */
  asCard() {
    this.#isCard = true;
    for (const name of ["dock", "readings"]) this.#at[name].remove();
    this.element.className = "section";
    this.#at.body.before(this.#at.do);
    this.#at.title.replaceWith(make("h2", { id: this.#step.id, text: this.#step.title }));
  }

  /** @param {string} result */
  answer(result) {
    this.#given.result = result;
    this.#mark();
  }

  /**
   * Asks for a reading; resolves to whether one was given.
   * @param {string} key
   */
  async read(key) {
    const reading = this.#step.readings?.find((r) => r.key === key);
    if (!reading) return false;
    const { label, quantity, unit, scale } = reading;
    const before = this.#given.readings?.[key];
    const value = await this.#deps.pad.ask({ label, quantity, unit, value: before === undefined ? null : before / scale });
    if (value === null) return false;
    this.#given.readings = { ...this.#given.readings, [key]: Math.round(value * scale) };
    this.#draw();
    this.#readings();
    this.#suggest();
    this.#learn(); // what was read is kept before the sums can say it
    return true;
  }

  /** The step in words, for reading aloud. */
  spoken() {
    const { title, why, slot } = this.#step;
    return [`${title}.`, ...["first", "caution", "do"].map((name) => this.#at[name].textContent),
      ...this.#judged().map(([key, text]) => `${sayOfStep("judgement", key, slot)}: ${text}.`), `${say("guide.why")}: ${why}.`];
  }

  // Private

  #fill() {
    const { id, title, why, source, caution, pass, slot = "" } = this.#step;
    this.#at.title.textContent = title;
    this.#at.why.textContent = why;
    this.#at.source.textContent = source;
    this.#at["caution-box"].hidden = !caution;
    this.#deps.html(this.#at.caution, caution ?? "");
    this.#deps.html(this.#at.do, this.#step.do);
    if (pass) this.#at.body.before(this.#at.do); // what is to be done is the step itself; a look begins with what is seen
    this.#at.fitted.hidden = !isExchanged(this.#step);
    Object.assign(this.#at.fitted.dataset, { step: id, slot });
  }

  /** The judgements that the step has, by key. */
  #judged() {
    const { good = "", worn = "", change = "", pass = "", fail = "" } = this.#step;
    return Object.entries({ good, worn, change, pass, fail }).filter(([, text]) => text);
  }

  #judge() {
    const rows = this.#judged().map(([key, text]) => {
      const row = clone("guide-judgement");
      row.classList.add(`guide-judgement-${key}`);
      const { sign, name, words } = refs(row);
      sign.setAttribute("d", GuideStep.signs[key]);
      name.textContent = sayOfStep("judgement", key, this.#step.slot);
      words.textContent = text;
      return row;
    });
    this.#at.judge.replaceChildren(...rows);
  }

  #draw() {
    const { drawing } = this.#step;
    this.#sayOwn(drawing);
    const { figure } = this.#at;
    figure.hidden = !drawing || !this.#deps.drawings[drawing.name];
    if (figure.hidden || !drawing) return;
    const read = this.#readFor();
    const stated = { ...drawing.params };
    if (Object.keys(read).length > 0) for (const key of drawing.example ?? []) delete stated[key];
    const params = { ...stated, ...this.#knownFor(drawing, read), ...read };
    this.#at.drawing.replaceChildren(this.#deps.drawings[drawing.name](params, this.#deps.drawWords));
    const isExample = Object.keys(read).length === 0 && (drawing.example ?? []).length > 0;
    if (isExample) this.#at.taken.textContent = say("guide.drawn");
    this.#at.caption.textContent = isExample ? say("guide.example", { text: drawing.text }) : drawing.text;
  }

  /** The rig's own sizes in figures and what was read, unless another tip was read. @param {Step["drawing"]} drawing */
  #sayOwn(drawing) {
    const { new: fresh, limit } = this.#known.orifice ?? {};
    const length = this.#deps.drawWords?.length;
    const shown = drawing?.name === "orifice" && "limit" in drawing.params && limit && length && this.#given.readings?.new === undefined;
    const { own } = this.#at;
    own.hidden = !shown;
    const { dmax, dmin = dmax } = this.#readFor();
    const now = dmax === undefined && dmin === undefined ? "" : [...new Set([dmax ?? dmin, dmin])].map((size) => length?.(size)).join(" × ");
    this.#at.taken.textContent = this.#takenHere?.said ?? "";
    own.textContent = shown ? say(now ? "guide.sizes.read" : "guide.sizes", { fresh: length(fresh), limit: length(limit), now }) : "";
  }

  /** Says numbers in the person's units as soon as it is known how. */
  async #learn() {
    if (!(await this.#deps.learn?.())) return;
    this.#draw();
    if (!this.#isCard) this.#readings();
  }

  /**
   * The rig's own values, for parameters that the drawing already names. An
   * example keeps its own until something is read: one set of numbers, not two.
   * @param {NonNullable<Step["drawing"]>} drawing @param {Record<string, number>} read
   */
  #knownFor({ name, params, example = [] }, read) {
    const known = Object.entries(this.#known[name] ?? {}).filter(([key]) => key in params);
    const isExample = known.some(([key]) => example.includes(key)) && Object.keys(read).length === 0;
    return isExample ? {} : Object.fromEntries(known);
  }

  /** What was read today of what this step reads; what is entered here stands for all of it. */
  get #takenHere() {
    const { slot = "", readings = [] } = this.#step;
    const taken = this.#isCard ? undefined : this.#taken[slot];
    const isHere = taken && readings.some(({ key }) => key !== "new" && taken.readings[key] !== undefined && ![...Object.keys(this.#given.readings ?? {})].some((given) => given !== "new"));
    return isHere ? taken : undefined;
  }

  /** What was read, here or before. */
  get #read() {
    return { ...this.#takenHere?.readings, ...this.#given.readings };
  }

  /** The readings as the drawing takes them, in the step's units. */
  #readFor() {
    const taken = this.#read;
    const read = (this.#step.readings ?? []).filter((r) => taken[r.key] !== undefined);
    return Object.fromEntries(read.map((r) => [r.key, taken[r.key] / r.scale]));
  }

  /** Marks the answer that what was read suggests; it is never taken by itself. */
  async #suggest() {
    const { slot = "", readings = [], drawing } = this.#step;
    const job = (this.#job = Symbol());
    const read = this.#read;
    const fresh = readings.find(({ key }) => key === "new");
    const known = this.#known[drawing?.name ?? ""]?.new;
    const all = { ...(fresh && known ? { new: Math.round(known * fresh.scale) } : {}), ...read };
    const isRead = Object.keys(read).some((key) => key !== "new");
    const answer = isRead && slot ? await this.#deps.judge?.(slot, all) : "";
    if (job !== this.#job) return;
    for (const button of /** @type {NodeListOf<HTMLElement>} */ (this.element.querySelectorAll("[data-result]"))) {
      refs(button).read.hidden = !answer || button.dataset.result !== answer;
    }
  }

  /** Says what was read; the controls stay, for one may be held down just now. */
  #readings() {
    const { readings = [], drawing, id } = this.#step;
    const place = this.#at.readings;
    if (!place.firstChild) {
      place.append(...readings.map(({ key, label }) => {
        const row = clone("guide-reading");
        row.dataset.key = key;
        refs(row).label.textContent = label;
        return row;
      }));
      if (this.#deps.gauge && readings.some(({ key }) => key === "dmax")) {
        const link = /** @type {HTMLAnchorElement} */ (clone("guide-gauge"));
        link.href = `${this.#deps.gauge}%23${id}`; // and back to this step
        place.append(link);
      }
    }
    const show = this.#deps.show ?? ((value, { unit }) => `${value} ${unit}`);
    readings.forEach((reading, i) => {
      const taken = this.#read[reading.key];
      const known = taken === undefined ? this.#known[drawing?.name ?? ""]?.[reading.key] : taken / reading.scale;
      setText(refs(/** @type {HTMLElement} */ (place.children[i])).value, known === undefined ? say("guide.not-read") : show(known, reading));
    });
  }

  #answers() {
    const buttons = this.#step.answers.map((result) => {
      const button = clone("guide-answer");
      button.dataset.result = result;
      button.classList.add(`guide-answer-${result}`);
      const { word, sign } = refs(button);
      word.textContent = sayOfStep("answer", result, this.#step.slot);
      sign.setAttribute("d", GuideStep.signs[result]);
      return button;
    });
    this.#at.answers.replaceChildren(...buttons);
    this.#mark();
  }

  #mark() {
    const { result } = this.#given;
    for (const button of this.element.querySelectorAll("[data-result]")) {
      const isGiven = /** @type {HTMLElement} */ (button).dataset.result === result;
      button.setAttribute("aria-pressed", String(isGiven));
    }
    this.#at.advice.textContent = sayOfStep("advice", result, this.#step.slot);
    this.#at.after.hidden = !leavesSomething(result);
  }
}

/** Whether what a step looks at is changed for a new one. @param {Step} step */
export function isExchanged({ slot, answers }) {
  return !!slot && slot !== "head" && answers.includes("change");
}

/** Answers after which something is left to do. */
const leaving = new Set(["change", "unsure", "not-done"]);

/** @param {string} [result] */
export function leavesSomething(result = "") {
  return leaving.has(result);
}
