// @ts-check
/**
 * Where this phone is at home: read from the local database, the one place that is certain. Loaded
 * after the first screen, and by the screens of the crew.
 */

import { Database } from "../db.js";
import { readMeta, writeMeta } from "../meta.js";
import { hintedCrew, nameOf } from "./name.js";

/**
 * @typedef {import("../meta.js").Meta} Meta
 * @typedef {import("../shapes.js").Joining} Joining
 */

const emptied = { kind: "emptied", msg: "The browser has emptied this phone’s store", hint: "What the server has comes back; what it had not is gone" };

/**
 * Runs body over the record meta of the local database and writes what it changed.
 * @template T
 * @param {IDBFactory|undefined} factory
 * @param {(meta: Meta) => T} body
 */
export function withLocalMeta(factory, body) {
  return withMeta(nameOf(""), factory, body);
}

/** @template T @param {string} name @param {IDBFactory|undefined} factory @param {(meta: Meta) => T} body */
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
 * The hint is written after home: a phone that has it alone lost its store to the browser.
 * @param {IDBFactory} [factory]
 * @param {EventTarget} [told]  hears a "trouble" then
 * @returns {Promise<string>}
 */
export async function findHome(factory, told) {
  const crew = hintedCrew();
  const { home, joining, crews } = await withLocalMeta(factory, (meta) => meta);
  if (crew && !home && !joining && !crews.length) {
    await withMeta(nameOf(crew), factory, (meta) => void (meta.crew = crew));
    await withLocalMeta(factory, (meta) => void Object.assign(meta, { home: crew, crews: [crew] }));
    told?.dispatchEvent(new CustomEvent("trouble", { detail: emptied }));
    return crew;
  }
  if (!joining) return home;
  const { goOn } = await import("./join.js");
  return goOn({ factory }).catch(() => home); // no answer now: the next start asks again
}
