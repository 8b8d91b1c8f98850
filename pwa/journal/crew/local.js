// @ts-check
/** The record meta of a database that this page does not hold open: that of the phone's own journal, first of all. */

import { Database } from "../db.js";
import { readMeta, writeMeta } from "../meta.js";
import { databaseName } from "./database-name.js";

/** @typedef {import("../meta.js").Meta} Meta */

/**
 * Runs body over the record meta of the local database and writes what it changed.
 * @template T
 * @param {IDBFactory|undefined} factory
 * @param {(meta: Meta) => T} body
 */
export function withLocalMeta(factory, body) {
  return withMeta(databaseName(""), factory, body);
}

/** The same over that of any database. @template T @param {string} name @param {IDBFactory|undefined} factory @param {(meta: Meta) => T} body */
export async function withMeta(name, factory, body) {
  const db = new Database(name, { factory });
  try {
    return await db.run(["meta"], "readwrite", async (tx) => {
      const meta = await readMeta(tx);
      const before = JSON.stringify(meta);
      const result = body(meta);
      if (JSON.stringify(meta) !== before) writeMeta(tx, meta);
      return result;
    });
  } finally {
    db.close();
  }
}
