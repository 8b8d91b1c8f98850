// @ts-check
/**
 * What did not reach the store, beside it: a store that is stuck goes on when the app is closed and
 * opened again, and the entries must be there then. localStorage is a place of its own. It is written
 * late, so it is no place for what can be kept in the store.
 *
 * @typedef {import("./shapes.js").Failed} Failed
 */

const prefix = "kerfside.failed.";

/** All that failed, in this tab or another, oldest first. @returns {Failed[]} */
export function loadFailed() {
  const box = globalThis.localStorage;
  const keys = Object.keys(box ?? {}).filter((key) => key.startsWith(prefix));
  return keys.map((key) => JSON.parse(box.getItem(key) ?? "")).sort((a, b) => a.wall - b.wall);
}

/** @param {Failed} failed */
export function keepFailed(failed) {
  try {
    globalThis.localStorage?.setItem(keyOf(failed), JSON.stringify(failed));
  } catch {
    // No room here either: it stays in the open page.
  }
}

/** It is stored now. @param {Failed} failed */
export function dropFailed(failed) {
  try {
    globalThis.localStorage?.removeItem(keyOf(failed));
  } catch {
    // Where none can be kept there is none: the tap is stored all the same.
  }
}

/** @param {Failed} failed */
function keyOf({ entries }) {
  return prefix + entries[0].id;
}
