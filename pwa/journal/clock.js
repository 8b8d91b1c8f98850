// @ts-check
/**
 * The hybrid clock that stamps taps, after "The clock" in calc/journal/event.md: 48 bits of ms and 16 of
 * counter in 16 hex digits. Go and this file run the same vectors, testdata/journal/clock.json.
 */

const maxMs = 2 ** 48 - 1;
const maxCounter = 0xffff;

/** The stamp before all others. */
export const firstStamp = "0".repeat(16);

/**
 * The stamp after last.
 * @param {string} last    the last stamp given, 16 hex digits
 * @param {number} wall    the phone's clock, ms since 1970
 * @param {number} offset  server minus phone at the last sync, ms
 * @returns {string}
 */
export function stamp(last, wall, offset) {
  const ms = millis(last);
  const counter = parseInt(last.slice(12), 16);
  const now = Math.min(Math.max(wall + offset, 0), maxMs);
  if (now > ms) return text(now, 0);
  if (counter < maxCounter) return text(ms, counter + 1);
  if (ms < maxMs) return text(ms + 1, 0);
  return last;
}

/** The ms of a stamp. @param {string} stamp */
export function millis(stamp) {
  return parseInt(stamp.slice(0, 12), 16);
}

/**
 * The clock after a sync: it follows the server even backwards when nothing waits,
 * which mends a clock that ran ahead; else it never goes back.
 * @param {string} last
 * @param {string} known   the highest o known, "" for none
 * @param {boolean} unsent
 */
export function settle(last, known, unsent) {
  if (!known) return unsent ? last : firstStamp;
  return unsent && last > known ? last : known;
}

/** @param {number} ms @param {number} counter */
function text(ms, counter) {
  return ms.toString(16).padStart(12, "0") + counter.toString(16).padStart(4, "0");
}
