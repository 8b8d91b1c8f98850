// @ts-check
/** Finds the entries that tell of pictures. */

import { resultOf } from "../db.js";

/** How many entries are read at once. */
const portion = 500;

/**
 * Reads the whole journal: for what is rare.
 * @param {IDBTransaction} tx  over event
 * @param {Set<string>} sums
 * @returns {Promise<Map<string, import("../shapes.js").EventRecord[]>>} by hash, those first that the server has
 */
export async function referrersOf(tx, sums) {
  const events = tx.objectStore("event");
  /** @type {Map<string, import("../shapes.js").EventRecord[]>} */
  const found = new Map();
  if (sums.size === 0) return found;
  for (let from = null; ;) {
    const list = await resultOf(events.getAll(from, portion));
    for (const record of list) {
      const sha256 = pictureOf(record.raw);
      if (!sums.has(sha256)) continue;
      const all = found.get(sha256) ?? [];
      found.set(sha256, record.n ? [record, ...all] : [...all, record]);
    }
    if (list.length < portion) return found;
    from = IDBKeyRange.lowerBound(list[portion - 1].id, true);
  }
}

/** The hash of the picture that an entry tells of, or "". @param {string} raw */
function pictureOf(raw) {
  if (!raw.includes("photo.added")) return "";
  const { kind, body } = JSON.parse(raw);
  return kind === "photo.added" && typeof body?.sha256 === "string" ? body.sha256 : "";
}
