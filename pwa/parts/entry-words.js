// @ts-check
/**
 * Says in words what an entry of a session is. An entry may come from a newer version, or hold what
 * nobody asked for: it is said by the name of its kind, and hides no other.
 */
import { span } from "./times.js";
import { own, plain, say, sayKnown } from "../words/words.js";

/** An entry, of this phone or another. @typedef {{kind: string, v?: number, arc?: import("../types/journal.js").ArcTimes}} Described */
/**
 * What words are made of, of any kind's body; start and stop are numbers where there is an arc.
 * @typedef {Partial<Record<"start"|"stop", any> & Record<"starts"|"n"|"dmin"|"dmax"|"pit"|"ms"|"thickness"|"amps", number> & {signs: string[]} & Record<"slot"|"why"|"task"|"verdict"|"text"|"guide"|"step"|"result"|"says"|"symptom"|"cause"|"how"|"name"|"title", string>>} Readable
 */

/** A quantity in the reader's units, no finer than its sort is read. @typedef {(value: number, quantity: string, unit: string, sort?: string) => string} Show */

/** As it was stored: for as long as the sums have not told its text. @type {Show} */
const asStored = (value, _, unit) => `${value} ${unit}`;

/** @param {string|undefined} key */
const spaced = (key) => key?.replaceAll("-", " ") ?? "";

/** The words of a table for what a body names, "" if it names nothing. @param {string} table @param {string|undefined} word */
const wordOf = (table, word) => (word ? sayKnown(/* slot | verdict | why | result | task */ `${table}.${word}`) : "");

/** What an amount makes, "" if it is no number. @param {unknown} value @param {(n: number) => string} made */
const number = (value, made) => (typeof value === "number" ? made(value) : "");

/** @param {Readable} b @param {Described} e */
function saidOfArc(b, e) {
  const ms = e.arc?.ms ?? b.stop - b.start;
  return ms >= 0 && say("said.arc", { time: span(ms), starts: e.arc?.starts ?? b.starts ?? 1 });
}

/** @param {Record<string, unknown>} b @param {Described} _ @param {Show} show */
function saidOfReading(b, _, show) {
  const what = ["dmax", "dmin", "pit"].map((key) => number(b[key], (um) => say(/* dmax | dmin | pit */ `said.${key}`, { d: show(um, "length", "µm", key === "pit" ? "kerf" : "bore") }))).filter(Boolean);
  return what.length > 0 && say("said.reading", { what: what.join(", ") });
}

/** @param {Readable} b @param {Described} _ @param {Show} show */
function saidOfCut(b, _, show) {
  const at = [number(b.thickness, (um) => show(um, "length", "µm", "plate")), number(b.amps, (n) => say("said.amps", { n }))].filter(Boolean).join(", ");
  return b.verdict && say("said.tried", { verdict: wordOf("verdict", b.verdict), at: at && ` · ${at}` });
}

/** Said by the name of its kind, and of the thing where it has one. @param {Readable} b @param {Described} e */
const named = (b, e) => (b.name ? say("said.thing", { kind: kindOf(e), name: b.name }) : kindOf(e));

/**
 * From a body as readable() leaves it to words; nothing where it lacks what they need.
 * @type {Record<string, (body: Readable, entry: Described, show: Show) => string|undefined|false>}
 */
