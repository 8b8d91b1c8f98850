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
