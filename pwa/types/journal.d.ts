// Made by go run ./cmd/dev types: change the Go instead.

import type { Drawn, Only, Picture, System, Trouble } from "./calc.js";

/** Ack answers one pushed event. */
export interface Ack {
  id: string;
  n: number;
  o: Stamp;
  /** the server holds the id with other bytes */
  taken?: boolean;
}

/** Act is a button that was tapped, with what its questions were answered. */
export interface Act {
  report: string;
  /** of the part, the stock line or the job; "" where the report is of all */
  id: string;
  /** a list begins behind this one */
  before: string;
  /** ms since 1970 UTC */
  now: number;
  zone: Zone;
  units: System;
  /** the rig in use on the phone */
  rig: string;
  /** entries that are still on their way to the phone: what it has is not the whole */
  coming: number;
  /** what stands in the address behind ? */
  query: Record<string, string>;
  /** the phone, as its entries name it */
  device: string;
  /** who watches the fire, which this phone alone knows */
  watcher: string;
  act: string;
  with: Record<string, string>;
  answers: Record<string, string>;
}

/** Action is a button. */
export interface Action {
  label: string;
  /** a name of acts */
  act: string;
  with: Record<string, string>;
  /** one after the other, before it is done */
  ask: Ask[];
  href: string;
  print: boolean;
  /** the sort of file that it reads, ".csv" */
  file: string;
}

/** ArcTimes is when the arc of an entry burnt. */
export interface ArcTimes {
  start: number;
  stop: number;
  ms: number;
  starts: number;
  running: boolean;
  /** the entry that stopped it */
  by?: string;
}

/**
 * As is the way in which a value is asked for: in words of one's own, as one of some
 * words, as a count, or as what it measures, by the name in calc/unit.
 */
export type As = string;

/** Ask is one question before an action is done. Whoever leaves one leaves all. */
export interface Ask {
  key: string;
  label: string;
  /** of a choice */
  options: Option[];
  /** of a number with a unit */
  quantity: string;
  bare: string;
  us: string;
  /** a number without a unit */
  count: boolean;
  /** what stands there at first */
  value: string;
  /** asked only after certain answers to another */
  only: Only | null;
}

/** Asked is when may-i-cut was last answered for a rig. */
export interface Asked {
  rig: string;
  /** "stop", "conditions" or "go" */
  verdict: string;
  id: string;
  in: string;
  at: number;
}

/** AskedField is a key of a body that a person is asked for. */
export interface AskedField {
  key: string;
  as: As;
  /** of several lists, the one that has the word that stands */
  words?: string[][];
  /** the unit in which it is stored */
  in?: string;
  /** a length's: how finely it is told, as calc/unit has it */
  sort?: string;
}

