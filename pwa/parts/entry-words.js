// @ts-check
/** Says in words what an entry of a session is. Kinds of a newer app are said by their own name. */
import { span } from "./times.js";
import { say, sayKnown } from "../words/words.js";

/** µm as mm with two figures behind the point, which is what a gauge pin can tell. @param {number} um */
const mm = (um) => say("mm", { n: Math.round(um / 10) / 100 });

/** @type {Record<string, (body: any, entry: any) => string>} */
const sayings = {
  "session.opened": () => say("said.opened"),
  "session.closed": () => say("said.closed"),
  "session.set": (b) => say("said.set", { what: Object.values(b).join(", ") }),
  "arc.started": (b, e) => (e.arc ? (e.arc.running ? say("said.arc.running") : say("said.arc", { time: span(e.arc.ms), starts: e.arc.starts })) : say("said.arc.started")),
  "arc.stopped": () => say("said.arc.stopped"),
  "arc.run": (b, e) => say("said.arc", { time: span(e.arc?.ms ?? b.stop - b.start), starts: b.starts ?? 1 }),
  "part.fitted": (b) => say("said.fitted", { slot: sayKnown(`slot.${b.slot}`) }),
  "part.pulled": (b) => say("said.pulled", { why: sayKnown(`why.${b.why}`) }),
  "part.reading": (b) => say("said.reading", { what: [b.dmax && say("said.dmax", { d: mm(b.dmax) }), b.dmin && say("said.dmin", { d: mm(b.dmin) }), b.pit !== undefined && say("said.pit", { d: mm(b.pit) })].filter(Boolean).join(", ") }),
  "trap.drained": () => say("said.drained"),
  "filter.changed": () => say("said.filter"),
  "cut.tried": (b) => say("said.tried", { verdict: sayKnown(`verdict.${b.verdict}`) }),
  "photo.added": () => say("said.photo"),
  "note.added": (b) => b.text,
  "guide.opened": (b) => say("said.guide", { guide: String(b.guide).replaceAll("-", " ") }),
  "check.answered": (b) => (b.guide === "may-i-cut" ? saidOfGate(b) : say("said.check", { step: String(b.step).replaceAll("-", " "), result: sayKnown(`result.${b.result}`) })),
  "check.cleared": (b) => say("said.cleared", { how: b.why ? `: ${b.why}` : "" }),
  "fault.seen": (b) => say("said.fault", { symptom: (b.signs ?? [b.symptom]).join(", ").replaceAll("-", " ") }),
  "fault.found": (b) => say("said.found", { cause: String(b.cause).replaceAll("-", " ") }),
  "fault.mended": (b) => say("said.mended", { how: b.how ?? "" }),
  "watch.started": (b) => say("said.watch", { time: span(b.ms) }),
  "watch.ended": () => say("said.watch.ended"),
};

/** What may-i-cut told. @param {any} body */
function saidOfGate({ result, says = "", step }) {
  if (result === "fail") return say("stop.what", { what: says || String(step).replaceAll("-", " ") });
  return `${say("title.gate")} ${say(`gate.${result === "conditions" ? "conditions" : "go"}`)}${says ? `: ${says}` : ""}`;
}

/** @param {{kind: string, body: any}} entry */
export function describe(entry) {
  const saying = sayings[entry.kind];
  return saying ? saying(entry.body ?? {}, entry) : sayKnown(`kind.${entry.kind}`);
}
