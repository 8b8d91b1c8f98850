// @ts-check
/** What goes wrong with the store of this phone, and how it is told. */

import { asTrouble } from "../calc/trouble.js";

/** @typedef {import("../calc/trouble.js").Trouble} Trouble */

/** What is said of a second copy that is not kept. @param {unknown} err @returns {Trouble} */
export function notTwice(err) {
  if (isFull(err)) return { kind: "disk-full", msg: "This phone has no room for a second copy of what you tap.", hint: "The entries are stored once. Free some space." };
  return asTrouble(err, "The phone keeps no second copy of what you tap", "The entries are stored once. Reload the page.");
}

/** What is said of taps that were stored in the second copy alone when the browser was ended. @param {number} back @returns {Trouble} */
export function cutOff(back) {
  return { kind: "cut-off", msg: "Kerfside was cut off amid a tap", hint: `What was tapped is back: ${back}.` };
}

/** What is said of a store that the browser emptied. @param {number} back  entries that came back from the second copy @param {boolean} isTwice  there is one @returns {Trouble} */
export function emptied(back, isTwice) {
  const rest = isTwice ? "What the server has comes back." : "What the server has comes back; what it had not is gone.";
  const hint = back > 0 ? `${back} that only this phone had are back. ${rest}` : rest;
  return { kind: "emptied", msg: "The browser has emptied this phone’s store.", hint };
}

/** Whether a write failed for want of room. @param {unknown} err */
export function isFull(err) {
  return err instanceof DOMException && err.name === "QuotaExceededError";
}

/** What is said of a write that failed. @param {unknown} err @returns {Trouble} */
export function notStored(err) {
  if (isFull(err)) return { kind: "disk-full", msg: "This phone has no room left: the entry is not stored.", hint: "Free some space, then keep it again. Until then it is only in this open page." };
  return asTrouble(err, "The phone's store did not take the entry", "Keep it again. If that fails, write the entry down and reload the page.");
}