/** What this phone writes into the body of an entry, by its kind. */
export interface Bodies {
  "rig.set": {
    /** what the crew calls it */
    name?: string;
    /** ms of arc between two drains of its trap */
    drainEvery?: number;
    /** how often a task of upkeep is due, by its name: the first limit that is reached counts; arc and hours are ms */
    [key: `upkeep.${string}`]: Body | null;
    [field: string]: unknown;
  };
  "site.set": {
    /** what the crew calls it */
    name?: string;
    [field: string]: unknown;
  };
  "job.set": {
    /** what the crew calls it */
    name?: string;
    /** in an entry of its own: an export leaves that out unless it is asked for */
    customer?: string;
    site?: string;
    rig?: string;
    /** the time that there is, as it was typed */
    window?: string;
    /** as it stands on its papers */
    number?: string;
    /** as it was typed */
    tax?: string;
    /** ms since 1970 UTC, when it was */
    billed?: number;
    /** what was quoted last: price in hundredths of the crew's currency, tax in parts per million, valid for so many days */
    quote?: Body;
    /** one cut of its list as it was typed; KEY is its own short name, at its place among the others */
    [key: `cut.${string}`]: Body | null;
    [field: string]: unknown;
  };
  "line.set": {
    /** what the stock line is */
    name?: string;
    /** where it fits */
    slot?: string;
    /** for what current, as it was typed */
    rating?: string;
    /** whose truck it lies in; without it, the shop */
    rig?: string;
    /** of a piece, in hundredths of the crew's currency */
    price?: number;
    /** pieces, the fewest that the crew wants there */
    least?: number;
    [field: string]: unknown;
  };
  "setting.set": {
    /** us or metric */
    units?: string;
    /** about prices: at most 4 letters */
    currency?: string;
    /** about prices: as it was typed */
    tax?: string;
    /** about prices: what the crew calls itself on its papers */
    crew_name?: string;
    /** about prices: for how many days a quote is valid */
    quote_days?: string;
    [field: string]: unknown;
  };
  "same": {
    /** both ids mean one thing */
    as: string;
  };
  "session.opened": {
    rig?: string;
    title?: string;
    site?: string;
    job?: string;
    /** what was planned at its start, in whole s: cuts by their KEY */
    planned?: Body;
    [field: string]: unknown;
  };
  "session.closed": {
    title?: string;
    [field: string]: unknown;
  };
  "session.set": {
    title?: string;
    rig?: string;
    site?: string;
    job?: string;
    /** what was planned at its start, in whole s: cuts by their KEY */
    planned?: Body;
    [field: string]: unknown;
  };
  "arc.started": {
    rig?: string;
    /** KEY of the cut that it belongs to, on the list of the session's job */
    cut?: string;
  };
  "arc.stopped": {
    of: string;
    /** pilot starts, 1 if it is not there */
    starts?: number;
  };
  "arc.run": {
    rig?: string;
    /** ms since 1970 UTC */
    start: number;
    /** ms since 1970 UTC */
    stop: number;
    /** pilot starts, 1 if it is not there */
    starts?: number;
    /** KEY of the cut that it belongs to, on the list of the session's job */
    cut?: string;
  };
  "cut.done": {
    /** KEY of the cut on the job's list */
    cut: string;
    /** pieces, 1 if it is not there */
    n?: number;
  };
  "pause.started": {
    rig?: string;
    /** what was waited for or done */
    why?: string;
  };
  "pause.ended": {
    of: string;
  };
  "part.fitted": {
    /** where in the torch */
    slot: string;
    rig?: string;
    /** the stock line that it came from */
    line?: string;
    [field: string]: unknown;
  };
  "part.pulled": {
    why?: string;
    rig?: string;
  };
  "part.reading": {
    /** µm, smallest width of the bore */
    dmin?: number;
    /** µm, largest width of the bore */
    dmax?: number;
    /** µm, depth of the electrode's pit */
    pit?: number;
    /** µm, how far a width may be off */
    error?: number;
    /** "photo" if it was read off one */
    by?: string;
    /** the one that it was read off */
    photo?: string;
  };
  "trap.drained": {
    rig?: string;
  };
  "filter.changed": {
    rig?: string;
  };
  "upkeep.done": {
    /** drain, filter, oil, lead, blow-out, extinguisher or a word of the crew's own */
    task: string;
    rig?: string;
    /** ms since 1970 UTC, the date that stands on the thing */
    next?: number;
    note?: string;
  };
  "cut.tried": {
    rig?: string;
    metal?: string;
    /** µm */
    thickness?: number;
    amps?: number;
    /** Pa */
    pressure?: number;
    /** µm/s */
    speed?: number;
    verdict?: string;
  };
  "note.added": {
    text?: string;
  };
  "photo.added": {
    /** of the picture's bytes, hex */
    sha256?: string;
    bytes?: number;
    /** pixels */
    w?: number;
    /** pixels */
    h?: number;
    /** a small picture as a data address */
    thumb?: string;
  };
  "guide.opened": {
    guide: string;
  };
  "check.answered": {
    guide: string;
    step: string;
    result: string;
    slot?: string;
    part?: string;
    /** whole numbers by key, as the guide scales them */
    readings?: Body;
    rig?: string;
    site?: string;
    /** what the stop is */
    says?: string;
    /** who may clear it */
    by?: string;
    /** the words that were picked, by question */
    answers?: Body;
    /** ms that the questions of may-i-cut took */
    took?: number;
  };
  "check.cleared": {
    of: string;
    why?: string;
  };
  "fault.seen": {
    symptom?: string;
    /** all that was seen */
    signs?: string[];
    rig?: string;
  };
  "fault.found": {
    cause?: string;
    /** "in part" if something is left of the fault */
    helped?: string;
  };
  "fault.mended": {
    how?: string;
  };
  "watch.started": {
    /** how long to watch after the last arc */
    ms: number;
    rig?: string;
  };
  "watch.ended": {
    of: string;
  };
  "stock.moved": {
    /** pieces, negative for out */
    n: number;
    why?: string;
  };
  "stock.counted": {
    /** pieces there are */
    n: number;
  };
  "amend": {
    /** the target; in is that of the target */
    of: string;
    /** fields and their values, null removes one */
    set?: Body;
    why?: string;
  };
  "void": {
    /** the target; in is that of the target */
    of: string;
    /** true hides, false brings back */
    on?: boolean;
    why?: string;
  };
}

/** The body of an entry as another phone may have written it: look at each value before you use it. */
export interface Body {
  [key: string]: unknown;
}

