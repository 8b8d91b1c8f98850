// @ts-check
/** Pictures that another app shared. sw.js puts them aside, in a cache of this name that no update clears. */
const name = "shared";

/** What waits, oldest first; nothing where a page may keep no files. @returns {Promise<{cache?: Cache, waiting: readonly Request[]}>} */
export async function shared() {
  const cache = await globalThis.caches?.open(name);
  return { cache, waiting: (await cache?.keys()) ?? [] };
}
