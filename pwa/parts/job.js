// @ts-check
/**
 * Hazards are answered anew for each job. What was answered and left is kept on
 * the phone, as everything typed is, but only until another session begins or
 * ends, or half a day is over.
 */

/** Answers older than this are another job's, ms. */
export const jobHolds = 12 * 3600 * 1000;

/** Answers to steps of a guide that were given longer ago than this, outside a session, are another day's, ms. */
export const sameDay = 12 * 3600 * 1000;

/** @typedef {{key: string, hazard?: boolean}} Declared */

/**
 * Names the job of now: its session, else the time after the last one.
 * @param {Pick<import("../journal/shapes.js").ReadModelBase["views"], "now"|"book">} views
 */
export function jobOf({ now, book }) {
  return now?.session?.id ?? `after ${book?.sessions?.[0]?.id ?? ""}`;
}

/**
 * What of a draft still holds.
 * @param {Record<string, string>} draft @param {Declared[]} declared @param {string} job
 * @returns {Record<string, string>}
 */
export function ofThisJob(draft, declared, job) {
  const { _job, _at, ...values } = draft;
  if (_job === job && Math.abs(Date.now() - Number(_at)) < jobHolds) return values; // either way: a clock may be set back
  const hazards = new Set(declared.filter((f) => f.hazard).map((f) => f.key));
  return Object.fromEntries(Object.entries(values).filter(([key]) => !hazards.has(key)));
}

/**
 * The values as a draft of that job. The time is that of its first answer.
 * @param {Record<string, string>} values @param {Record<string, string>} before @param {string} job
 * @returns {Record<string, string>}
 */
export function forThisJob(values, before, job) {
  return { ...values, _job: job, _at: (before._job === job && before._at) || String(Date.now()) };
}
