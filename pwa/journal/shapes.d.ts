/**
 * The shapes of the journal on the phone. Types only: the type check reads this file, the server
 * does not send it. What the fields mean on the wire and in the stores: calc/journal/doc.go.
 */
import type { Trouble } from "../calc/trouble.js";

/** What a page hands in. kind and body are those of calc/journal/doc.go. */
export interface Entry {
  kind: string;
  body: Record<string, any>;
  /** id of the session in which it was tapped */
  in?: string;
  /** id of the thing it is about */
  about?: string;
  /** ms since 1970, when it happened, if entered later */
  at?: number;
  /** id of the entry whose value this one knowingly replaces */
  over?: string;
  /** made by the journal if left out */
  id?: string;
}

/** What a tap did. */
export interface Written {
  /** false: nothing was stored, because it was so already */
  written: boolean;
  /** of the (last) entry, "" if nothing was stored */
  id: string;
  /** of all entries */
  ids: string[];
  /** local change number of the last entry */
  l: number;
  /** running arcs by rig, after this tap */
  arc: Record<string, Arc>;
}

/** Entries that did not reach the disk. */
export interface Failed {
  entries: Entry[];
  /** time of the tap, ms since 1970 */
  wall: number;
  /** none while it is being stored */
  error?: Trouble;
  /** a tap of the arc button, and what it offered; what it means is found out when it is stored */
  offered?: "start" | "stop";
}

/** A running arc. */
export interface Arc {
  /** of the arc.started */
  id: string;
  /** ms since 1970, by the server's clock */
  start: number;
  /** session, "" for none */
  in: string;
}

/** What the crew was told by may-i-cut: a part of view now. */
export interface Gate {
  /** not cleared, oldest first */
  stops: Stop[];
  /** the last answer for each rig */
  asked: { rig: string; verdict: string; id: string; in: string; at: number }[];
}

/** What this phone entered since the fold was last at its end; id is the entry's. */
export interface Since {
  things: { id: string; list: "rigs" | "sites"; fields: Record<string, any>; by: Record<string, string> }[];
  fitted: { id: string; rig: string; slot: string; part: string; at: number }[];
  pulled: { id: string; part: string }[];
  /** the last of each part */
  readings: { id: string; part: string; body: Record<string, any>; at: number }[];
  /** the last of each rig */
  drains: { id: string; rig: string; at: number }[];
  settled: { id: string; fault: string }[];
}

/** A stop that nobody has cleared. */
export interface Stop {
  /** of the check.answered */
  id: string;
  /** key of the stop */
  step: string;
  /** what it is, in a few words */
  says: string;
  /** who may clear it */
  by: string;
  rig: string;
  site: string;
  /** session, "" before one was opened */
  in: string;
  /** ms since 1970 */
  at: number;
}

/** A fire watch that nobody has ended. */
export interface Watch {
  /** of the watch.started */
  id: string;
  /** session, "" for none */
  in: string;
  rig: string;
  /** the phone that began it */
  device: string;
  /** how long after the last arc, ms */
  ms: number;
  /** the last arc's end, or when it was begun: ms since 1970, by the server's clock */
  from: number;
  ends: number;
  /** an arc burns: the end moves on */
  running: boolean;
}

/** A record of store event. */
export interface EventRecord {
  id: string;
  /** the event, byte for byte */
  raw: string;
  t: string;
  /** once the server gave it */
  o?: string;
  /** while the server is known to hold it */
  n?: number;
  /** local change number */
  l: number;
  /** 1: to be sent; 2: put aside */
  unsent?: 1 | 2;
  /** why it was put aside */
  aside?: Trouble;
}

/** A record of store view, or of store snapshot. */
export interface Kept {
  name: string;
  fold: number;
  l: number;
  data: unknown;
}

/** A join under way: what the server is asked, and how far it came. */
export interface Joining {
  secret?: string;
  code?: string;
  /** of this phone, for the crew's list */
  name: string;
  device: string;
  /** a secret of this phone, to ask again with if the answer was lost */
  retry: string;
  /** the server may have heard of it */
  tried?: boolean;
  /** it said yes */
  place?: { crew: string; device: string } | null;
}

