// @ts-check
/**
 * From an address to its screen, and the way back. Of two addresses that are asked for the newer is
 * shown, whichever file comes first.
 */
import { unlessLeft } from "./browser/leaving.js";
import { arrived, tidy, uncover } from "./browser/overlays.js";

/**
 * @typedef {import("./app.js").PageClass} PageClass
 * @typedef {[pattern: RegExp, place: string, title: string, load: () => PageClass|Promise<PageClass>]} Screen
 * @typedef {{Class: PageClass, place: string, title: string, params: Record<string, string>, path: string}} Found
 */

/** Where Back leads when nothing else is known. */
const home = "/ready";

export class Router {
  /** The newest address that was asked for. @type {symbol|null} */ #showing = null;
  /** How many screens were opened up to this one: so often leads back to one of the app. */ #depth = 0;
  /** The place that is lit: where this screen was opened from. */ #place = "";

  /**
   * @param {Screen[]} screens
   * @param {Screen} unknown  what an address shows that no screen has
   * @param {{open: (found: Found) => Promise<void>, lost: (url: URL, push: boolean) => void}} deps
   *   open: shows a screen; lost: the file of one could not be had
   */
  constructor(screens, unknown, { open, lost }) {
    this.screens = screens;
    this.unknown = unknown;
    this.open = open;
    this.lost = lost;
    this.#depth = history.state?.depth ?? 0; // the page may have been loaded anew
    this.#place = history.state?.place ?? "";
    tidy();
  }

  /** Shows the screen of an address. @param {string} path @param {boolean} [push]  whether Back leads to the one that is shown now @returns {Promise<void>} */
  async show(path, push = false) {
    const url = new URL(path, location.href);
    const secret = url.pathname === "/join" ? url.hash.slice(1) : "";
    if (secret) { // the secret of an invitation is not left in the address or the history
      url.hash = "";
      history.replaceState(history.state, "", url);
    }
    const job = (this.#showing = Symbol());
    const [pattern, place, title, load] = this.screens.find(([pattern]) => pattern.test(url.pathname)) ?? this.unknown;
    let Class;
    try {
      const loaded = load();
      Class = loaded instanceof Promise ? await unlessLeft(loaded) : loaded;
    } catch {
      if (job === this.#showing) this.lost(url, push);
      return;
    }
    if (job !== this.#showing) return;
    if (push) await uncover();
    if (job !== this.#showing) return;
    this.#place = title === place ? place : this.#place || place;
    if (push && url.pathname !== location.pathname) history.pushState({ depth: ++this.#depth, place: this.#place }, "", url);
    else history.replaceState({ ...(push ? {} : history.state), depth: this.#depth, place: this.#place }, "", push ? url : undefined);
    await this.open({ Class, place: this.#place, title, path, params: { ...pattern.exec(url.pathname)?.groups, ...Object.fromEntries(url.searchParams), hash: url.hash.slice(1), secret } });
  }

  /** Shows the screen of the address that stands, with what is known now. */
  again() {
    return this.show(location.pathname + location.search + location.hash);
  }

  /** Back to where this screen was opened from, or to its place when it was opened here. */
  back() {
    const top = `/${this.#place}`;
    if (this.#depth > 0) history.back();
    else this.show(this.#place && top !== location.pathname ? top : home, true);
  }

  /** The browser went back or forward: to another screen, or only from or to what lies over this one. @param {{state: {depth?: number, place?: string, over?: number}|null}} event */
  popped({ state }) {
    const stands = state?.depth === this.#depth;
    this.#depth = state?.depth ?? this.#depth + 1; // a link within the page is a step as well
    this.#place = state?.place ?? this.#place;
    arrived(state);
    if (!stands) this.again();
  }
}

/** The path of the link that a click is for, if that opens a screen here; else null. @param {MouseEvent} event */
export function pathOfLink(event) {
  const link = /** @type {HTMLElement} */ (event.target).closest("a");
  if (!link || event.defaultPrevented || event.ctrlKey || event.metaKey || link.target || link.hasAttribute("download")) return null;
  if (link.origin !== location.origin || /^\/(api|help)(\/|$)/.test(link.pathname)) return null;
  if (link.pathname === location.pathname && link.hash) return null;
  return link.pathname + link.search + link.hash;
}
