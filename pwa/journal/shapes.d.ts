/**
 * The shapes of the journal on the phone that Go does not know; those that it knows are in
 * pwa/types. Types only: the type check reads this file, the server does not send it. What the
 * fields mean on the wire: calc/journal/protocol.md; in the stores: calc/journal/states.md.
 */
import type { Trouble } from "../calc/trouble.js";
import type { Bodies, Body, EventRecord as SyncRecord, Now, PartNow, RigNow, RunningArc, Session, Things, Views } from "../types/journal.js";
import type { Meta } from "./meta.js";

/** What an entry has beside its kind and its body. */
interface Beside {
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

/** What a screen reads again of what it wrote, beside what the declaration of its kind says. */
interface More {
  /** ms: of a fire watch */
  amend: { set?: { ms?: number } };
}

/** An entry of one kind; what its body holds, the declaration says: calc/journal/event/kinds.go. */
export interface EntryOf<K extends keyof Bodies> extends Beside {
  kind: K;
  body: K extends keyof More ? Bodies[K] & More[K] : Bodies[K];
}

/** What a page hands in. */
export type Entry = { [K in keyof Bodies]: EntryOf<K> }[keyof Bodies];

/** A tap of the arc button; which entry it makes is found out when it is stored. */
export interface ArcTap extends Beside {
  kind: "arc.started" | "arc.stopped";
  body: { rig: string; in?: string; starts?: number; cut?: string };
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
  arc: Record<string, RunningArc>;
}

/** Entries that did not reach the disk. */
export type Failed = {
  /** time of the tap, ms since 1970 */
  wall: number;
  /** none while it is being stored */
  error?: Trouble;
} & (
  | { entries: Entry[]; offered?: undefined }
  /** a tap of the arc button, and what it offered */
  | { entries: [ArcTap]; offered: "start" | "stop" }
);

/** What this phone entered since the fold was last at its end; id is the entry's. */
export interface Overlay {
  things: { id: string; list: "rigs" | "sites"; fields: Record<string, unknown>; by: Record<string, string> }[];
  fitted: { id: string; rig: string; slot: string; part: string; at: number }[];
  pulled: { id: string; part: string }[];
  /** the last of each part */
  readings: { id: string; part: string; body: Body; at: number }[];
  /** the last of each rig */
  drains: { id: string; rig: string; at: number }[];
  settled: { id: string; fault: string }[];
}

/** A record of store event. */
export interface EventRecord extends SyncRecord {
  l: number;
  /** 1: to be sent; 2: put aside */
  unsent?: 1 | 2;
  /** why it was put aside */
  aside?: Trouble;
}

/** A record of store view. */
export interface StoredView {
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

/**
 * The views as a screen gets them: laid over with what was entered here since (overlay.js). A rig or a
 * part of which the fold has not told yet has only what was entered; before the first fold there is
 * nothing else.
 */
export interface ShownViews extends Omit<Views, "now" | "rigs"> {
  now: ShownNow;
  rigs: Things & { partial?: true };
}

export type ShownNow = Partial<Omit<Now, "rigs" | "session">> & { rigs?: ShownRig[]; session?: ShownSession | null };
export type ShownSession = Partial<Session> & Pick<Session, "id" | "rig" | "ms" | "starts">;
export type ShownRig = Partial<Omit<RigNow, "drain" | "parts">> & { rig: string; drain?: Partial<RigNow["drain"]>; parts: ShownPart[] };
export type ShownPart = Partial<PartNow> & Pick<PartNow, "part" | "slot" | "at" | "ms" | "starts" | "reading" | "check">;

/** What a screen gets at once; from read-model.js with marks, from the Journal with sync. */
export interface ReadModelBase {
  /** by name; null if there is none of this version */
  views: { [N in keyof ShownViews]?: ShownViews[N] | null };
  /** by name: the change number up to which it is right */
  l: Record<string, number>;
  /** running arcs by rig: the only truth for the arc button */
  arc: Record<string, RunningArc>;
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

export interface ReadModel extends ReadModelBase {
  sync: SyncState;
}

/** What an exchange with the server begins from; beside a reply the input of journal-apply. */
export interface Exchange {
  meta: Meta;
  unsent: EventRecord[];
  promised: { id: string; n: number }[];
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
