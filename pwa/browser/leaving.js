// @ts-check
/**
 * A page that is being left lives on until the next one comes, up to seconds, but Firefox and WebKit cut
 * off at once what it loads: modules, also those of its worker, and answers. What fails so is no news to
 * anybody, unless the page stays after all: a link to a call or a file, or a load that was stopped.
 */

/** How long the next page may take to come, ms. */
const patience = 10_000;

let stays = Promise.resolve();

globalThis.addEventListener?.("beforeunload", () => {
  stays = new Promise((resolve) => setTimeout(resolve, patience));
});

/** Resolves at once; while the page is being left, when it turns out that it stays. */
export const staying = () => stays;

/**
 * What is loading, which fails while the page is being left only if it stays after all. Each import()
 * of a page goes through here.
 * @template T
 * @param {Promise<T>} loading
 * @returns {Promise<T>}
 */
export async function unlessLeft(loading) {
  try {
    return await loading;
  } catch (err) {
    await stays;
    throw err;
  }
}

/**
 * Loads the page anew, which would cut off another that is on its way: then it waits whether this one stays.
 * @param {{ready: () => Promise<unknown>, stay: () => void, load: () => void}} how  ready: what comes before; stay: undoes that
 * @returns {Promise<void>}
 */
export async function loadUnlessLeft(how) {
  await stays;
  const before = stays;
  await how.ready();
  if (stays === before) return how.load();
  how.stay();
  return loadUnlessLeft(how);
}
