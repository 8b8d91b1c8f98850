// @ts-check
/** Prints times for people; the clock's own form is the phone's. */
import { say } from "../words/words.js";

/** @param {number} ms since 1970 */
export function clockTime(ms) {
  return isTime(ms) ? new Date(ms).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" }) : say("time.none");
}

/** @param {number} ms since 1970 */
export function dayAndTime(ms) {
  return isTime(ms) ? new Date(ms).toLocaleString([], { weekday: "short", day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" }) : say("time.none");
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

/** A span in whole minutes, rounded up while any is left. @param {number} ms */
export function minutes(ms) {
  return say("span.min", { min: Math.ceil(Math.max(0, ms) / 60_000) });
}
