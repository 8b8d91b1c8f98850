// @ts-check
/** Nothing moves under a finger: what comes late waits until no finger is on what it would move, and a second longer. */

/** So long after a touch began there nothing moves, ms. */
const moment = 1000;

/** Fingers on the glass, by what they are on. @type {Map<number, EventTarget|null>} */
const down = new Map();
/** The last touch of each thing. @type {{target: EventTarget|null, at: number}[]} */
let begun = [];

/** Notes where fingers are; app.js hears them for the whole document. @param {PointerEvent} event */
export function noteTouch({ type, pointerId, target }) {
  if (type !== "pointerdown") return void down.delete(pointerId);
  down.set(pointerId, target);
  const at = performance.now();
  begun = [...begun.filter((one) => one.at > at - moment), { target, at }];
}

/** Resolves when the element may change its places. @param {Element} el @returns {Promise<void>} */
export async function settled(el) {
  const on = (/** @type {EventTarget|null} */ target) => el.contains(/** @type {Node} */ (target));
  for (;;) {
    const last = Math.max(-Infinity, ...begun.filter(({ target }) => on(target)).map(({ at }) => at));
    const wait = [...down.values()].some(on) ? 100 : last + moment - performance.now();
    if (wait <= 0) return;
    await new Promise((resolve) => setTimeout(resolve, wait));
  }
}
