// @ts-check
/**
 * What lies over the page, the topmost last. Each is a step of the history, so that Back closes it and
 * nothing else: a step of the same page whose state says how many lie over it. One that closes by itself
 * takes its step back. A step to which the browser comes without its overlay, by Forward or after the page
 * was loaded anew, is gone back from at once.
 */

/** How each closes. @type {(() => void)[]} */
const overlays = [];
/** Where we sent the history, as a number of overlays; ends when it has come there. @type {{over: number, promise: Promise<void>, end: () => void}|null} */
let way = null;

/** The state that the history has come to on that way before its event did, as a number of overlays. @type {number|null} */
let heralded = null;

/** The longest that a screen which is to be shown waits for that, ms. */
const longestWait = 1000;

/** Takes a step for what has just opened. @param {() => void} close @returns {() => void} to call when it closes, whatever closes it */
export function opened(close) {
  overlays.push(close);
  tidy();
  return () => {
    const at = overlays.indexOf(close);
    if (at < 0) return;
    closeAbove(at + 1);
    overlays.length = at;
    tidy();
  };
}

/** Closes all, and resolves when no step is left of them, or after the longest wait. */
export async function uncover() {
  closeAbove(0);
  tidy();
  const patience = new Promise((resolve) => setTimeout(resolve, longestWait, true));
  while (way && !(await Promise.race([way.promise, patience])));
}

/** The history has come to a state. @param {{over?: number}|null} state */
export function arrived(state) {
  const over = state?.over ?? 0;
  if (way) way.end();
  else if (heralded !== over) closeAbove(over); // else it is the event of a way that has ended: what opened meanwhile stays
  heralded = null;
  tidy();
}

/** Brings the history to as many steps as there are overlays: one way at a time, for each is from where it stands then. */
export function tidy() {
  const over = history.state?.over ?? 0;
  if (way && over !== way.over) return; // once more when it has come, however long it takes
  if (way) {
    heralded = over;
    way.end();
  }
  for (let n = over + 1; n <= overlays.length; n++) history.pushState({ ...history.state, over: n }, "");
  if (over <= overlays.length) return;
  let end = () => {};
  const promise = /** @type {Promise<void>} */ (new Promise((resolve) => (end = () => {
    way = null;
    resolve();
  })));
  way = { over: overlays.length, promise, end };
  history.go(overlays.length - over);
}

/** Closes the topmost until so many are left. @param {number} left */
function closeAbove(left) {
  while (overlays.length > left) overlays.pop()?.();
}
