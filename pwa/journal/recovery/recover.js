// @ts-check
/**
 * Brings back from the second copy what the store has lost, and keeps the copy to what is only on this
 * phone. Loaded after the first screen, where the browser has buckets.
 */

import { databaseName } from "../crew/database-name.js";
import { resultOf, Database } from "../db.js";
import { readMeta, unsentRange, writeMeta } from "../meta.js";
import { putRecord } from "../records.js";

/**
 * @typedef {import("../second-copy.js").Copied} Copied
 * @typedef {import("../second-copy.js").SecondCopy} Copy
 * @typedef {import("../local-state.js").LocalState} Own
 * @typedef {import("../shapes.js").EventRecord} EventRecord
 */

/** A bucket with more entries than this stays where it is, if none as large joins it. */
const large = 500;
/** Records in one transaction. */
const portion = 500;

/**
 * Puts back what the store lacks, and takes over the buckets that closed tabs left.
 * @param {Copy} copy
 * @param {string} home  the crew this phone is in
 * @param {Own} localState
 * @param {IDBFactory} [factory]
 * @returns {Promise<{back: number, wasBlank: boolean}>}  how many entries came back, and whether the store had none
 */
export async function recover(copy, home, localState, factory) {
  let back = 0;
  const main = new Database(databaseName(home), { factory });
  const kept = await onlyHere(main);
  const wasBlank = (await main.run(["event"], "readonly", (tx) => resultOf(tx.objectStore("event").getKey(IDBKeyRange.lowerBound(""))))) === undefined;
  await copy.eachLeft(async (bucket, whose, theirs) => {
    localState.merge(theirs);
    await localState.copyAll();
    const ids = await bucket.run(["event"], "readonly", allKeys);
    const isLarge = ids.length > Math.max(large, copy.held.size);
    // Of a large one only what is not where it should be is read.
    const wanted = isLarge ? ids.filter((id) => !kept.has(id)) : ids;
    for (let i = 0; i < wanted.length; i += portion) {
      /** @type {Copied[]} */
      const records = await read(bucket, wanted.slice(i, i + portion));
      for (const name of new Set(records.map((record) => placeOf(record, home)))) {
        const db = name === main.name ? main : new Database(name, { factory });
        const { missed, still } = await enter(db, records.filter((record) => placeOf(record, home) === name));
        if (db !== main) db.close();
        back += missed;
        await copy.keep(name, whose, still);
      }
    }
    const stays = wanted.length < ids.length;
    if (stays) for (const id of ids) if (kept.has(id)) copy.held.set(id, { db: main.name });
    return !stays;
  });
  main.close();
  return { back, wasBlank };
}

/**
 * Has the copy hold what is only in this database, and no more of it.
 * @param {Copy} copy
 * @param {Database} db  that of this phone's home
 */
export async function matchCopy(copy, db) {
  const { crew, device } = await db.run(["meta"], "readonly", readMeta);
  // Looked at before the store, so that a tap between the two is not taken for one that was sent.
  const held = [...copy.held].filter(([, record]) => placeOf(record, crew) === db.name).map(([id]) => id);
  const here = await onlyHere(db);
  await copy.drop(held.filter((id) => !here.has(id)));
  if (copy.crew !== crew) await copy.keep(db.name, { crew, device }, []);
  const lacking = [...here].filter((id) => !copy.held.has(id));
  for (let i = 0; i < lacking.length; i += portion) {
    await copy.keep(db.name, { crew, device }, await read(db, lacking.slice(i, i + portion)));
  }
}

/** The database where an entry stands now: what was never in a crew moves when the phone joins one. @param {{db: string, o?: string}} record @param {string} home */
function placeOf({ db, o }, home) {
  return db === databaseName("") && !o ? databaseName(home) : db;
}

/** Ids of what the server has not. @param {Database} db @returns {Promise<Set<string>>} */
function onlyHere(db) {
  return db.run(["event"], "readonly", async (tx) => {
    const index = tx.objectStore("event").index("unsent");
    const lists = await Promise.all([resultOf(index.getAllKeys(unsentRange(1))), resultOf(index.getAllKeys(unsentRange(2)))]);
    return new Set(/** @type {string[]} */ (lists.flat()));
  });
}

/** @param {IDBTransaction} tx @returns {Promise<string[]>} */
function allKeys(tx) {
  return /** @type {Promise<string[]>} */ (resultOf(tx.objectStore("event").getAllKeys()));
}

/** Records of a phone's store, or of a bucket. @template {Pick<EventRecord, "id"|"raw"|"t"|"o">} R @param {Database} db @param {string[]} ids @returns {Promise<R[]>} */
async function read(db, ids) {
  const found = await db.run(["event"], "readonly", (tx) => Promise.all(ids.map((id) => resultOf(tx.objectStore("event").get(id)))));
  return found.filter(Boolean);
}

/**
 * Enters what is not there; still: what the server has not.
 * @param {Database} db
 * @param {Copied[]} records
 */
function enter(db, records) {
  return db.run(["event", "meta"], "readwrite", async (tx) => {
    const events = tx.objectStore("event");
    const meta = await readMeta(tx);
    let missed = 0;
    /** @type {EventRecord[]} */
    const still = [];
    for (const { id, raw, t, o } of records) {
      /** @type {EventRecord} */
      let record = await resultOf(events.get(id));
      if (!record) {
        record = { id, raw, t, l: 0, unsent: 1 };
        if (o) record.o = o;
        putRecord(tx, meta, record);
        if (t > meta.clock) meta.clock = t;
        missed++;
      }
      if (!record.n) still.push(record);
    }
    if (missed > 0) writeMeta(tx, meta);
    return { missed, still };
  });
}
