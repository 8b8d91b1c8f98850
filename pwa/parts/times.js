// @ts-check
/** Prints times for people; the clock's own form is the phone's. */
import { find, keep } from "../browser/storage.js";
import { say } from "../words/words.js";

/**
 * How this phone writes the time of day: what stands between hours and minutes and, where the day has two
 * halves, what follows in each.
 * @typedef {{apart: string, half: [string, string]|null}} ClockForm
 */

/**
 * It is remembered: a browser that has just started takes longer to find it out than to show all else. null: no
 * two parts make it up. @type {ClockForm|null|undefined}
 */
let known;

/** @param {number} ms since 1970 */
export function clockTime(ms) {
  if (!isTime(ms)) return say("time.none");
  const date = new Date(ms);
  const form = (known ??= remembered() ?? learnt());
  return form ? written(form, date.getHours(), date.getMinutes()) : formatted(date);
}

/** Finds out anew how the phone writes it: a person may have changed that without changing the language. Call it when nobody waits. */
export function learnClock() {
  known = learnt();
}

/**
 * Reads the form off a few times of a day; null if others could come out otherwise.
 * @param {(date: Date) => string} format
 * @returns {ClockForm|null}
 */
export function formOf(format) {
  const at = (/** @type {number} */ hours) => format(new Date(2001, 0, 1, hours, 5));
  const [, apart, morning] = /^02(\D+)05(\D*)$/.exec(at(2)) ?? [];
  const [, hour, , evening] = /^(02|14)(\D+)05(\D*)$/.exec(at(14)) ?? [];
  const isWhole = apart !== undefined && (hour === "02" ? morning !== evening : morning === "" && evening === "");
  if (!isWhole) return null;
  /** @type {ClockForm} */
  const form = { apart, half: hour === "02" ? [morning, evening] : null };
  return [0, 2, 12, 14].every((hours) => at(hours) === written(form, hours, 5)) ? form : null;
}

/** @param {ClockForm} form @param {number} hours @param {number} minutes */
function written({ apart, half }, hours, minutes) {
  return `${two(half ? hours % 12 || 12 : hours)}${apart}${two(minutes)}${half?.[hours < 12 ? 0 : 1] ?? ""}`;
}

/** @param {number} n */
function two(n) {
  return String(n).padStart(2, "0");
}

/** @param {Date} date */
function formatted(date) {
  return date.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
}

/** What an earlier start learnt, if the phone still speaks the same language. @returns {ClockForm|undefined} */
function remembered() {
  try {
    const [language, form] = JSON.parse(find("kerfside.clock") ?? "[]");
    return language === globalThis.navigator?.language && isForm(form) ? form : undefined;
  } catch {
    return undefined; // unreadable: as if it were not there
  }
}

/** @param {{apart?: unknown, half?: unknown}} form */
function isForm(form) {
  const isText = (/** @type {unknown} */ word) => typeof word === "string";
  return isText(form?.apart) && (form.half === null || (Array.isArray(form.half) && form.half.length === 2 && form.half.every(isText)));
}

/** @returns {ClockForm|null} */
function learnt() {
  const form = formOf(formatted);
  if (form) keep("kerfside.clock", JSON.stringify([globalThis.navigator?.language, form]));
  return form;
}

/** @param {number} ms since 1970 */
export function dayAndTime(ms) {
  return isTime(ms) ? new Date(ms).toLocaleString([], { weekday: "short", day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" }) : say("time.none");
}

/** The day that something was on: "Today", "Yesterday", or its date. @param {number} ms since 1970 */
export function dayName(ms) {
  if (!isTime(ms)) return say("time.none");
  const day = new Date(ms), today = new Date();
  const year = day.getFullYear() === today.getFullYear() ? undefined : "numeric";
  if (day.toDateString() === today.toDateString()) return say("time.today");
  today.setDate(today.getDate() - 1);
  return day.toDateString() === today.toDateString() ? say("time.yesterday") : day.toLocaleDateString([], { weekday: "short", day: "numeric", month: "short", year });
}

/** Whether a date can be made of it. @param {unknown} ms */
function isTime(ms) {
  return typeof ms === "number" && Math.abs(ms) <= 8.64e15;
}

/** A span such as 45 s, 12 min 5 s or 3 h 20 min. @param {number} ms */
export function span(ms) {
  const s = Math.max(0, Math.round(ms / 1000));
  if (s < 60) return say("span.s", { s });
  if (s < 3600) return s % 60 ? say("span.min-s", { min: Math.floor(s / 60), s: s % 60 }) : say("span.min", { min: s / 60 });
  return say("span.h-min", { h: Math.floor(s / 3600), min: Math.floor((s % 3600) / 60) });
}

/** So many starts of an arc. @param {{starts: number}} of */
export function startsOf({ starts }) {
  return say("cut.starts", { n: starts });
}

/** A span in whole minutes, rounded up while any is left. @param {number} ms */
export function minutes(ms) {
  return say("span.min", { min: Math.ceil(Math.max(0, ms) / 60_000) });
}
