// @ts-check
/**
 * Joining a crew, so that it may break off anywhere and be begun again: what was asked stands in
 * meta.joining of the local database before the server hears of it; entries are copied before they
 * are taken out; and taking them out and turning home to the crew is one transaction.
 */

import { Channel } from "../channel.js";
import { resultOf, Database } from "../db.js";
import { newId } from "../id.js";
import { readMeta, unsentRange, writeMeta } from "../meta.js";
import { mergeWaiting } from "../photo/photos.js";
import { forgetSeen, seenKey, waitingKey } from "../photo/waiting.js";
import { deleteRecord, putRecord } from "../records.js";
import { request, noAnswer } from "./request.js";
import { withLocalMeta } from "./local.js";
import { databaseName, setHint } from "./database-name.js";

/**
 * @typedef {import("../shapes.js").EventRecord} EventRecord
 * @typedef {import("../shapes.js").Joining} Joining
 * @typedef {{factory?: IDBFactory, send?: typeof fetch}} Deps
 * @typedef {{crew: string, device: string, name?: string}} Place  name: of the crew
 */

/** Records in one transaction. */
const portion = 500;

/**
 * Joins with a secret or a code; resolves when this phone is at home in the crew. Rejects with a
 * Trouble; after one of kind "no-answer" the join is still under way.
 * @param {{secret?: string, code?: string, name: string}} asking
 * @param {Deps} [deps]
 * @returns {Promise<string>}  id of the crew
 */
export async function join(asking, deps = {}) {
  await withLocalMeta(deps.factory, (meta) => {
    meta.device ||= newId();
    const { secret, code, retry } = meta.joining ?? {};
    const same = secret === asking.secret && code === asking.code;
    meta.joining = { ...asking, device: meta.device, retry: (same && retry) || newId() };
  });
  return resumeJoin(deps);
}

/**
 * Goes on with the join under way; resolves to the crew this phone is at home in.
 * @param {Deps} deps
 * @returns {Promise<string>}
 */
export async function resumeJoin({ factory, send }) {
  const { home, joining } = await withLocalMeta(factory, ({ home, joining }) => ({ home, joining }));
  if (!joining) return home;
  const { tried, place, ...asking } = joining;
  /** @type {Place|null} */
  let at = place ?? null;
  try {
    // A try whose answer was lost may have opened the crew already, and the code opens it only once.
    // If the cookie was lost too, retry shows the server that it is this phone again.
    if (!at && tried) at = await findPlace(send).then((now) => (now && now.crew !== home ? now : null));
    if (!at) {
      await withLocalMeta(factory, (meta) => void (meta.joining && (meta.joining.tried = true)));
      const { crew, device } = await request("POST", "/api/enrol", asking, send);
      at = { crew, device };
    }
  } catch (err) {
    if (/** @type {Partial<import("../../calc/trouble.js").Trouble>|null} */ (err)?.kind !== noAnswer) await withLocalMeta(factory, (meta) => void (meta.joining = null));
    throw err;
  }
  await withLocalMeta(factory, (meta) => void (meta.joining && (meta.joining.place = at)));
  await settle(at, factory);
  return at.crew;
}

/**
 * Where the server knows this phone, or null.
 * @param {typeof fetch} [send]
 * @returns {Promise<Place|null>}
 */
export async function findPlace(send) {
  if (!(await request("GET", "/api/status", undefined, send)).enrolled) return null;
  const { me, crew } = await request("GET", "/api/devices", undefined, send);
  return { crew: crew.id, device: me, name: crew.name };
}

/**
 * Makes a crew this phone's home and brings along what was never in any crew.
 * @param {Place} place
 * @param {IDBFactory} [factory]
 */
export async function settle({ crew, device }, factory) {
  const from = new Database(databaseName(""), { factory });
  const to = new Database(databaseName(crew), { factory });
  try {
    let there = await copy(from, to, { crew, device });
    while (!(await turn(from, there, crew))) there = await copy(from, to, { crew, device }); // another tab was quicker
  } finally {
    from.close();
    to.close();
  }
  moved(crew);
}

/**
 * Leaves for the local journal; that of the crew stays on the phone, but for pictures of its other phones.
 * @param {IDBFactory} [factory]
 */
export async function leave(factory) {
  let crew = "";
  const local = new Database(databaseName(""), { factory });
  try {
    await local.run(["meta", "view", "snapshot"], "readwrite", async (tx) => {
      const meta = await readMeta(tx);
      crew = meta.home;
      clearViews(tx, { ...meta, home: "", joining: null });
    });
  } finally {
    local.close();
  }
  if (crew) await turnBack(crew, factory);
  moved("");
}