/** Book is the list of sessions, newest first. */
export interface Book {
  sessions: Session[];
  total: number;
}

/** byID is the input of calls about one thing. */
export interface ByID {
  id: string;
}

/** What goes into each call of the journal, and comes out. */
export interface Calls {
  "journal-act": { in: Act; out: Done };
  "journal-apply": { in: Exchange; out: Change };
  "journal-check": { in: { raw: string }; out: Checked };
  "journal-days": { in: { before: DayMark; limit: number; filter?: DayFilter }; out: Days };
  "journal-export": { in: { events: EventRecord[]; crew: string; device: string; now: number; customers: boolean }; out: Exported };
  "journal-fold": { in: { events: EventRecord[]; more: boolean; keep: boolean; device: string }; out: Folded };
  "journal-hash": { in: {}; out: { hash: string; events: number } };
  "journal-history": { in: { rig: string }; out: History };
  "journal-import": { in: { text: string }; out: Imported };
  "journal-job": { in: ByID; out: JobView };
  "journal-report": { in: Look; out: Report };
  "journal-request": { in: { meta: Meta; unsent: EventRecord[]; now: number }; out: Request };
  "journal-restore": { in: { rungs: Segment[] }; out: Restored };
  "journal-session": { in: ByID; out: SessionView };
  "journal-taught": { in: ByID; out: Taught };
}

/** Cell is what stands in a row of a column. */
export interface Cell {
  text: string;
  /** what a column of numbers is sorted by */
  value: number;
  href: string;
}

/**
 * Chain is the state of the chain of arrivals at one of them: half a SHA-256,
 * which is enough to tell two histories apart. The zero Chain is that of no
 * arrival.
 */
export type Chain = string;

/**
 * Change is what an exchange has the replica write: in one transaction, in the order of
 * the fields, and only if cursor, gen and revision are still those of the exchange.
 */
export interface Change {
  meta: Meta;
  forget?: number;
  put?: EventRecord[];
  ack?: Ack[];
  unsend?: string[];
  aside?: RejectedEvent[];
  /** sha256 of pictures that were erased */
  drop?: string[];
  again: boolean;
  waitMs: number;
  say: Trouble | null;
  in: number;
  out: number;
}

/** Checked answers journal-check. */
export interface Checked {
  id: string;
  t: Stamp;
  kind: string;
  in: string;
  about: string;
}

/** Column says what stands in a column. */
export interface Column {
  key: string;
  title: string;
  /** of its numbers in a file */
  unit: string;
  /** sorted by value */
  number: boolean;
}

/** Correction is one amendment or removal in the history of an entry. */
export interface Correction {
  id: string;
  at: number;
  device: string;
  set?: Body | null;
  on?: boolean;
  why: string;
}

/** CutWork is what was done for one cut of a job, in one session or in all. */
export interface CutWork {
  /** KEY, "" for arcs that name no cut */
  cut: string;
  /** pieces */
  done: number;
  /** arc time */
  ms: number;
  starts: number;
  arcs: number;
  /** ms from the end of the arc before it, or the opening, to the end of its own */
  elapsed: number;
  /** ms left out of that: times without an arc too long to be of the job */
  away: number;
  /** its first arc began, 0 if it has none */
  from: number;
  /** its last arc ended */
  to: number;
  /** pauses within that time */
  waits: Waited[];
}

/** DayFilter says which items of the days are wanted. What is empty or 0 asks nothing. */
export interface DayFilter {
  /** all of these words occur, as beginnings or within others, in capitals or not */
  find?: string;
  /** of that rig */
  rig?: string;
  /** a cut of that metal was tried, or stands on the list of the job */
  metal?: string;
  /** begun then or later, ms */
  from?: number;
  /** begun before then, ms */
  to?: number;
}

/** DayItem is a session or an entry outside of any. */
export interface DayItem {
  session?: Session;
  line?: SessionLine;
}

/**
 * DayMark is where an item stands among the days: when it began, and its id. A page
 * begins behind one; the zero mark is in front of the newest.
 */
export interface DayMark {
  at: number;
  id: string;
}

/**
 * Days is what happened, newest first: sessions, and what was entered outside of any.
 * Whoever shows it parts it into days, by the clock of his own place.
 */
export interface Days {
  items: DayItem[];
  /** older ones follow */
  more: boolean;
}

/** Done is what comes of it: entries for the journal, a file, or another report. */
export interface Done {
  entries: Entry[];
  /** once they are stored */
  said: string;
  /** where to go then */
  href: string;
  /** of a file to hand on */
  name: string;
  /** of the file; without a name, words to share */
  text: string;
  type: string;
  /** shown in place of the one that is there */
  report: Report | null;
}

