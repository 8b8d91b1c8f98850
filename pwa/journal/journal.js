// @ts-check
/**
 * The journal as pages see it. One Journal for each tab; app.js makes it:
 *
 *   const journal = new Journal();
 *   const shown = await journal.paint(["now"]);     // first screen; opens the store by itself
 *   bridge.start();                                 // pwa/calc/bridge.js, after the first paint
 *   journal.start();                                // hears other tabs, the worker, the network
 *
 * Reading
 *   paint(names)        → Painted: the stored views of these names, the running arcs, the marks of
 *                         storage; all from one moment. Waits for no wasm. A view that was never
 *                         computed (first start, new version) is null: draw the plain shell.
 *   session(id)         → view session; book(before, limit) → older entries of view book;
 *   part(id), parts()   → parts with readings; stateHash() → {hash, events}. These ask the worker.
 *   state               the last known SyncState, also in each "sync" event
 *   failed              entries that did not reach the disk: [{entry, error}], newest last
 *
 * Writing. Each resolves when the entry is on the phone's disk and not before; each rejects with a
 * Trouble {kind, field?, msg, hint}. Call them first thing in the handler: the time is taken there.
 *   tap(entry)          → Written. One entry, or an array that is stored whole or not at all.
 *   startArc({rig, in}) → Written. written false: this arc runs already (another tab, a double
 *   stopArc({rig, starts?})  tap within 300 ms); arc tells what holds: correct the screen, no error.
 *   amend(id, set, why?)     change fields of an entry; null removes one; set.at moves it in time
 *   voidEntry(id, why?)      hide an entry: offer Undo, which is
 *   bringBack(id)            show it again
 *   retry()             → number of failed entries stored now. Undone failures stay in failed.
 *
 * Carrying
 *   exportText()        → {name, text}: everything, for a download
 *   importText(text)    → {added, known, refused: [{line, error}]}; doing it twice adds nothing
 *   syncNow()           asks the worker to sync at once; the outcome comes as a "sync" event
 *
 * Events (CustomEvent, detail as named)
 *   "change"   {l, by}          the set of entries or the running arcs changed: by "tap" (here or in
 *                               another tab), "sync" or "import". Paint arcs and marks again.
 *   "views"    {l}              the worker stored newer views: paint(names) again
 *   "sync"     SyncState        marks of storage changed
 *   "trouble"  Trouble          something to show on a line: an entry that was not stored (see
 *                               failed), a store that is blocked by an older tab
 *   "outdated" {}               another tab holds a newer app and needs the store: reload when no
 *                               draft is open
 *
 * Helpers for pages: newId() makes the id of a thing (session, part, rig, …).
 *
 * Nothing here touches the document.
 */

/**
 * What a page hands in. kind and body are those of calc/journal/doc.go.
 * @typedef {object} Entry
 * @property {string} kind
 * @property {Record<string, any>} body
 * @property {string} [in]     id of the session in which it was tapped
 * @property {string} [about]  id of the thing it is about
 * @property {number} [at]     ms since 1970, when it happened, if entered later
 * @property {string} [over]   id of the entry whose value this one knowingly replaces
 * @property {string} [id]     made here if left out
 *
 * @typedef {object} Written
 * @property {boolean} written   false: nothing was stored, because it was so already
 * @property {string} id         of the (last) entry, "" if nothing was stored
 * @property {string[]} ids      of all entries
 * @property {number} l          local change number of the last entry
 * @property {Record<string, Arc>} arc  running arcs by rig, after this tap
 *
 * @typedef {object} Arc
 * @property {string} id         of the arc.started
 * @property {number} start      ms since 1970
 * @property {string} in         session, "" for none
 *
 * @typedef {object} Trouble
 * @property {string} kind
 * @property {string} [field]
 * @property {string} msg
 * @property {string} [hint]
 * @property {number} [retry]
 *
 * @typedef {object} SyncState
 * @property {number} unsent     entries that are only on this phone
 * @property {number} since      ms since 1970 of the oldest of them, 0 for none
 * @property {number} aside      entries that the server would not have
 * @property {boolean} onServer  everything here is at the server
 * @property {boolean} backedUp  and in a backup
 * @property {number} heard      server's time of the last good reply, ms; 0 for never
 * @property {Trouble|null} stopped    why sync waits for a person
 * @property {Trouble|null} lastError  why the last try failed; null after a success
 *
 * @typedef {object} Painted
 * @property {Record<string, any>} views  by name; null if there is none of this version
 * @property {number} l                   the lowest l of these views
 * @property {Record<string, Arc>} arc    running arcs by rig: the only truth for the arc button
 * @property {SyncState} sync
 * @property {string} device              id of this phone, "" before the first entry
 * @property {string} crew                id of the crew, "" before the first sync
 */

export {};
