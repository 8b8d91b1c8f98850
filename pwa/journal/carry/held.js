// @ts-check
/** What the server will not have: entries put aside, and pictures refused for good. */

import { asked } from "../db.js";
import { unsent } from "../meta.js";
import { waitingKey } from "../photo/photos.js";

/**
 * @param {import("../db.js").Database} db
 * @returns {Promise<{entries: {id: string, raw: string, why: string}[], pictures: string[]}>}  pictures: hashes
 */
export function heldBack(db) {
  return db.run(["event", "photo"], "readonly", async (tx) => {
    const aside = await asked(tx.objectStore("event").index("unsent").getAll(unsent(2)));
    const waiting = await asked(tx.objectStore("photo").get(waitingKey));
    return {
      entries: aside.map(({ id, raw, aside }) => ({ id, raw, why: aside?.msg ?? "" })),
      pictures: waiting?.refused ?? [],
    };
  });
}
