// @ts-check
/** What the server will not have: entries put aside, and pictures refused for good. */

import { resultOf } from "../db.js";
import { unsentRange } from "../meta.js";
import { refusedOf, waitingKey } from "../photo/waiting.js";
import { referrersOf } from "../photo/referrers.js";

/**
 * @typedef {{id: string, raw: string, why: string}} RejectedEntry
 * @typedef {{sha256: string, raw: string, why: string}} RejectedPicture  raw: of the entry that tells of it, "" if none does
 * @param {import("../db.js").Database} db
 * @returns {Promise<{entries: RejectedEntry[], pictures: RejectedPicture[]}>}
 */
export function readRejected(db) {
  return db.run(["event", "photo"], "readonly", async (tx) => {
    const aside = await resultOf(tx.objectStore("event").index("unsent").getAll(unsentRange(2)));
    const refused = refusedOf(await resultOf(tx.objectStore("photo").get(waitingKey)));
    const told = await referrersOf(tx, new Set(refused.map(({ sha256 }) => sha256)));
    return {
      entries: aside.map(({ id, raw, aside }) => ({ id, raw, why: aside?.msg ?? "" })),
      pictures: refused.map(({ sha256, why }) => ({ sha256, why, raw: told.get(sha256)?.[0].raw ?? "" })),
    };
  });
}
