// @ts-check
/**
 * This phone's settings, at hand before the first paint. app.js also writes
 * each change into the journal (setting.set), so that a phone that lost its
 * own can be given its old ones; all but what is in ownOnly, which nobody else
 * is to read.
 */
const name = "settings";

/** What never leaves this phone: whom to call, who watches the fire, and how its own microphone hears the torch of each rig. @type {(keyof Values)[]} */
const ownOnly = ["emergency", "watcher", "taught"];

/** @typedef {{units: "metric"|"us", look: "system"|"sun"|"night", hand: "right"|"left", rig: string, site: string, watchMinutes: number, watcher: string, emergency: string, taught: Record<string, import("../types/calc.js").Taught>}} Values */

/** @type {Values} */
const defaults = { units: "metric", look: "system", hand: "right", rig: "", site: "", watchMinutes: 60, watcher: "", emergency: "", taught: {} };

export class Settings extends EventTarget {
  /** @type {Values} */ values;

  /** @param {import("../journal/local-state.js").LocalState} localState */
  constructor(localState) {
    super();
    this.localState = localState;
    this.values = this.#read();
    this.apply();
    localState.addEventListener("corrected", () => {
      this.values = this.#read();
      this.apply();
    });
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => this.apply());
  }

  /** Whether this phone was ever set. */
  get any() {
    return this.localState.get(name) !== undefined;
  }

  /** @param {Partial<Values>} changed */
  set(changed) {
    this.take(changed);
    const shared = Object.entries(changed).filter(([key]) => !ownOnly.includes(/** @type {keyof Values} */ (key)));
    if (shared.length > 0) this.dispatchEvent(new CustomEvent("change", { detail: Object.fromEntries(shared) }));
  }

  /** Sets what the journal has, or is not to have. @param {Partial<Values>} changed */
  take(changed) {
    this.values = { ...this.#read(), ...changed }; // another tab may have set others
    this.localState.set(name, this.values);
    this.apply();
  }

  /** Takes what the journal has of this phone's, as far as it is of the kind that stands there. @param {Record<string, unknown>} fields */
  restore(fields) {
    const { values } = this;
    this.take(Object.fromEntries(Object.entries(fields).filter(([key, value]) => Object.hasOwn(values, key) && typeof value === typeof values[/** @type {keyof Values} */ (key)])));
  }

  /** Puts look and hand on the document. */
  apply() {
    const { look, hand } = this.values;
    const night = look === "night" || (look === "system" && matchMedia("(prefers-color-scheme: dark)").matches);
    document.documentElement.dataset.look = night ? "night" : "sun";
    document.querySelectorAll("meta[name=theme-color]").forEach((meta, i) => meta.setAttribute("media", night === (i > 0) ? "all" : "print"));
    document.documentElement.dataset.hand = hand;
  }

  /** @returns {Values} */
  #read() {
    return { ...defaults, units: usualUnits(), ...this.localState.get(name) };
  }
}

/** US units where the phone's language says United States. @returns {"metric"|"us"} */
function usualUnits() {
  return navigator.language === "en-US" ? "us" : "metric";
}
