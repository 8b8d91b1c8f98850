// @ts-check
/**
 * What a start finds at once, in localStorage: every key that the app has there, and access that never
 * throws. Browsers write it up to half a minute late, so the truth is in a database wherever it matters. It
 * may be full, or switched off: then nothing is kept, and nothing found.
 *
 *	kerfside.crew          of which crew the database is that is opened first (journal/crew/database-name.js)
 *	kerfside.settings      this phone's settings (parts/settings.js, by journal/local-state.js)
 *	kerfside.draft.NAME    what is half typed (parts/drafts.js), and what one screen tells another (today.js), by journal/local-state.js
 *	kerfside.seen.SCREEN   numbers that a screen showed last (journal/last-shown.js)
 *	kerfside.failed.ID     taps that did not reach the store (journal/failed-writes.js)
 *	kerfside.home          that a tab on iOS does not keep things for long was told (parts/home-screen.js)
 *	kerfside.clock         how the phone writes the time of day (parts/times.js)
 *
 * Beside these are sessionStorage's kerfside.untold (journal/journal.js) and the databases kerfside, kerfside-CREW
 * (journal/crew/database-name.js) and kerfside.own (journal/local-state.js).
 *
 * @typedef {"kerfside.crew"|"kerfside.home"|"kerfside.clock"|"kerfside.settings"|`kerfside.${"draft"|"seen"|"failed"}.${string}`} Key
 */

/** @param {Key} key @returns {string|null} */
export function find(key) {
  try {
    return globalThis.localStorage?.getItem(key) ?? null;
  } catch {
    return null;
  }
}

/** @param {Key} key @param {string} text */
export function keep(key, text) {
  try {
    globalThis.localStorage?.setItem(key, text);
  } catch {
    // No room, or switched off.
  }
}

/** @param {Key} key */
export function drop(key) {
  try {
    globalThis.localStorage?.removeItem(key);
  } catch {
    // Switched off: there is none.
  }
}

/** The keys that begin so. @param {string} prefix @returns {Key[]} */
export function keysUnder(prefix) {
  try {
    return /** @type {Key[]} */ (Object.keys(globalThis.localStorage ?? {}).filter((key) => key.startsWith(prefix)));
  } catch {
    return [];
  }
}
