// @ts-check
/**
 * What did not reach the store, beside it: a store that is stuck goes on when the app is closed and
 * opened again, and the entries must be there then. localStorage is a place of its own. It is written
 * late, so it is no place for what can be kept in the store.
 *
 * @typedef {import("./shapes.js").Failed} Failed
 */

import { drop, find, keep, keysUnder } from "../browser/storage.js";

/** All that failed, in this tab or another, oldest first. @returns {Failed[]} */
export function loadFailed() {
  return keysUnder("kerfside.failed.").map((key) => JSON.parse(find(key) ?? "")).sort((a, b) => a.wall - b.wall);
}

/** If there is no room here either, it stays in the open page. @param {Failed} failed */
export function keepFailed(failed) {
  keep(keyOf(failed), JSON.stringify(failed));
}

/** It is stored now. @param {Failed} failed */
export function dropFailed(failed) {
  drop(keyOf(failed));
}

/** @param {Failed} failed @returns {import("../browser/storage.js").Key} */
function keyOf({ entries }) {
  return `kerfside.failed.${entries[0].id}`;
}
