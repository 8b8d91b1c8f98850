// @ts-check
/**
 * What a screen showed last, in localStorage, which is read at once: the eye has something while the store
 * is opened. It holds numbers alone and no word that anybody entered, so that what is erased is not in it,
 * and which database they are of. A screen says as of when it shows them, until it has read the truth, and
 * takes no tap until then. localStorage lags behind by up to half a minute after a kill.
 */

import { drop, find, keep } from "../browser/storage.js";

/** The screens that have one. @type {Place[]} */
const places = ["cut", "ready"];
/** How old it may be, ms: a time of the day says when it was. */
const oldest = 12 * 3_600_000;

/** @typedef {"cut"|"ready"} Place */
/** By this phone's clock, ms since 1970, beside the numbers. @typedef {{at: number} & Record<string, number>} Seen */

/** @param {string} db  its name @param {Place} place @param {Record<string, number|undefined>|null} numbers  null drops them @param {number} now */
export function keepLastShown(db, place, numbers, now) {
  const kept = Object.entries(numbers ?? {}).filter(([, n]) => Number.isFinite(n));
  if (numbers) keep(`kerfside.seen.${place}`, JSON.stringify({ db, seen: { ...Object.fromEntries(kept), at: now } }));
  else drop(`kerfside.seen.${place}`);
}

/**
 * What was kept of a database lately; null if there is nothing, or it cannot be read, or is of a time to come.
 * @param {string} db @param {Place} place @param {number} now
 * @returns {Seen|null}
 */
export function readLastShown(db, place, now) {
  try {
    const { db: of, seen } = JSON.parse(find(`kerfside.seen.${place}`) ?? "{}");
    const isGood = of === db && Object.values(seen).every(Number.isFinite) && seen.at <= now && now - seen.at < oldest;
    return isGood ? seen : null;
  } catch {
    return null;
  }
}

/** Drops all of them. */
export function dropLastShown() {
  for (const place of places) drop(`kerfside.seen.${place}`);
}
