// @ts-check
/** Who looks at a report of the Book, and when: reports know no clock and no settings. */

const day = 86_400_000;
/** How far back and ahead changes of the clock are looked for, days. */
const [back, ahead] = [800, 400];

/** @param {Pick<import("../app.js").Deps, "journal"|"settings">} deps @param {string} report @param {string} [id] */
export function lookOf({ journal, settings: { values: { units, rig, watcher } } }, report, id = "") {
  const now = journal.now();
  return { report, id, now, zone: zoneAround(now), units, rig, watcher, coming: journal.state.coming };
}

/** Has a report read again whenever what it is made of may be another, or the last of what was coming is here. @param {Pick<import("../app.js").Deps, "journal"|"life">} deps @param {() => unknown} read */
export function onNews({ journal, life: signal }, read) {
  let wasComing = journal.state.coming > 0;
  journal.addEventListener("views", read, { signal });
  journal.addEventListener("sync", () => {
    const isComing = journal.state.coming > 0;
    if (isComing !== wasComing) read();
    wasComing = isComing;
  }, { signal });
}

/** How far the phone's clock is ahead of UTC, and when that changes. @param {number} now  ms since 1970 @returns {import("../types/journal.js").Shift[]} rising */
export function zoneAround(now) {
  const minutesAt = (/** @type {number} */ ms) => -new Date(ms).getTimezoneOffset();
  const shifts = [{ from: now - back * day, minutes: minutesAt(now - back * day) }];
  for (let at = shifts[0].from; at < now + ahead * day; at += day) {
    const minutes = minutesAt(at + day);
    if (minutes === shifts[shifts.length - 1].minutes) continue;
    let [low, high] = [at, at + day];
    while (high - low > 60_000) {
      const middle = Math.floor((low + high) / 2);
      if (minutesAt(middle) === minutes) high = middle;
      else low = middle;
    }
    shifts.push({ from: Math.ceil(low / 60_000) * 60_000, minutes });
  }
  return shifts;
}