/** DrainNow is the arc time since the trap was drained. */
export interface DrainNow {
  every: number;
  ms: number;
  at: number;
  /** arc time left, below zero if it is past due */
  due: number;
}

/**
 * Entry is an entry for the journal. About a name that begins with NewThing makes a thing
 * of its own; entries with the same name are about the same one.
 */
export interface Entry {
  kind: string;
  about: string;
  in: string;
  body: Record<string, unknown>;
}

/** Record is one record of the store event. */
export interface EventRecord {
  id: string;
  raw: string;
  t: Stamp;
  /** nil while no server has given one */
  o?: Stamp;
  /** 0 while the server has not confirmed it */
  n?: number;
  /** local change number */
  l?: number;
  /** 1 to be sent, 2 rejected, 0 sent */
  unsent?: number;
}

/**
 * Exchange is a request with what the replica held when it was made, read in one
 * transaction, and the reply to it.
 */
export interface Exchange {
  meta: Meta;
  /** records without n, rejected or not */
  unsent: EventRecord[];
  /** records with n above the cursor */
  promised: Promised[];
  /** ids of the request's events */
  sent: string[];
  /** HTTP status, 0 if no reply came */
  status: number;
  /** no reply came in time */
  timeout: boolean;
  retryAfter: number;
  reply: string;
  /** ms on the phone's clock */
  sentAt: number;
  gotAt: number;
}

/** Exported answers journal-export. */
export interface Exported {
  text: string;
  /** for the file */
  name: string;
  /** what was left out of it, "" if nothing was */
  says?: string;
}

/** Fields are the fields of a thing as a screen needs them. */
export interface Fields {
  fields: Record<string, string | number | boolean | Body>;
  /** field → event that set it */
  by: Record<string, string>;
  also: LostValue[];
}

/** Figure is a labelled reading. */
export interface Figure {
  label: string;
  text: string;
  /** shown large */
  main: boolean;
}

/** FilterNow is the arc time since the filter was changed. */
export interface FilterNow {
  at: number;
  ms: number;
}

/**
 * FireWatch is a watch that nobody has ended. It counts from the last arc: an
 * arc in its session starts it anew whenever it burns, one of its rig if it is
 * struck before the watch is over or burns already.
 */
export interface FireWatch {
  id: string;
  in: string;
  rig: string;
  /** the phone that began it */
  device: string;
  ms: number;
  from: number;
  ends: number;
  /** an arc burns: the end moves on */
  running: boolean;
}

/** Folded answers journal-fold. */
export interface Folded {
  fold: number;
  l: number;
  views?: Partial<Views>;
  arc: Record<string, RunningArc> | null;
  rungs: Segment[] | null;
  refused: Unfolded[];
}

/** Gate is what the crew was told by may-i-cut. */
export interface Gate {
  /** that nobody has cleared, oldest first */
  stops: OpenStop[];
  /** the last answer for each rig */
  asked: Asked[];
}

/** Guides is how far guides were gone through, the last touched first. */
export interface Guides {
  progress: Progress[];
}

/**
 * History answers journal-history: what the crew's journal says to the calculators that
 * ask for it, as values of their fields by key. A key is missing where it says nothing.
 */
export interface History {
  values: Record<string, string>;
}

/** Imported answers journal-import. */
export interface Imported {
  events: ImportedEvent[];
  refused: RefusedLine[];
}

/**
 * ImportedEvent is an event to be entered, or Else in its place if its id is
 * held with other bytes.
 */
export interface ImportedEvent {
  id: string;
  raw: string;
  t: Stamp;
  o?: Stamp;
  else: { id: string; raw: string };
}

/** JobChecks are the guides that were answered, and what may-i-cut said. */
export interface JobChecks {
  guides: JobGuide[];
  gates: JobGate[];
}

/** JobCut is a cut of the list with what was done of it. */
export interface JobCut {
  /** KEY, "" for arcs that name no cut */
  cut: string;
  /** pieces */
  done: number;
  /** arc time */
  ms: number;
  starts: number;
  arcs: number;
  /** ms from the end of the arc before it, or the opening, to the end of its own */
  elapsed: number;
  /** ms left out of that: times without an arc too long to be of the job */
  away: number;
  /** its first arc began, 0 if it has none */
  from: number;
  /** its last arc ended */
  to: number;
  /** pauses within that time */
  waits: Waited[];
  /** as it was typed; null if only work for it is here */
  row: Body | null;
  /** the event that set it or took it off */
  by: string;
  /** its place on the list */
  at: number;
  count: number;
  /** pieces */
  left: number;
  /** taken off the list: it is here for what was done */
  removed: boolean;
}

