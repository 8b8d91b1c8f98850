// @ts-check
/**
 * Entries with values as they were typed, such as 0.95 mm, that only the sums can read. A tap does not
 * wait for those: what was typed is kept on the phone, and goes into the journal as soon as they run,
 * with the time of the tap; if they cannot read it, as a note.
 */
import { newId } from "../journal/id.js";
import { say } from "../words/words.js";

/** @typedef {import("../journal/shapes.js").Entry} Entry */
/** An entry, or one that still lacks what was typed; stop: a number, of arc time that is entered afterwards. @typedef {Omit<Entry, "body"> & {body: {stop?: any, [key: string]: unknown}}} Unread */
/** @typedef {{quantity: string, text: string, bare: string, us: string, in: string, optional?: boolean}} Typed  optional: the entry stands without it */
/**
 * What waits: entries, of which the last still lacks the values of typed.
 * @typedef {{id: string, at: number|undefined, entries: Unread[], typed: Record<string, Typed>, said: string}} Waiting
 */
/** @typedef {Pick<import("../app.js").Deps, "journal"|"drafts"|"toasts"|"call"|"sumsRun">} UnreadDeps */

const name = "unread";

/** Those of this tab that are at it. @type {Set<string>} */
const busy = new Set();

/**
 * Reads what was typed and stores the entries.
 * @param {UnreadDeps} deps
 * @param {{entries: Unread[], typed: Record<string, Typed>, said: string}} what
 * @param {(entries: Entry[], said: string) => Promise<unknown>} put  stores them and says so
 */
export async function storeOnceRead(deps, { entries, typed, said }, put) {
  /** @type {Waiting} */
  const waiting = { id: newId(), at: deps.journal.now(), entries: entries.map((e) => ({ ...e, id: newId() })), typed, said };
  deps.drafts.keep(name, { ...deps.drafts.of(name), [waiting.id]: waiting });
  const late = !deps.sumsRun() && Object.keys(typed).length > 0;
  if (late) deps.toasts.show(say("unread.kept"));
  await finish(deps, late ? waiting : { ...waiting, at: undefined }, put);
}

/** Takes up what an earlier start left. @param {UnreadDeps} deps @param {(entries: Entry[], said: string) => Promise<unknown>} put */
export async function retryDeferred(deps, put) {
  /** @type {Record<string, Waiting>} */
  const all = deps.drafts.of(name);
  for (const waiting of Object.values(all)) {
    if (!busy.has(waiting.id)) await finish(deps, waiting, put);
  }
}

/** @param {UnreadDeps} deps @param {Waiting} waiting @param {(entries: Entry[], said: string) => Promise<unknown>} put */
async function finish(deps, waiting, put) {
  busy.add(waiting.id);
  try {
    const read = await readAll(deps, waiting);
    if (!read) return; // no sums yet: another time
    await put(read.entries, read.said);
    const { [waiting.id]: _, ...others } = deps.drafts.of(name);
    deps.drafts.keep(name, others);
  } finally {
    busy.delete(waiting.id);
  }
}

/** The entries with their values; a note if they cannot be read; null while there are no sums. @param {UnreadDeps} deps @param {Waiting} waiting */
async function readAll({ call }, { at, entries, typed, said }) {
  const last = entries[entries.length - 1];
  /** @type {() => {entries: Entry[], said: string}} */
  const asNote = () => {
    const text = say("unread.note", { what: said, typed: Object.values(typed).map((t) => t.text).join(", ") });
    return { entries: [{ kind: "note.added", id: last.id, in: last.in, at, body: { text } }], said: say("unread.noted") };
  };
  /** @type {Record<string, number>} */
  const values = {};
  for (const [key, { optional, ...how }] of Object.entries(typed)) {
    try {
      const { whole } = await call("read-value", how);
      if (whole !== undefined) values[key] = whole;
    } catch (trouble) {
      if (/** @type {import("../calc/trouble.js").Trouble} */ (trouble).kind === "busy") return null;
      if (!optional) return asNote();
    }
  }
  const { seconds, ...own } = values;
  if (seconds !== undefined) own.start = last.body.stop - seconds * 1000; // arc time entered afterwards ended with the tap
  return { entries: entries.map((e) => /** @type {Entry} */ ({ ...e, at, body: e === last ? { ...e.body, ...own } : e.body })), said };
}
