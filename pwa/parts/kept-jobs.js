// @ts-check
/**
 * Jobs as the journal keeps them: each row of the cut list is a field of its own (cut.KEY), so that two phones
 * may enter rows at once. On the phone a row has its key and its place beside what was entered for it.
 */
import { plain, sayKnown } from "../words/words.js";
import { spaced } from "./field.js";
import { newKey } from "./list-field.js";

/** What was entered for a row, as text, with _key, and _at, a whole number that says its place. @typedef {Record<string, any> & {_key?: string, _at?: number}} CutRow */
/** @typedef {{id: string, fields: Record<string, string>, rows: CutRow[]}} KeptJob */

const prefix = "cut.";

/** How far apart the places of two rows are that were entered one after the other, at least; by chance more, for two phones may enter one each. */
const step = 1000;

/** A job of those fields; one of which nothing is kept yet has none. @param {string} id @param {Record<string, unknown>} [fields] @returns {KeptJob} */
export function keptJob(id, fields = {}) {
  /** @type {CutRow[]} */
  const rows = [];
  /** @type {Record<string, string>} */
  const texts = {};
  for (const [key, value] of Object.entries(fields)) {
    if (!key.startsWith(prefix)) texts[key] = plain(value);
    else if (typeof value === "object" && value) rows.push(rowOf(key.slice(prefix.length), /** @type {Record<string, unknown>} */ (value)));
  }
  return { id, fields: texts, rows: rows.sort((a, b) => Number(a._at) - Number(b._at) || (String(a._key) < String(b._key) ? -1 : 1)) };
}

/** @param {string} key @param {Record<string, unknown>} kept @returns {CutRow} */
function rowOf(key, { at, ...entered }) {
  const texts = Object.entries(entered).map(([name, value]) => [name, plain(value)]).filter(([, text]) => text);
  return { ...Object.fromEntries(texts), _key: key, _at: typeof at === "number" ? at : 0 };
}

/**
 * What changes from one list to another, as the body of a job.set: only rows that changed, a new one under a key of
 * its own, null for one that is gone, and of one that was moved its place.
 * @param {CutRow[]} before @param {CutRow[]} after @returns {Record<string, Record<string, string|number>|null>}
 */
export function changesOf(before, after) {
  const rows = placed(after.map((row) => ({ ...row, _key: row._key ?? newKey() })));
  const was = new Map(before.map((row) => [row._key, JSON.stringify(bodyOf(row))]));
  const changed = rows.filter((row) => was.get(row._key) !== JSON.stringify(bodyOf(row)));
  const gone = before.filter(({ _key }) => !rows.some((row) => row._key === _key));
  return Object.fromEntries([...changed.map((row) => [prefix + row._key, bodyOf(row)]), ...gone.map(({ _key }) => [prefix + _key, null])]);
}

/** @param {CutRow} row @returns {Record<string, string|number>} */
function bodyOf({ _key, _at = 0, ...texts }) {
  return { ...Object.fromEntries(Object.entries(texts).filter(([name, text]) => name[0] !== "_" && text !== "").sort()), at: _at };
}

/** The rows with places that rise: one that was moved takes one between its neighbours. @param {CutRow[]} rows */
function placed(rows) {
  const rises = (/** @type {CutRow[]} */ list) => list.every(({ _at }, i) => i === 0 || Number(list[i - 1]._at) < Number(_at));
  const old = rows.filter(({ _at }) => _at !== undefined);
  const moved = rises(old) ? null : old.find((row) => rises(old.filter((other) => other !== row)));
  let last = 0;
  return rows.map((row, i) => {
    const stays = row._at !== undefined && row !== moved && row._at > last;
    const next = rows.slice(i + 1).find(({ _at, ...other }) => _at !== undefined && _at > last && other._key !== moved?._key)?._at;
    last = stays ? Number(row._at) : next === undefined ? last + step + Math.floor(Math.random() * step) : Math.round((last + next) / 2);
    return { ...row, _at: last };
  });
}

/** A row in a few words: its own name first. @param {CutRow} row */
export function rowWords({ name, metal, thickness, length, count }) {
  const what = [spaced(plain(thickness)), sayKnown(`metal.${metal || "mild-steel"}`).toLowerCase()].filter(Boolean).join(" ");
  const pieces = [plain(count) !== "" && plain(count) !== "1" ? `${count} ×` : "", spaced(plain(length))].filter(Boolean).join(" ");
  return [name, pieces, what].filter(Boolean).join(" · ");
}

/** How many pieces a row has. @param {CutRow} row */
export function piecesOf({ count }) {
  return Math.max(1, Math.round(Number(count)) || 1);
}

/** What is no field of the sum. */
const own = ["name", "customer", "rig", "site", "at", "number", "quote", "tax", "billed"];

/**
 * What job-plan is asked of a job: what was entered for it and, once something is done, of what is left.
 * @param {KeptJob} job @param {import("../types/journal.js").JobView|null} [view]
 */
export function askedOf({ fields, rows }, view) {
  const s = (/** @type {number} */ ms) => `${ms / 1000}s`;
  const entered = Object.entries(fields).filter(([key]) => !own.includes(key));
  const done = (view?.cuts ?? []).filter((cut) => cut.cut && (cut.done || cut.ms)).map(({ cut, done, ms, elapsed, waits }) => ({ cut: rows.findIndex(({ _key }) => _key === cut) + 1, pieces: done, arc: s(ms), elapsed: s(elapsed), waited: s(waits.filter(({ why }) => /^(air|cooling)$/.test(why)).reduce((sum, wait) => sum + wait.ms, 0)) }));
  const known = done.filter(({ cut }) => cut > 0);
  return { ...Object.fromEntries(entered), cuts: JSON.stringify(rows), ...(known.length ? { done: JSON.stringify(known) } : {}) };
}

/**
 * What a session keeps of its plan, in whole s; what the plan does not know is left out.
 * @param {Record<string, any>} results  of job-plan @param {KeptJob} job
 */
export function plannedOf(results, { rows }) {
  const told = (/** @type {Record<string, number|undefined>} */ of) => Object.fromEntries(Object.entries(of).filter(([, n]) => Number.isFinite(n)).map(([key, n]) => [key, Math.round(Number(n))]));
  const cuts = rows.map((row, i) => {
    const { arc, starts, elapsed } = results.rows?.[i] ?? {};
    return [String(row._key), told({ n: piecesOf(row), arc: arc?.value, arcLow: arc?.low, arcHigh: arc?.high, starts: starts?.value, elapsed: elapsed?.value, low: elapsed?.low, high: elapsed?.high })];
  });
  const { value, low, high } = results.work ?? {}; // the fire watch is no work
  return { ...told({ elapsed: value, low, high }), cuts: Object.fromEntries(cuts) };
}
