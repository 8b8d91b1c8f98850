// @ts-check
/**
 * Fix: what do you see? The sign is logged, the way to look is shown, and what
 * it was is logged against it, so that the crew's own faults can be counted.
 */
import { clone, make, onActions, refs } from "../parts/dom.js";
import { dayAndTime } from "../parts/times.js";
import { newId } from "../journal/id.js";
import { say, sayKnown } from "../words/words.js";

/** Signs that mean stop at once, before anything is looked for. */
const stops = ["shock", "green-flame"];
const symptoms = ["no-arc", "no-transfer", "cuts-out", "unsteady", "blows-sideways", "spits", "heavy-dross", "hard-bead", "top-spatter", "wide-cut", "bevel", "not-through", "head-hot", "parts-short", "heat-light", "breaker", "generator"];
const causes = ["cup-clogged", "tip-worn", "tip-nicked", "diffuser", "electrode-pitted", "electrode-loose", "mixed-parts", "wet-air", "pressure-low", "clamp-poor", "surface", "too-slow", "too-fast", "standoff", "tilt", "amps-low", "past-capacity", "volts-low", "duty", "lead-damaged", "machine", "not-found"];

export class FixPage {
  /** @type {Record<string, any>} */ #at = {};
  /** @type {any} */ #now = null;
  /** @type {{id: string, symptom: string}|null} */ #fault = null;
  /** @type {AbortController} */ #stop = new AbortController();

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  async start() {
    const root = clone("page-fix");
    this.#at = refs(root);
    this.element.append(root);
    const button = (/** @type {string} */ s, look = "button") => make("button", { class: look, type: "button", text: sayKnown(`symptom.${s}`), "data-action": "see", "data-symptom": s });
    this.#at.stops.append(...stops.map((s) => button(s, "button button--stop")));
    this.#at.symptoms.append(...symptoms.map((s) => button(s)));
    onActions(root, {
      see: (el) => this.#try(() => this.#see(String(el.dataset.symptom))),
      found: () => this.#try(() => this.#found()),
      gone: () => this.#try(() => this.#gone()),
      another: () => this.#show(null),
      open: (el) => this.#show(this.#now?.faults?.find((/** @type {any} */ f) => f.id === el.dataset.id) ?? null),
    });
    this.deps.journal.addEventListener("views", () => this.#read(), { signal: this.#stop.signal });
    await this.#read();
  }

  stop() {
    this.#stop.abort();
  }

  // Private

  get #in() {
    const id = this.#now?.session?.id;
    return id ? { in: id } : {};
  }

  async #read() {
    const { views } = await this.deps.journal.paint(["now"]);
    if (this.#stop.signal.aborted) return;
    this.#now = views.now;
    const faults = views.now?.faults ?? [];
    this.#at.faults.hidden = faults.length === 0;
    this.#at.list.replaceChildren(...faults.map((/** @type {any} */ f) => make("li", {}, make("button", { class: "list__item", type: "button", "data-action": "open", "data-id": f.id },
      make("b", { text: sayKnown(`symptom.${f.symptom}`) }), make("span", { text: dayAndTime(f.at) })))));
  }

  /** @param {string} symptom */
  async #see(symptom) {
    const id = newId();
    this.#show({ id, symptom });
    await this.deps.journal.tap({ kind: "fault.seen", ...this.#in, about: id, body: { symptom, ...(this.deps.settings.values.rig ? { rig: this.deps.settings.values.rig } : {}) } });
  }

  /** @param {{id: string, symptom: string}|null} fault */
  #show(fault) {
    this.#fault = fault;
    this.#at.seen.hidden = Boolean(fault);
    this.#at.open.hidden = !fault;
    if (!fault) return;
    this.#at.symptom.textContent = sayKnown(`symptom.${fault.symptom}`);
    this.#at.stop.hidden = !stops.includes(fault.symptom);
    scrollTo(0, 0);
  }

  async #found() {
    const fault = this.#fault;
    if (!fault) return;
    const cause = await this.deps.chooser.ask({ label: say("fix.what"), options: causes.map((c) => ({ word: c, label: sayKnown(`cause.${c}`) })) });
    if (!cause) return;
    await this.deps.journal.tap([
      { kind: "fault.found", ...this.#in, about: fault.id, body: { cause } },
      ...(cause === "not-found" ? [] : [{ kind: "fault.mended", ...this.#in, about: fault.id, body: {} }]),
    ]);
    this.deps.toasts.show(say("fix.logged"));
    this.#show(null);
  }

  async #gone() {
    const fault = this.#fault;
    if (!fault) return;
    await this.deps.journal.tap({ kind: "fault.mended", ...this.#in, about: fault.id, body: { how: "went away" } });
    this.deps.toasts.show(say("fix.logged"));
    this.#show(null);
  }

  /** @param {() => Promise<unknown>} act */
  async #try(act) {
    try {
      await act();
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {any} */ (trouble));
    }
  }
}
