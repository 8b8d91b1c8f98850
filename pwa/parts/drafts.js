// @ts-check
/**
 * Keeps what is being entered, key by key, as it is typed: leaving a screen,
 * a reload or a dead battery loses nothing. It is this phone's alone and no
 * part of the journal. Each name is one module's own; what another screen is
 * to know goes through today.js.
 */
const prefix = "draft.";

export class Drafts {
  /** @param {import("../journal/local-state.js").LocalState} localState */
  constructor(localState) {
    this.localState = localState;
  }

  /**
   * @template {object} [T=Record<string, string>]
   * @param {string} name
   * @returns {T}
   */
  of(name) {
    return this.localState.get(`${prefix}${name}`) ?? {};
  }

  /** @param {string} name @param {object} values */
  keep(name, values) {
    this.localState.set(`${prefix}${name}`, values);
  }

  /** @param {string} name */
  drop(name) {
    this.localState.remove(`${prefix}${name}`);
  }

  /** Whether anything is half entered, so that a new version had better wait. */
  get any() {
    return this.localState.names().some((name) => name.startsWith(prefix + "writer."));
  }
}
