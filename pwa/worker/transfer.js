// @ts-check
/**
 * Everything out of this phone as one text, and in again. Runs in the worker, beside the wasm.
 */

import { resultOf } from "../journal/db.js";
import { readMeta, assertAtHome, writeMeta } from "../journal/meta.js";
import { putRecord } from "../journal/records.js";

/**
 * @typedef {import("../journal/db.js").Database} Database
 * @typedef {import("../calc/shapes.js").Call} Call
 * @typedef {import("../journal/shapes.js").EventRecord} EventRecord
 * @typedef {import("../types/journal.js").ImportedEvent} Incoming
 */

/** Records read or written in one transaction. */
const portion = 500;

/**
 * @param {Database} db
 * @param {Call} call
 * @param {number} now
 * @param {boolean} [customers]  what customers are called as well
 * @returns {Promise<{text: string, name: string, says?: string}>}
 */
export async function exportJournal(db, call, now, customers) {
  /** @type {EventRecord[]} */
  const events = [];
  for (;;) {
    const last = events.at(-1);
    const range = last ? IDBKeyRange.lowerBound(last.id, true) : null;
    const page = await db.run(["event"], "readonly", (tx) => resultOf(tx.objectStore("event").getAll(range, portion)));
    events.push(...page);
    if (page.length < portion) break;
  }
  const { crew, device } = await db.run(["meta"], "readonly", readMeta);
  return call("journal-export", { events, crew, device, now, customers });
}

/**
 * Enters what is not here yet; doing it twice adds nothing.
 * @param {Database} db
 * @param {Call} call
 * @param {string} text
 * @returns {Promise<{added: number, known: number, l: number, refused: {line: number, error: import("../calc/trouble.js").Trouble}[]}>}
 */
export async function importJournal(db, call, text) {
  const { events, refused } = call("journal-import", { text });
  const done = { added: 0, known: 0, l: 0, refused: refused ?? [] };
  for (let i = 0; i < (events ?? []).length; i += portion) {
    const { added, known, l } = await enter(db, events.slice(i, i + portion));
    done.added += added;
    done.known += known;
    done.l = Math.max(done.l, l);
  }
  return done;
}

/** @param {Database} db @param {Incoming[]} list */
function enter(db, list) {
  return db.run(["event", "meta"], "readwrite", async (tx) => {
    const events = tx.objectStore("event");
    const meta = await readMeta(tx);
    assertAtHome(meta);
    const count = { added: 0, known: 0, l: 0 };
    for (const { id, raw, t, o, else: other } of list) {
      const there = await resultOf(events.get(id));
      const fresh = !there ? { id, raw } : there.raw !== raw && !(await resultOf(events.get(other.id))) ? other : null;
      if (!fresh) {
        count.known++;
        continue;
      }
      count.added++;
      /** @type {EventRecord} */
      const record = { ...fresh, t, l: 0, unsent: 1 };
      if (o && fresh !== other) record.o = o;
      putRecord(tx, meta, record);
      count.l = record.l;
    }
    writeMeta(tx, meta);
    return count;
  });
}
