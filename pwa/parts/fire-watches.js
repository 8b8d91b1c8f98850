// @ts-check
/** Which of the open fire watches matter. */

/** @typedef {import("../types/journal.js").FireWatch} Watch */

/** One that nobody has ended this long after its end is of another day, ms. */
const stale = 12 * 3600 * 1000;

/**
 * Without those that were forgotten.
 * @param {Watch[]|null|undefined} watches  of view now
 * @param {number} now  ms since 1970, by the server's clock
 */
export function recentFireWatches(watches, now) {
  return (watches ?? []).filter((w) => w.running || now - w.ends < stale);
}

/** The one that ends last. @param {Watch[]} watches @returns {Watch|undefined} */
export function lastFireWatch(watches) {
  return [...watches].sort((a, b) => Number(b.running) - Number(a.running) || b.ends - a.ends)[0];
}