/** @param {string} crew @param {IDBFactory} [factory] */
async function turnBack(crew, factory) {
  const db = new Database(databaseName(crew), { factory });
  await db.run(["meta", "photo"], "readwrite", async (tx) => {
    writeMeta(tx, { ...(await readMeta(tx)), left: true }); // a page with an old hint finds it here
    await forgetSeen(tx);
  }).finally(() => db.close());
}

/** Tells the first screen of the next start, and the other tabs now. @param {string} crew */
function moved(crew) {
  setHint(crew);
  const channel = new Channel("home", () => {});
  channel.tell({ what: "moved" });
  channel.close();
}

/** Whether an entry was never in any crew. @param {EventRecord} record */
const isOwn = ({ n, o }) => n === undefined && o === undefined;

/**
 * Copies what is to move. Returns its ids and hashes, each with whether it is there now: an id that
 * the crew knows with other bytes stays behind.
 * @param {Database} from
 * @param {Database} to
 * @param {Place} place
 */
async function copy(from, to, { crew, device }) {
  /** @type {Map<string, boolean>} */
  const done = new Map();
  const [own, meta] = await from.run(["event", "meta"], "readonly", async (tx) => [await ownEvents(tx), await readMeta(tx)]);
  for (let i = 0; i < Math.max(1, own.length); i += portion) {
    await to.run(["event", "meta"], "readwrite", async (tx) => {
      const events = tx.objectStore("event");
      const there = await readMeta(tx);
      for (const { id, raw, t } of own.slice(i, i + portion)) {
        const known = await resultOf(events.get(id));
        if (!known) putRecord(tx, there, { id, raw, t, l: 0, unsent: 1 });
        done.set(id, !known || known.raw === raw);
      }
      const clock = meta.clock > there.clock ? meta.clock : there.clock;
      writeMeta(tx, { ...there, crew, device, clock, left: false, session: there.session ?? meta.session, gate: there.gate ?? meta.gate, watch: there.watch ?? meta.watch, lastArc: meta.lastArc ?? there.lastArc, arc: { ...meta.arc, ...there.arc }, arcAt: { ...meta.arcAt, ...there.arcAt } });
    });
  }
  for (const sha256 of await from.run(["photo"], "readonly", pictures)) {
    done.set(sha256, true);
    const picture = await from.run(["photo"], "readonly", (tx) => resultOf(tx.objectStore("photo").get(sha256)));
    if (picture) await to.run(["photo"], "readwrite", (tx) => void tx.objectStore("photo").put(picture));
  }
  const waiting = await from.run(["photo"], "readonly", (tx) => resultOf(tx.objectStore("photo").get(waitingKey)));
  if (waiting) await to.run(["photo", "meta"], "readwrite", (tx) => mergeWaiting(tx, waiting));
  return done;
}

/**
 * Takes what was copied out of the local journal and turns home to the crew, in one transaction;
 * false, and nothing done, if anything is there that was not copied.
 * @param {Database} from
 * @param {Map<string, boolean>} copied
 * @param {string} crew
 */
function turn(from, copied, crew) {
  return from.run(["event", "meta", "photo", "view", "snapshot"], "readwrite", async (tx) => {
    const [own, shots] = [await ownEvents(tx), await pictures(tx)];
    if (own.some(({ id }) => !copied.has(id)) || shots.some((sha256) => !copied.has(sha256))) return false;
    const meta = await readMeta(tx);
    for (const record of own) if (copied.get(record.id)) deleteRecord(tx, meta, record);
    tx.objectStore("photo").clear();
    const crews = [...new Set([...meta.crews, crew])];
    clearViews(tx, { ...meta, home: crew, crews, joining: null, session: null, gate: null, arc: {}, arcAt: {} });
    return true;
  });
}

/** @param {IDBTransaction} tx @returns {Promise<EventRecord[]>} */
async function ownEvents(tx) {
  const index = tx.objectStore("event").index("unsent");
  const lists = [await resultOf(index.getAll(unsentRange(1))), await resultOf(index.getAll(unsentRange(2)))];
  return lists.flat().filter(isOwn);
}

/** @param {IDBTransaction} tx @returns {Promise<string[]>} */
async function pictures(tx) {
  const keys = /** @type {string[]} */ (await resultOf(tx.objectStore("photo").getAllKeys()));
  return keys.filter((key) => key !== waitingKey && key !== seenKey);
}

/** Writes meta and drops the views and the snapshot, which stand on other entries. @param {IDBTransaction} tx @param {import("../meta.js").Meta} meta */
function clearViews(tx, meta) {
  tx.objectStore("view").clear();
  tx.objectStore("snapshot").clear();
  writeMeta(tx, { ...meta, ladder: newId() });
}
