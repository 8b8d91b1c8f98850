// @ts-check
/**
 * Does what may take so long and no longer: then its signal cuts it off, and it fails by a TimeoutError. A
 * browser without AbortSignal.timeout would fail at each request, and look like a phone that is offline for ever.
 * @template T
 * @param {number} ms
 * @param {(signal: AbortSignal) => Promise<T>} ask
 * @param {AbortSignal} [life]  cuts it off as well
 * @returns {Promise<T>}
 */
export async function within(ms, ask, life) {
  const late = new AbortController();
  const cut = () => late.abort();
  const timer = setTimeout(cut, ms);
  life?.addEventListener("abort", cut);
  try {
    return await ask(late.signal);
  } catch (err) {
    throw late.signal.aborted ? new DOMException(`not within ${ms} ms`, "TimeoutError") : err;
  } finally {
    clearTimeout(timer);
    life?.removeEventListener("abort", cut);
  }
}
