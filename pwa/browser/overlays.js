// @ts-check
/**
 * What lies over the page, the topmost last. Each is a step of the history, so that Back closes it and
 * nothing else: a step of the same page whose state says how many lie over it. One that closes by itself
 * takes its step back. A step to which the browser comes without its overlay, by Forward or after the page
 * was loaded anew, is gone back from at once.
 */

/** How each closes. @type {(() => void)[]} */
const overlays = [];
/** Ends when the history has come to where we sent it. @type {{promise: Promise<void>, end: () => void}|null} */
let way = null;

/** Steps that we sent it and that took longer: they may still come, and close nothing then. */
let late = 0;

/** The longest that a step of the history is waited for, ms. */
const longestStep = 1000;

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

/** Closes all, and resolves when no step is left of them. */
export async function uncover() {
  closeAbove(0);
  tidy();
  while (way) await way.promise;
}

/** The history has come to a state. @param {{over?: number}|null} state */
export function arrived(state) {
  if (way) way.end();
  else if (late > 0) late--;
  else closeAbove(state?.over ?? 0);
  tidy();
}

/** Brings the history to as many steps as there are overlays. */
export function tidy() {
  if (way) return; // once more when it has come
  const over = history.state?.over ?? 0;
  for (let n = over + 1; n <= overlays.length; n++) history.pushState({ ...history.state, over: n }, "");
  if (over <= overlays.length) return;
  let end = () => {};
  const promise = /** @type {Promise<void>} */ (new Promise((resolve) => (end = () => {
    if (way?.promise === promise) way = null;
    resolve();
  })));
  way = { promise, end };
  setTimeout(() => {
    if (way?.promise === promise) late++;
    end();
  }, longestStep);
  history.go(overlays.length - over);
}

/** Closes the topmost until so many are left. @param {number} left */
function closeAbove(left) {
  while (overlays.length > left) overlays.pop()?.();
}
