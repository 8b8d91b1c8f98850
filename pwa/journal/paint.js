// @ts-check
/**
 * What a screen needs at once, from one readonly transaction: stored views, running arcs, marks.
 */

import { millis } from "./clock.js";
import { asked } from "./db.js";
import { readMeta, unsent } from "./meta.js";

/**
 * @typedef {import("./db.js").Database} Database
 * @typedef {import("./meta.js").Meta} Meta
 *
 * @typedef {object} Marks
 * @property {number} unsent     entries that are only on this phone
 * @property {number} since      ms since 1970 of the oldest of them, 0 for none
 * @property {number} aside      entries that the server would not have
 * @property {boolean} onServer  everything here is at the server
 * @property {boolean} backedUp  and in a backup
 * @property {number} backedTo   entries with n up to this are in a backup
 * @property {number} heard      server's time of the last good reply, ms; 0 for never
 * @property {import("../calc/trouble.js").Trouble|null} stopped  why sync waits for a person
 *
 * @typedef {object} Painted
 * @property {Record<string, any>} views  by name; null if there is none of this version
 * @property {Record<string, number>} l   by name: the change number up to which it is right
 * @property {Record<string, import("./meta.js").Arc>} arc  running arcs by rig: the only truth for the arc button
 * @property {Marks} marks
 * @property {number} offset              server's clock minus this phone's, ms
 * @property {string} device              id of this phone, "" before the first entry
 * @property {string} crew                id of the crew, "" before the first sync
 */

/** Version of the fold and its views that these pages can draw; the same as Fold in calc/journal. */
export const foldVersion = 1;

/**
 * @param {Database} db
 * @param {string[]} names
 * @returns {Promise<Painted>}
 */
export function paint(db, names) {
  return db.run(["view", "meta", "event"], "readonly", async (tx) => {
    const asks = names.map((name) => asked(tx.objectStore("view").get(name)));
    const [meta, ...views] = await Promise.all([readMeta(tx), ...asks]);
    const marks = await readMarks(tx, meta);
    /** @type {Painted} */
    const painted = { views: {}, l: {}, arc: meta.arc, marks, offset: meta.offset, device: meta.device, crew: meta.crew };
    names.forEach((name, i) => {
      const good = views[i]?.fold === foldVersion;
      painted.views[name] = good ? views[i].data : null;
      painted.l[name] = good ? views[i].l : 0;
    });
    return painted;
  });
}

/**
 * How safe the entries are: here, at the server, in a backup.
 * @param {IDBTransaction} tx  over event at least
 * @param {Meta} meta
 * @returns {Promise<Marks>}
 */
export async function readMarks(tx, meta) {
  const index = tx.objectStore("event").index("unsent");
  const [count, oldest, aside] = await Promise.all([
    asked(index.count(unsent(1))),
    asked(index.get(unsent(1))), // the first of the range has the lowest t
    asked(index.count(unsent(2))),
  ]);
  const onServer = count === 0 && aside === 0 && meta.heard > 0;
  return {
    unsent: count,
    since: oldest ? millis(oldest.t) : 0,
    aside,
    onServer,
    backedUp: onServer && meta.max > 0 && meta.backedUp >= meta.max,
    backedTo: meta.backedUp,
    heard: meta.heard,
    stopped: meta.stopped,
  };
}
