// @ts-check
/**
 * This phone's settings, at hand before the first paint. app.js also writes
 * each change into the journal (setting.set), so that a phone set up anew can
 * be given its old ones.
 */
const store = "kerfside.settings";

/** @typedef {{units: "metric"|"us", look: "system"|"sun"|"night", hand: "right"|"left", rig: string, site: string, watchMinutes: number, watcher: string, emergency: string}} Values */

/** @type {Values} */
const defaults = { units: "metric", look: "system", hand: "right", rig: "", site: "", watchMinutes: 60, watcher: "", emergency: "" };

/** What never leaves this phone: whom to call, and who watches the fire. */
const own = ["emergency", "watcher"];

/** The part of a change that goes into the crew's journal. @param {Partial<Values>} changed */
export function forJournal(changed) {
  return Object.fromEntries(Object.entries(changed).filter(([key]) => !own.includes(key)));
}

export class Settings extends EventTarget {
  /** @type {Values} */ values;

  constructor() {
    super();
    /** @type {Partial<Values>} */
    let kept = {};
    try {
      kept = JSON.parse(localStorage.getItem(store) ?? "{}");
    } catch {
      // unreadable: begin with the defaults
    }
    this.values = { ...defaults, units: usualUnits(), ...kept };
    this.apply();
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => this.apply());
  }

  /** @param {Partial<Values>} changed */
  set(changed) {
    this.values = { ...this.values, ...changed };
    localStorage.setItem(store, JSON.stringify(this.values));
    this.apply();
    this.dispatchEvent(new CustomEvent("change", { detail: changed }));
  }

  /** Puts look and hand on the document. */
  apply() {
    const { look, hand } = this.values;
    const night = look === "night" || (look === "system" && matchMedia("(prefers-color-scheme: dark)").matches);
    document.documentElement.dataset.look = night ? "night" : "sun";
    document.documentElement.dataset.hand = hand;
  }
}

/** US units where the phone's language says United States. @returns {"metric"|"us"} */
function usualUnits() {
  return navigator.language === "en-US" ? "us" : "metric";
}