/** JobFault is a fault of which a cause was found. */
export interface JobFault {
  fault: string;
  /** the event that told the cause */
  id: string;
  at: number;
  in: string;
  rig: string;
  symptom: string;
  signs: string[];
  cause: string;
  /** "in part" if something is left of it */
  helped: string;
  mended: boolean;
}

/** JobGate is one answer of may-i-cut. */
export interface JobGate {
  /** of its first entry */
  id: string;
  at: number;
  in: string;
  rig: string;
  device: string;
  /** "stop", "conditions" or "go" */
  verdict: string;
  stops: JobStop[];
}

/** JobGuide is a guide that was gone through in a session. */
export interface JobGuide {
  guide: string;
  in: string;
  /** of the last answer */
  at: number;
  /** how many steps ended with each result */
  results: Share[];
  /** failed checks that nobody cleared */
  fails: number;
}

/** JobItem is a job of a list, the newest with their fields. */
export interface JobItem {
  id: string;
  /** further ids that mean it */
  same?: string[];
  name: string;
  site: string;
  rig: string;
  /** cuts on its list */
  rows: number;
  /** of which all pieces are done */
  rowsDone: number;
  /** of all cuts on its list */
  pieces: number;
  /** of these */
  done: number;
  /** when something of it was last entered */
  at: number;
  /** the newest of its sessions that are open, "" if none is */
  open: string;
  sessions: number;
  /** on its papers */
  number: string;
  customer: string;
  /** when something was quoted last, 0 if nothing was */
  quoted: number;
  /** that was quoted, in hundredths of the crew's currency */
  price: number;
  /** when its last session was closed, 0 if none was */
  ended: number;
  /** when it was, 0 if it was not */
  billed: number;
  fields: Record<string, string | number | boolean | Body>;
  /** field → event that set it */
  by: Record<string, string>;
  also: LostValue[];
}

/** JobNote is a note. */
export interface JobNote {
  id: string;
  at: number;
  in: string;
  device: string;
  text: string;
}

/** JobPart is a part that was fitted or pulled. */
export interface JobPart {
  id: string;
  at: number;
  in: string;
  kind: string;
  part: string;
  rig: string;
  /** of one that was pulled, where it was; "" if nobody knows */
  slot: string;
  line: string;
  why: string;
  device: string;
}

/** JobPhoto is a photo with its small picture. */
export interface JobPhoto {
  id: string;
  at: number;
  in: string;
  device: string;
  body: Body;
}

/** JobSession is a session of the job. */
export interface JobSession {
  id: string;
  title: string;
  rig: string;
  open: boolean;
  opened: number;
  closed: number;
  ms: number;
  starts: number;
  /** what was planned at its start, or null */
  planned: Body | null;
  cuts: CutWork[];
}

/** JobStop is a stop that may-i-cut told. */
export interface JobStop {
  id: string;
  step: string;
  says: string;
  /** who may clear it */
  by: string;
  /** the event that cleared it, "" if none did */
  cleared: string;
  clearedAt: number;
  /** the phone that did */
  clearedBy: string;
  how: string;
}

/** JobTried is a cut with how it went. */
export interface JobTried {
  id: string;
  at: number;
  in: string;
  rig: string;
  verdict: string;
  body: Body;
}

/** JobView is a job with its cuts, its sessions and what was done. */
export interface JobView {
  id: string;
  /** further ids that mean it */
  same?: string[];
  name: string;
  site: string;
  rig: string;
  /** cuts on its list */
  rows: number;
  /** of which all pieces are done */
  rowsDone: number;
  /** of all cuts on its list */
  pieces: number;
  /** of these */
  done: number;
  /** when something of it was last entered */
  at: number;
  /** the newest of its sessions that are open, "" if none is */
  open: string;
  sessions: number;
  /** on its papers */
  number: string;
  customer: string;
  /** when something was quoted last, 0 if nothing was */
  quoted: number;
  /** that was quoted, in hundredths of the crew's currency */
  price: number;
  /** when its last session was closed, 0 if none was */
  ended: number;
  /** when it was, 0 if it was not */
  billed: number;
  fields: Record<string, string | number | boolean | Body>;
  /** field → event that set it */
  by: Record<string, string>;
  also: LostValue[];
  cuts: JobCut[];
  /** arcs of its sessions that name no cut */
  loose: CutWork;
  /** its sessions, oldest first */
  work: JobSession[];
  waiting: Waiting | null;
  /** arc time of all */
  ms: number;
  starts: number;
  check: Warning[];
  /** fitted and pulled */
  parts?: JobPart[];
  watches?: JobWatch[];
  checks?: JobChecks;
  photos?: JobPhoto[];
  notes?: JobNote[];
  /** of which a cause was found */
  faults?: JobFault[];
  drains?: number;
  /** cuts, with how they went */
  tried?: JobTried[];
}

