// @ts-check
/**
 * Where this phone is at home: read from the local database, the one place that is certain. Loaded
 * after the first screen, and by the screens of the crew.
 */

import { Database } from "../db.js";
import { unlessLeft } from "../../browser/leaving.js";
import { readMeta, writeMeta } from "../meta.js";
import { hintedCrew, nameOf } from "./name.js";

/**
 * @typedef {import("../meta.js").Meta} Meta
 * @typedef {import("../shapes.js").Joining} Joining
 */

/**
 * Runs body over the record meta of the local database and writes what it changed.
 * @template T
 * @param {IDBFactory|undefined} factory
 * @param {(meta: Meta) => T} body
 */
export function withLocalMeta(factory, body) {
  return withMeta(nameOf(""), factory, body);
}

/** The same over that of any database. @template T @param {string} name @param {IDBFactory|undefined} factory @param {(meta: Meta) => T} body */
async function withMeta(name, factory, body) {
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

/**
 * The crew that this phone is in, "" for none, after a join that broke off was gone on with.
 *
 * The hint is written after home: a phone that has it alone, or has left a second copy and has no
 * store, lost that to the browser. It goes on as whose copy it is.
 * @param {IDBFactory} [factory]
 * @param {{whose?: () => Promise<import("../copy.js").Whose|undefined>, onEmptied?: () => void}} [deps]
 * @returns {Promise<string>}
 */
export async function findHome(factory, { whose = async () => undefined, onEmptied = () => {} } = {}) {
  const { home, joining, crews, device } = await withLocalMeta(factory, (meta) => meta);
  const isBlank = !home && !joining && !crews.length;
  const left = isBlank && !device ? await whose() : undefined;
  const crew = hintedCrew() || (left?.crew ?? "");
  if (isBlank && crew) {
    const device = left?.crew === crew ? left.device : "";
    await withMeta(nameOf(crew), factory, (meta) => void Object.assign(meta, { crew, device: meta.device || device }));
    await withLocalMeta(factory, (meta) => void Object.assign(meta, { home: crew, crews: [crew] }));
    onEmptied();
    return crew;
  }
  if (left) {
    await withLocalMeta(factory, (meta) => void (meta.device ||= left.device));
    onEmptied();
  }
  if (!joining) return home;
  const { goOn } = await unlessLeft(import("./join.js"));
  return goOn({ factory }).catch(() => home); // no answer now: the next start asks again
}
