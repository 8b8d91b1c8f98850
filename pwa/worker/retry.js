// @ts-check
/** What sets the sync going again: a new version of the app, or a person. */

import { resultOf } from "../journal/db.js";
import { readMeta, unsentRange, writeMeta } from "../journal/meta.js";
import { isCounted, putRecord, recount } from "../journal/records.js";

/** @typedef {import("../journal/db.js").Database} Database */

/**
 * Offers what was put aside once more, if this is another build of the app than the one that last ran,
 * and counts what is unsent, which that may not have kept.
 * @param {Database} db
 * @param {string} build
 */
export function requeueRejected(db, build) {
  return db.run(["event", "meta"], "readwrite", async (tx) => {
    const meta = await readMeta(tx);
    const isOther = meta.build !== build;
    if (!isOther && isCounted(meta)) return;
    await recount(tx, meta);
    meta.build = build;
    for (const was of isOther ? await resultOf(tx.objectStore("event").index("unsent").getAll(unsentRange(2))) : []) {
      const { aside, ...record } = was;
      putRecord(tx, meta, { ...record, unsent: 1 }, was);
    }
    writeMeta(tx, meta);
  });
}

/**
 * Lets the sync go on after it stopped for a person.
 * @param {Database} db
 */
export function resumeSync(db) {
  return db.run(["meta"], "readwrite", async (tx) => {
    const meta = await readMeta(tx);
    writeMeta(tx, { ...meta, stopped: null, rewinds: [], turn: meta.turn + 1 });
  });
}