/** JobWatch is a fire watch as it in fact ran. */
export interface JobWatch {
  id: string;
  in: string;
  rig: string;
  /** the phone that began it */
  device: string;
  /** when it was begun */
  at: number;
  /** the last arc that it counts from, "" if it counts from when it was begun */
  arc: string;
  /** the end of that arc, or when it was begun */
  from: number;
  /** when it was ended, 0 if nobody did */
  to: number;
  /** that it was to last */
  ms: number;
  open: boolean;
}

/** Jobs are jobs, the one that was last touched first. */
export interface Jobs {
  jobs: JobItem[];
  total: number;
}

/** Look says which report is wanted, of what, when and in which units. */
export interface Look {
  report: string;
  /** of the part, the stock line or the job; "" where the report is of all */
  id: string;
  /** a list begins behind this one */
  before: string;
  /** ms since 1970 UTC */
  now: number;
  zone: Zone;
  units: System;
  /** the rig in use on the phone */
  rig: string;
  /** entries that are still on their way to the phone: what it has is not the whole */
  coming: number;
  /** what stands in the address behind ? */
  query: Record<string, string>;
  /** the phone, as its entries name it */
  device: string;
  /** who watches the fire, which this phone alone knows */
  watcher: string;
}

/** LostValue is a value that lost against another that had not seen it. */
export interface LostValue {
  field: string;
  value: unknown;
  id: string;
  device: string;
  at: number;
}

/** Mark is a checkpoint: the chain at arrival N. */
export interface Mark {
  n: number;
  h: Chain;
}

/**
 * Meta is the part of a replica's one record in the store meta that the sync
 * keeps. calc/journal/states.md says what each field means; the fields that the
 * phone keeps for itself are not here.
 */
export interface Meta {
  crew: string;
  cursor: number;
  head: Chain;
  marks: Mark[];
  gen: number;
  turn: number;
  rewinding: boolean;
  rewinds: number[];
  maxO: Stamp;
  offset: number;
  max: number;
  backedUp: number;
  sameDisk: number;
  heard: number;
  batch: number;
  strikes: number;
  fails: number;
  pullOnly: boolean;
  gone: string;
  stopped: Trouble | null;
  wait: number;
  early: string;
  coming: number;
}

/** Now is what stands at this moment, without asking what time it is. */
export interface Now {
  session: Session | null;
  /** open sessions, newest first */
  open: string[];
  rigs: RigNow[];
  watch: FireWatch[];
  fails: OpenFail[];
  gate: Gate;
  faults: OpenFault[];
  /** Found counts the crew's confirmed faults by cause, the last word on each. */
  found: Record<string, number>;
  check: Warning[];
}

/** OpenFail is a failed check that nothing has cleared. */
export interface OpenFail {
  id: string;
  guide: string;
  step: string;
  result: string;
  slot: string;
  in: string;
  at: number;
}

/** OpenFault is a fault that was seen and not mended. */
export interface OpenFault {
  id: string;
  /** the event that told of it, which an amend names */
  seen: string;
  symptom: string;
  /**
   * Signs are all that was seen, the symptom among them; empty in entries that
   * name the symptom alone.
   */
  signs: string[];
  /** "" until one was found */
  cause: string;
  in: string;
  rig: string;
  at: number;
}

/** OpenStop is a stop of may-i-cut that nothing has cleared. */
export interface OpenStop {
  id: string;
  step: string;
  /** what it is, in a few words */
  says: string;
  /** who may clear it */
  by: string;
  rig: string;
  site: string;
  /** its session, "" before one was opened */
  in: string;
  at: number;
}

/** Option is one word of a choice. */
export interface Option {
  word: string;
  label: string;
  more: string;
}

/** PartNow is a part that is in the torch. */
export interface PartNow {
  part: string;
  slot: string;
  at: number;
  /** over its whole life */
  ms: number;
  starts: number;
  line: string;
  /** body of the part.fitted */
  fields: Body;
  /** body of the last reading, or null */
  reading: Body | null;
  readAt: number;
  readMs: number;
  check: Warning[];
}

/** Photo is a picture of the journal: its event and the body of that. */
export interface Photo {
  id: string;
  body: unknown;
}

/** Progress is how far a guide was gone through. */
export interface Progress {
  guide: string;
  in: string;
  opened: number;
  last: number;
  steps: Record<string, StepAnswer>;
  fails: string[];
}

/** Promise is a number above the cursor that the server gave. */
export interface Promised {
  id: string;
  n: number;
}