const kindWords = {
  "rig.set": named, "site.set": named, "job.set": named, "line.set": named, "setting.set": named, "stock.moved": named, "stock.counted": named,
  "session.opened": () => say("said.opened"),
  "session.closed": () => say("said.closed"),
  "session.set": (b, e) => (b.title ? say("said.set", { what: b.title }) : kindOf(e)),
  "arc.started": (b, e) => (e.arc ? (e.arc.running ? say("said.arc.running") : saidOfArc(b, e)) : say("said.arc.started")),
  "arc.stopped": () => say("said.arc.stopped"),
  "arc.run": saidOfArc,
  "cut.done": (b) => say("said.done", { n: b.n ?? 1 }),
  "pause.started": (b, e) => (b.why ? say("said.thing", { kind: kindOf(e), name: wordOf("why", b.why) }) : kindOf(e)),
  "pause.ended": () => say("said.pause.ended"),
  "part.fitted": (b) => b.slot && say("said.fitted", { slot: wordOf("slot", b.slot) }),
  "part.pulled": (b) => (b.why ? say("said.pulled", { why: wordOf("why", b.why) }) : say("said.out")),
  "part.reading": saidOfReading,
  "trap.drained": () => say("said.drained"),
  "filter.changed": () => say("said.filter"),
  "upkeep.done": (b) => b.task && say("said.upkeep", { task: wordOf("task", b.task) }),
  "cut.tried": saidOfCut,
  "photo.added": () => say("said.photo"),
  "note.added": (b) => b.text,
  "guide.opened": (b) => b.guide && say("said.guide", { guide: spaced(b.guide) }),
  "check.answered": (b) => b.step && b.result && (b.guide === "may-i-cut" ? saidOfGate(b) : say("said.check", { step: spaced(b.step), result: wordOf("result", b.result) })),
  "check.cleared": (b) => say("said.cleared", { how: b.why ? `: ${b.why}` : "" }),
  "fault.seen": (b) => (b.signs ?? b.symptom) && say("said.fault", { symptom: spaced([b.signs ?? b.symptom].flat().join(", ")) }),
  "fault.found": (b) => b.cause && say("said.found", { cause: spaced(b.cause) }),
  "fault.mended": (b) => say("said.mended", { how: b.how ?? "" }),
  "watch.started": (b) => number(b.ms, (ms) => say("said.watch", { time: span(ms) })),
  "watch.ended": () => say("said.watch.ended"),
};

/** What may-i-cut told. @param {Readable} body */
function saidOfGate({ result, says = "", step }) {
  if (result === "fail") return say("stop.what", { what: says || spaced(step) });
  return `${say("title.gate")} ${say(/* conditions | go */ `gate.${result === "conditions" ? "conditions" : "go"}`)}${says ? `: ${says}` : ""}`;
}

/** Numbers and lists in the body that words are made of; all else is a text. */
const numbers = ["start", "stop", "starts", "n", "dmin", "dmax", "pit", "ms", "thickness", "amps"];
const lists = ["signs"];

/** @param {Described & {body: unknown}} entry @param {Show} [show] */
export function describe(entry, show = asStored) {
  const saying = own(kindWords, entry.kind);
  if (!saying || isOfNewerVersion(entry)) return say("said.newer", { kind: kindOf(entry) });
  return saying(readable(entry.body), entry, show) || say("said.plain", { kind: kindOf(entry) });
}

/** An answer of a guide's step, in words. @param {string} result */
export function sayResult(result) {
  return wordOf("result", result);
}

/** Whether a newer version entered it: its body may mean anything, and is only passed on. @param {{v?: number}} entry */
export function isOfNewerVersion({ v = 1 }) {
  return v !== 1;
}

/** The kind as a name that can begin a line. @param {{kind: string}} entry */
export function kindOf({ kind }) {
  const name = sayKnown(`kind.${kind}`);
  return name.slice(0, 1).toUpperCase() + name.slice(1);
}

/**
 * What can be put in words of a body that holds whatever another phone wrote: numbers where they are
 * asked for, else texts, and lists of texts.
 * @param {unknown} body
 * @returns {Readable}
 */
function readable(body) {
  const kept = Object.create(null);
  for (const [key, value] of Object.entries(body ?? {})) {
    if (numbers.includes(key)) {
      if (typeof value === "number" && Number.isFinite(value)) kept[key] = value;
    } else if (lists.includes(key) && Array.isArray(value)) {
      const texts = value.map(plain).filter(Boolean);
      if (texts.length > 0) kept[key] = texts;
    } else if (plain(value)) {
      kept[key] = plain(value);
    }
  }
  return kept;
}
