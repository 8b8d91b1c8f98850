// How a test waits: not for a time, but until what was under way has had its turn.

/** Lets what waits for nothing be done. */
export const turn = () => new Promise((resolve) => setImmediate(resolve));

/** The same for what takes several steps one after the other, as a store does. */
export async function turns(n = 50) {
  for (let i = 0; i < n; i++) await turn();
}
