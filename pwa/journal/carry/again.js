// @ts-check
/** What sets the sync going again: a new version of the app, or a person. Loaded when it is wanted. */

import { asked } from "../db.js";
import { readMeta, unsent, writeMeta } from "../meta.js";

/** @typedef {import("../db.js").Database} Database */

/**
 * Offers what was put aside once more, if this is another build of the app than the one that last ran.
 * @param {Database} db
 * @param {string} build
 */
export function offerAgain(db, build) {
  return db.run(["event", "meta"], "readwrite", async (tx) => {
    const meta = await readMeta(tx);
    if (meta.build === build) return;
    meta.build = build;
    const events = tx.objectStore("event");
    for (const { aside, ...record } of await asked(events.index("unsent").getAll(unsent(2)))) {
      events.put({ ...record, unsent: 1, l: meta.nextL++ });
    }
    writeMeta(tx, meta);
  });
}

/**
 * Lets the sync go on after it stopped for a person.
 * @param {Database} db
 */
export function resume(db) {
  return db.run(["meta"], "readwrite", async (tx) => {
    const meta = await readMeta(tx);
    writeMeta(tx, { ...meta, stopped: null, rewinds: [], turn: meta.turn + 1 });
  });
}
