// @ts-check
/** What a screen needs at once, from one transaction. */

import { millis } from "./clock.js";
import { resultOf } from "./db.js";
import { foldVersion } from "./fold-version.js";
import { movedTo, readMeta, unsentRange } from "./meta.js";
import { isCounted, recount } from "./records.js";
import { withOverlay } from "./overlay.js";

/**
 * @typedef {import("./db.js").Database} Database
 * @typedef {import("./meta.js").Meta} Meta
 * @typedef {import("./shapes.js").Marks} Marks
 * @typedef {import("./shapes.js").ReadModelBase} Shown
 */

/** What was counted of a store whose meta had no count of now: the worker writes it soon. @type {WeakMap<Database, Meta["count"]>} */
const counted = new WeakMap();

/** The reads that have not begun, which others may join. @type {WeakMap<Database, {names: Set<string>, done: Promise<Shown & {marks: Marks}>}>} */
const gathering = new WeakMap();

/**
 * All who ask in the same step get of one read; what they get is shared, so nobody changes it.
 * @param {Database} db
 * @param {string[]} names
 * @returns {Promise<Shown & {marks: Marks}>}
 */
export async function readModel(db, names) {
  const reading = gathering.get(db) ?? gather(db);
  for (const name of names) reading.names.add(name);
  const { views, l, ...rest } = await reading.done;
  /** @template T @param {Record<string, T>} all @returns {Record<string, T>} */
  const wanted = (all) => Object.fromEntries(names.map((name) => [name, all[name]]));
  return { ...rest, views: wanted(views), l: wanted(l) };
}

/** @param {Database} db */
function gather(db) {
  const names = /** @type {Set<string>} */ (new Set());
  const done = Promise.resolve().then(() => {
    gathering.delete(db);
    return read(db, [...names]);
  });
  const reading = { names, done };
  gathering.set(db, reading);
  return reading;
}

/** @param {Database} db @param {string[]} names @returns {Promise<Shown & {marks: Marks}>} */
function read(db, names) {
  return db.run(["view", "meta", "event"], "readonly", async (tx) => {
    const asks = names.map((name) => resultOf(tx.objectStore("view").get(name)));
    const [meta, ...views] = await Promise.all([readMeta(tx), ...asks]);
    if (!isCounted(meta)) meta.count = counted.get(db) ?? meta.count;
    if (!isCounted(meta)) await recount(tx, meta);
    counted.set(db, meta.count);
    const marks = await readMarks(tx, meta);
    /** @type {Shown & {marks: Marks}} */
    const model = { views: {}, l: {}, arc: meta.arc, marks, offset: meta.offset, lastArc: meta.lastArc, device: meta.device, crew: meta.crew, home: movedTo(meta) };
    names.forEach((name, i) => {
      const good = views[i]?.fold === foldVersion;
      model.views[/** @type {keyof Shown["views"]} */ (name)] = good ? views[i].data : null;
      model.l[name] = good ? views[i].l : 0;
    });
    const { now } = model.views; // after a kill it may be older than the session, the stops and the watches
    if (now !== undefined && now?.session?.id !== meta.session?.id) model.views.now = { ...now, session: meta.session };
    if (now !== undefined && meta.gate && (now || meta.gate.stops.length + meta.gate.asked.length > 0)) model.views.now = { ...model.views.now, gate: meta.gate };
    if (now !== undefined && meta.watch && (now || meta.watch.length > 0)) model.views.now = { ...model.views.now, watch: meta.watch };
    model.views = withOverlay(model.views, meta.since);
    return model;
  });
}

/**
 * How safe the entries are.
 * @param {IDBTransaction} tx  over event at least
 * @param {Meta} meta
 * @returns {Promise<Marks>}
 */
async function readMarks(tx, meta) {
  const { unsent: count, aside } = meta.count;
  const oldest = count > 0 ? await resultOf(tx.objectStore("event").index("unsent").get(unsentRange(1))) : undefined; // the first of the range has the lowest t
  const onServer = count + aside === 0 && meta.heard > 0;
  const top = meta.max || Infinity; // nothing is in no backup
  return {
    crew: meta.crew,
    unsent: count,
    since: oldest ? millis(oldest.t) : 0,
    aside,
    onServer,
    backedUp: onServer && meta.backedUp >= top,
    sameDisk: onServer && (meta.sameDisk ?? 0) >= top,
    heard: meta.heard,
    stopped: meta.stopped,
    coming: Math.max(0, meta.coming - meta.cursor),
  };
}
