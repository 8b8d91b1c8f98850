// @ts-check
/**
 * From an address to its screen, and the way back. Of two addresses that are asked for the newer is
 * shown, whichever file comes first.
 */
import { unlessLeft } from "./browser/leaving.js";

/**
 * @typedef {import("./app.js").PageClass} PageClass
 * @typedef {[pattern: RegExp, place: string, title: string, load: () => PageClass|Promise<PageClass>]} Screen
 * @typedef {{Class: PageClass, place: string, title: string, params: Record<string, string>, path: string}} Found
 */

/** Where an address leads that no screen has. */
const home = "/ready";

export class Router {
  /** The newest address that was asked for. @type {symbol|null} */ #showing = null;
  /** How many screens were opened from here on: so often leads back to one of the app. */ #depth = 0;

  /**
   * @param {Screen[]} screens
   * @param {{open: (found: Found) => Promise<void>, lost: (url: URL, push: boolean) => void}} deps
   *   open: shows a screen; lost: the file of one could not be had
   */
  constructor(screens, { open, lost }) {
    this.screens = screens;
    this.open = open;
    this.lost = lost;
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
    const screen = this.screens.find(([pattern]) => pattern.test(url.pathname));
    if (!screen) {
      if (!push) history.replaceState(history.state, "", home); // in its place: Back leads past it
      return this.show(home, push);
    }
    const [pattern, place, title, load] = screen;
    let Class;
    try {
      const loaded = load();
      Class = loaded instanceof Promise ? await unlessLeft(loaded) : loaded;
    } catch {
      if (job === this.#showing) this.lost(url, push);
      return;
    }
    if (job !== this.#showing) return;
    if (push && url.pathname !== location.pathname) history.pushState({ depth: ++this.#depth }, "", url);
    else if (push) history.replaceState({ depth: this.#depth }, "", url);
    await this.open({ Class, place, title, path, params: { ...pattern.exec(url.pathname)?.groups, ...Object.fromEntries(url.searchParams), hash: url.hash.slice(1), secret } });
  }

  /** Shows the screen of the address that stands, with what is known now. */
  again() {
    return this.show(location.pathname + location.search + location.hash);
  }

  /** Back within the app, or home when it was opened here. */
  back() {
    if (this.#depth > 0) history.back();
    else this.show(home, true);
  }

  /** The browser went back or forward. @param {PopStateEvent} event */
  popped(event) {
    this.#depth = event.state?.depth ?? 0;
    this.again();
  }
}

/** The path of the link that a click is for, if that opens a screen here; else null. @param {MouseEvent} event */
export function pathOfLink(event) {
  const link = /** @type {HTMLElement} */ (event.target).closest("a");
  if (!link || event.defaultPrevented || event.ctrlKey || event.metaKey || link.target || link.hasAttribute("download")) return null;
  if (link.origin !== location.origin || link.pathname.startsWith("/api/")) return null;
  if (link.pathname === location.pathname && link.hash) return null;
  return link.pathname + link.search + link.hash;
}