/** Ranged is a value and where it lies with 95 %; known says that there is such a range. */
export interface Ranged {
  value: number;
  known: boolean;
  low: number;
  high: number;
}

/** RefusedLine is a line of an export that cannot be entered. */
export interface RefusedLine {
  line: number;
  error: Trouble;
}

/**
 * RejectedEvent is an event that the server would not take. The phone puts it aside: it
 * is kept and folded, and sent again after an update of the app.
 */
export interface RejectedEvent {
  id: string;
  error: Trouble;
}

/** Report is a screen or a page of paper. */
export interface Report {
  title: string;
  /** the answer, which stands first */
  says: string[];
  cautions: string[];
  sections: Section[];
  /** of the whole, the main one first */
  actions: Action[];
  /** made for one page of paper */
  paper: boolean;
}

/** Request is what a phone posts. */
export interface Request {
  /** "" if Skip says why nothing is to be sent */
  body: string;
  sent: string[];
  skip?: Trouble;
}

/** Restored answers journal-restore. */
export interface Restored {
  fold: number;
  l: number;
  stale: string[];
}

/** RigNow is how a rig stands. */
export interface RigNow {
  rig: string;
  name: string;
  ms: number;
  starts: number;
  /** end of the last arc */
  lastArc: number;
  drain: DrainNow;
  filter: FilterNow;
  parts: PartNow[];
}

/** Row is one line of a list. */
export interface Row {
  title: string;
  says: string[];
  /** one word that stands out */
  tag: string;
  href: string;
  photo: Photo | null;
  action: Action | null;
}

/** RunningArc is a running arc as meta keeps it. */
export interface RunningArc {
  id: string;
  start: number;
  in: string;
}

/** Section is a part of a report under a heading of its own. */
export interface Section {
  title: string;
  /** long: on a phone it opens with a tap */
  folded: boolean;
  says: string[];
  cautions: string[];
  figures: Figure[];
  pictures: Picture[];
  /** of the pictures */
  lengths: Drawn[];
  rows: Row[];
  table: Table | null;
  photos: Photo[];
  actions: Action[];
  /** who signs: each with room to do it */
  sign: string[];
  /** not on paper */
  screen: boolean;
}

/**
 * Segment is one record of the store snapshot. Its data is a first line, which names
 * the segment below by its hash, and then one line for each fact or confirmation. The
 * top segment ends in its seal; one with empty data holds nothing.
 */
export interface Segment {
  /** its number in six digits */
  name: string;
  /** FoldVersion */
  fold: number;
  /** local change number up to which it holds all changes */
  l: number;
  data: string;
}

/** Session is a session in short, as the book lists it. */
export interface Session {
  id: string;
  title: string;
  rig: string;
  site: string;
  job: string;
  open: boolean;
  opened: number;
  /** 0 while open */
  closed: number;
  /** arc time */
  ms: number;
  starts: number;
  arcs: number;
  cuts: number;
  /** fitted */
  parts: number;
  /** of the trap */
  drains: number;
  /** and photos */
  notes: number;
  entries: number;
  /** failed checks that are not cleared */
  fails: number;
}

/** SessionLine is one entry of a session. */
export interface SessionLine {
  id: string;
  kind: string;
  /** above 1: of a newer version, listed and not counted */
  v: number;
  about: string;
  at: number;
  t: Stamp;
  o: Stamp;
  /** 0 while it is on this phone alone */
  n: number;
  wall: [ms: number, offset: number] | null;
  device: string;
  body: Body;
  void: boolean;
  history: Correction[];
  arc?: ArcTimes;
  /** what cleared this failed check */
  cleared?: string;
  /** what was done to clear it */
  how?: string;
  check: Warning[];
}

/** SessionView is a session with all that was entered in it. */
export interface SessionView {
  id: string;
  title: string;
  rig: string;
  site: string;
  job: string;
  open: boolean;
  opened: number;
  /** 0 while open */
  closed: number;
  /** arc time */
  ms: number;
  starts: number;
  arcs: number;
  cuts: number;
  /** fitted */
  parts: number;
  /** of the trap */
  drains: number;
  /** and photos */
  notes: number;
  /** failed checks that are not cleared */
  fails: number;
  fields: Record<string, string | number | boolean | Body>;
  /** field → event that set it */
  by: Record<string, string>;
  also: LostValue[];
  entries: SessionLine[];
  check: Warning[];
}

/** Settings is the view settings. */
export interface Settings {
  devices: Record<string, Fields>;
}

/** Share is a part of a whole by a word. */
export interface Share {
  word: string;
  n: number;
}

/** Shift is a change of the clock. */
export interface Shift {
  /** ms since 1970 UTC */
  from: number;
  minutes: number;
}

