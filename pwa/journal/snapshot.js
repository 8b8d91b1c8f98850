// @ts-check
/** The stored snapshot of what the wasm has folded: a cache, which goes first when room is short. */

import { newId } from "./id.js";
import { readMeta, writeMeta } from "./meta.js";

/**
 * Clears the snapshot. Returns the name of the empty one, which meta keeps as ladder.
 * @param {import("./db.js").Database} db
 * @returns {Promise<string>}
 */
export function dropSnapshot(db) {
  const name = newId();
  return db.run(["snapshot", "meta"], "readwrite", async (tx) => {
    tx.objectStore("snapshot").clear();
    writeMeta(tx, { ...(await readMeta(tx)), ladder: name });
    return name;
  });
}
