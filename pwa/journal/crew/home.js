// @ts-check
/**
 * Where this phone is at home: read from the local database, the one place that is certain. Loaded
 * after the first screen, and by the screens of the crew.
 */

import { Database } from "../db.js";
import { readMeta, writeMeta } from "../meta.js";
import { nameOf } from "./name.js";

/**
 * @typedef {import("../meta.js").Meta} Meta
 * @typedef {import("../shapes.js").Joining} Joining
 */

/**
 * Runs body over the record meta of the local database and writes what it changed.
 * @template T
 * @param {IDBFactory|undefined} factory
 * @param {(meta: Meta) => T} body
 * @returns {Promise<T>}
 */
export async function withLocalMeta(factory, body) {
  const local = new Database(nameOf(""), { factory });
  try {
    return await local.run(["meta"], "readwrite", async (tx) => {
      const meta = await readMeta(tx);
      const before = JSON.stringify(meta);
      const result = body(meta);
      if (JSON.stringify(meta) !== before) writeMeta(tx, meta);
      return result;
    });
  } finally {
    local.close();
  }
}

/**
 * The crew that this phone is in, "" for none, after a join that broke off was gone on with.
 * @param {IDBFactory} [factory]
 * @returns {Promise<string>}
 */
export async function findHome(factory) {
  const { home, joining } = await withLocalMeta(factory, ({ home, joining }) => ({ home, joining }));
  if (!joining) return home;
  const { goOn } = await import("./join.js");
  return goOn({ factory }).catch(() => home); // no answer now: the next start asks again
}