/** Spread is how some amounts are spread: their median and their quartiles. */
export interface Spread {
  n: number;
  low: number;
  median: number;
  high: number;
}

/**
 * Stamp is a time of the hybrid clock: 48 bits of milliseconds since 1970 UTC
 * above 16 bits of counter. On the wire it is 16 lower-case hex digits, which
 * sort as text.
 *
 * The clock is after Kulkarni, Demirbas, Madappa, Avva and Leone, "Logical
 * Physical Clocks", OPODIS 2014, with the bits split as there (section 6.2).
 */
export type Stamp = string;

/** Answer is the last answer to a step. */
export interface StepAnswer {
  result: string;
  id: string;
  at: number;
  device: string;
  body: Body;
}

/** Stock is a stock line as a screen shows it. */
export interface Stock {
  id: string;
  same?: string[];
  fields: Record<string, string | number | boolean | Body>;
  /** field → event that set it */
  by: Record<string, string>;
  also: LostValue[];
  name: string;
  slot: string;
  rating: string;
  /** whose truck it lies in, "" is the shop */
  rig: string;
  /** of a piece, hundredths of the crew's currency; 0 if it is not said */
  price: number;
  /** the fewest pieces that the crew wants */
  least: number;
  /** fitted since stockDays before the day of the crew's last arc */
  used: number;
  n: number;
  /** when it was last counted */
  counted: number;
  /** that count minus what was expected */
  differs: number;
  /** below zero: count again */
  again: boolean;
}

/**
 * StockPick is a line to take a part from, as it is picked from. The word of one that
 * comes from none is NoLine.
 */
export interface StockPick {
  word: string;
  label: string;
}

/** Stocks is the view stock. */
export interface Stocks {
  lines: Stock[];
  /**
   * From says from which line a part is taken that is fitted: by rig and slot, those
   * from which it may come. A rig that has no lines takes as "" does.
   */
  from: Record<string, Record<string, StockPick[]>>;
}

/** Table is a list by columns, which is sorted on the screen and written as CSV. */
export interface Table {
  columns: Column[];
  rows: Cell[][];
}

/** Taught answers journal-taught: what a job that was done says of the next plan. */
export interface Taught {
  /** what was quoted for it, in words; "" if nothing was */
  quote: string;
  /** how long it was to take, in words; "" if no plan says */
  planned: string;
  /** the same of all pieces of a cut */
  takes: Record<string, string>;
  cuts: TaughtCut[];
  times: TaughtTime[];
}

/** TaughtCut is a cut as it was planned and done. */
export interface TaughtCut {
  cut: string;
  /** told as done, with the arcs that belong to them */
  pieces: number;
  /** in how many lots they were told */
  lots: number;
  /** ms of a piece */
  arc: Ranged;
  /** ms of a piece, 0 if it was not planned */
  planned: number;
  /** of both; 0 if it was not planned */
  ratio: Ranged;
  /** of the ratio, "" if it was not planned */
  says: string;
  /**
   * A hint for the calibration, never put in by itself: how fast the torch went by the
   * length of the row and the arc time. µm/s; 0 if the length is not known.
   */
  speed: Ranged;
  plannedSpeed: number;
}

/** TaughtTime is a time of the crew that the job changed. N 0 is none before it. */
export interface TaughtTime {
  what: string;
  before: Spread;
  after: Spread;
}

/** Thing is a rig or a site. */
export interface Thing {
  id: string;
  /** further ids that mean it */
  same?: string[];
  fields: Record<string, string | number | boolean | Body>;
  /** field → event that set it */
  by: Record<string, string>;
  also: LostValue[];
}

/** Things are the rigs and sites of the crew. */
export interface Things {
  rigs: Thing[];
  sites: Thing[];
}

/** Unfolded is a record that cannot be read as an event. */
export interface Unfolded {
  l: number;
  error: Trouble;
}

/** The views that the phone keeps, by name. */
export interface Views {
  book: Book;
  days: Days;
  guides: Guides;
  jobs: Jobs;
  now: Now;
  rigs: Things;
  settings: Settings;
  stock: Stocks;
}

/** Waited is the time of pauses of one sort. */
export interface Waited {
  why: string;
  n: number;
  /** while no arc burnt */
  ms: number;
}

/** Waiting is a pause of an open session that nothing has ended yet. */
export interface Waiting {
  id: string;
  why: string;
  at: number;
}

/** Warning says what a person should look at. */
export interface Warning {
  what: string;
  id: string;
  msg: string;
}

/**
 * Zone says what the phone's clock shows: from each of these moments on, rising, so many
 * minutes ahead of UTC. The first holds before it too.
 */
export type Zone = Shift[];
