// @ts-check
/**
 * Controls that move under a thumb: they hear nothing until what moves them has come, and a moment
 * longer, for gloves bounce.
 */

/** What has just moved is deaf this long, ms. */
const moment = 350;

/**
 * Runs work that repaints elements, deaf meanwhile. The focus stays where it was, if that is still there.
 * @template T
 * @param {HTMLElement[]} elements
 * @param {() => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function inertWhile(elements, work) {
  const focused = document.activeElement;
  for (const el of elements) el.inert = true;
  try {
    return await work();
  } finally {
    setTimeout(() => {
      for (const el of elements) el.inert = false;
      if (focused instanceof HTMLElement && focused.isConnected && document.activeElement === document.body) focused.focus({ preventScroll: true });
    }, moment);
  }
}
