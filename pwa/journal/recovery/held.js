// @ts-check
/** What the server will not have: entries put aside, and pictures refused for good. */

import { asked } from "../db.js";
import { unsent } from "../meta.js";
import { refusedOf, waitingKey } from "../photo/photos.js";
import { tellers } from "../photo/tellers.js";

/**
 * @typedef {{id: string, raw: string, why: string}} HeldEntry
 * @typedef {{sha256: string, raw: string, why: string}} HeldPicture  raw: of the entry that tells of it, "" if none does
 * @param {import("../db.js").Database} db
 * @returns {Promise<{entries: HeldEntry[], pictures: HeldPicture[]}>}
 */
export function heldBack(db) {
  return db.run(["event", "photo"], "readonly", async (tx) => {
    const aside = await asked(tx.objectStore("event").index("unsent").getAll(unsent(2)));
    const refused = refusedOf(await asked(tx.objectStore("photo").get(waitingKey)));
    const told = await tellers(tx, new Set(refused.map(({ sha256 }) => sha256)));
    return {
      entries: aside.map(({ id, raw, aside }) => ({ id, raw, why: aside?.msg ?? "" })),
      pictures: refused.map(({ sha256, why }) => ({ sha256, why, raw: told.get(sha256)?.[0].raw ?? "" })),
    };
  });
}
