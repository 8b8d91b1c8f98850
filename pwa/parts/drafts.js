// @ts-check
/**
 * Keeps what is being entered, key by key, as it is typed: leaving a screen,
 * a reload or a dead battery loses nothing. It is this phone's alone and no
 * part of the journal, so it lives in localStorage, where reading it does not
 * hold up the first paint.
 */
const prefix = "kerfside.draft.";

export class Drafts {
  /** @param {string} name @returns {Record<string, string>} */
  of(name) {
    try {
      return JSON.parse(localStorage.getItem(prefix + name) ?? "{}");
    } catch {
      return {};
    }
  }

  /** @param {string} name @param {Record<string, string>} values */
  keep(name, values) {
    try {
      localStorage.setItem(prefix + name, JSON.stringify(values));
    } catch {
      // The disk is full or storage is off; the entry still stands on the screen.
    }
  }

  /** @param {string} name */
  drop(name) {
    localStorage.removeItem(prefix + name);
  }

  /** Whether anything is half entered, so that a new version had better wait. */
  get any() {
    return Object.keys(localStorage).some((k) => k.startsWith(prefix + "writer."));
  }
}
