// @ts-check
/** The row of an entry in a list: what it says, when it was, what became of it. A tap on it offers to put it right. */
import { make } from "./dom.js";
import { describe, isOfNewerVersion, kindOf } from "./entry-words.js";
import { showPhoto, thumbnail } from "./photos.js";
import { clockTime } from "./times.js";
import { say } from "../words/words.js";

/** @typedef {import("../types/journal.js").SessionLine} Line */

/**
 * @param {Line} entry
 * @param {{deps: Pick<import("../app.js").Deps, "journal"|"toasts">, show: import("./entry-words.js").Show, of?: string}} about  of: whose it is, where several rigs are
 */
export function entryRow(entry, { deps, show, of }) {
  const said = describe(entry, show);
  const notes = [
    of,
    entry.void ? say("entry.removed") : "",
    isCorrected(entry) ? say("entry.corrected") : "",
    stands(entry) ? say("stop.stands") : entry.how ? say("stop.how", { how: entry.how }) : "",
    entry.n || !deps.journal.state?.crew ? "" : say("entry.here"), // without a crew all are
    ...(entry.check ?? []).map((c) => c.msg),
  ].filter(Boolean);
  const row = make("button", { class: "list__item list__item--split", type: "button", "data-action": "change", "data-id": entry.id },
    make("span", { class: entry.void ? "entry--void" : "" }, make("b", { text: said })),
    make("span", { class: "entry__when", text: clockTime(entry.at) }),
    notes.length ? make("span", { text: notes.join(" · ") }) : null);
  const thumb = entry.kind === "photo.added" && !isOfNewerVersion(entry) && !entry.void ? thumbnail(entry.body) : null;
  if (!thumb) return make("li", {}, row);
  const look = () => showPhoto(deps.journal, entry, said).catch((trouble) => deps.toasts.problem(trouble));
  return make("li", { class: "entry--photo" }, make("button", { class: "entry__photo", type: "button", "aria-label": say("entry.photo.show"), onclick: look }, thumb), row);
}

/** Of one that cannot be drawn. @param {Line} entry */
export function aboutRow(entry) {
  return { name: kindOf(entry), at: entry.at };
}

/** @param {Line} entry */
export function isCorrected({ history }) {
  return Boolean(history?.some((h) => h.set));
}

/** Whether an entry is a stop of may-i-cut that nobody has cleared. @param {Line} entry */
export function stands({ kind, v, body, cleared, void: removed }) {
  return kind === "check.answered" && !isOfNewerVersion({ v }) && body.guide === "may-i-cut" && body.result === "fail" && !cleared && !removed;
}