/** How safe the entries are. */
export interface Marks {
  /** id of the crew, "" for none */
  crew: string;
  /** entries that are only on this phone */
  unsent: number;
  /** ms since 1970 of the oldest of them, 0 for none */
  since: number;
  /** entries that the server would not have */
  aside: number;
  /** everything here is at the server */
  onServer: boolean;
  /** and in a backup on another disk */
  backedUp: boolean;
  /** in a backup on the server's own disk */
  sameDisk: boolean;
  /** server's time of the last good reply, ms; 0 for never */
  heard: number;
  /** why sync waits for a person */
  stopped: Trouble | null;
  /** how many older entries are still to come to this phone: what depends on all of them may be too small */
  coming: number;
}

/** How the last try to sync went. */
export interface Report {
  /** it got an answer */
  reached: boolean;
  /** what that said, null after a success */
  lastError: Trouble | null;
}

export interface SyncState extends Marks, Report {
  /** the browser promised not to evict the store; null while not asked */
  persisted: boolean | null;
}

/** What a screen gets at once; from paint.js with marks, from the Journal with sync. */
export interface Shown {
  /** by name; null if there is none of this version */
  views: Record<string, any>;
  /** by name: the change number up to which it is right */
  l: Record<string, number>;
  /** running arcs by rig: the only truth for the arc button */
  arc: Record<string, Arc>;
  /** server's clock minus this phone's, ms */
  offset: number;
  /** when an arc of this phone went off last, by the server's clock in ms; null before the first */
  lastArc: { rig: string; in: string; at: number } | null;
  /** id of this phone, "" before the first entry */
  device: string;
  /** id of the crew, "" for none */
  crew: string;
  /** where this phone went to from this database, "" for the local one; null if it is at home here */
  home: string | null;
}

export interface Painted extends Shown {
  sync: SyncState;
}

/** A call into the wasm; throws a Trouble. */
export type Call = (name: string, input: unknown) => any;

/** Answer of journal-fold. */
export interface Folded {
  l: number;
  views?: Record<string, any>;
  arc?: Record<string, Arc>;
  rungs?: Kept[] | null;
  /** records that are no events to this version; they stay in the store */
  refused?: { l: number; error: Trouble }[];
}

/** What an exchange with the server begins from; input of journal-request and journal-apply. */
export interface Exchange<Meta> {
  meta: Meta;
  unsent: EventRecord[];
  promised: { id: string; n: number }[];
}

/** Answer of journal-apply: what a reply changes. */
export interface Change<Meta> {
  meta: Partial<Meta>;
  forget?: number;
  put?: { id: string; raw: string; t: string; o?: string; n?: number }[];
  ack?: { id: string; n: number; o: string }[];
  unsend?: string[];
  aside?: { id: string; error: Trouble }[];
  /** sha256 of pictures that were erased */
  drop?: string[];
  /** what went wrong */
  say?: Trouble | null;
}

/**
 * What became of a change. l: the last change number given, 0 for none; unsent: how many are still
 * to be sent; clash: records to pass along in the next exchange.
 */
export type Applied = { done: true; l: number; unsent: number } | { done: false; clash: string[] };

/** What came back for a request; rest of the input of journal-apply. */
export interface Reply {
  status: number;
  retryAfter: number;
  reply: string;
  timeout?: true;
  sentAt: number;
  gotAt: number;
}

/** One event of an answer of journal-import. */
export interface Incoming {
  id: string;
  raw: string;
  t: string;
  o?: string;
  /** to be entered instead if the phone holds that id with other bytes */
  else: { id: string; raw: string };
}

/** What tabs and workers of one store tell each other. */
export type Message =
  /** entries were stored */
  | { what: "change"; l: number; by: "tap" | "sync" | "import" }
  /** newer views, perhaps newer arcs, were stored */
  | { what: "views"; l: number }
  /** the sync tried */
  | { what: "sync"; report: Report }
  | { what: "trouble"; trouble: Trouble }
  /** this phone is at home in another crew now */
  | { what: "moved" };
