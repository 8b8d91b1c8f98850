// @ts-check
/** One session: its figures and every entry, each to be corrected or removed. */
import { request } from "../journal/crew/request.js";
import { clone, make, onActions, refs, setText } from "../parts/dom.js";
import { reading } from "../parts/answer.js";
import { describe, isOfNewerVersion, kindOf } from "../parts/entry-words.js";
import { showPhoto, thumbnail } from "../parts/photos.js";
import { renderRows } from "../parts/rows.js";
import { clearStop } from "../parts/stops.js";
import { clockTime, dayAndTime, span } from "../parts/times.js";
import { plain, say, sayTrouble } from "../words/words.js";
/** @typedef {import("../types/journal.js").SessionView} SessionView */

export class SessionPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {SessionView|null} */ #session = null;
  #id = "";
  /** @type {symbol|null} */ #job = null;

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  /** @param {Record<string, string>} params */
  async start({ id }) {
    this.#id = id;
    const root = clone("page-session");
    this.#at = refs(root);
    this.element.append(root);
    onActions(root, {
      rename: () => this.#try(() => this.#rename()),
      note: () => this.#try(() => this.#note()),
      reopen: () => this.#try(() => this.#reopen()),
      change: (el) => this.#try(() => this.#change(String(el.dataset.id))),
    });
    // A corrected word changes no stored view, so "views" alone would miss it.
    this.deps.journal.addEventListener("change", () => this.#read(), { signal: this.deps.life });
    this.#at.when.textContent = say("session.reading");
    this.#read();
  }

  // Private

  async #read() {
    const job = (this.#job = Symbol());
    let session;
    try {
      session = await this.deps.journal.session(this.#id);
    } catch (trouble) {
      if (job !== this.#job || this.deps.life.aborted) return;
      if (this.#session) this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble)); // what is shown is from before
      else this.#at.when.textContent = sayTrouble(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
      return;
    }
    if (job !== this.#job || this.deps.life.aborted) return;
    this.#session = session;
    this.#paint();
  }

  #paint() {
    const s = /** @type {SessionView} */ (this.#session);
    const at = this.#at;
    at.title.textContent = s.title || say("session.untitled");
    at.when.textContent = s.open ? say("session.since", { time: dayAndTime(s.opened) }) : say("session.was", { from: dayAndTime(s.opened), to: clockTime(s.closed) });
    at.readings.replaceChildren(reading(say("session.arc"), span(s.ms)), reading(say("session.starts"), String(s.starts)), reading(say("session.cuts"), String(s.cuts)));
    const f = s.fields ?? {};
    at.plan.hidden = !f.plan_current;
    at.plan.textContent = ["plan_current", "plan_pressure", "plan_speed"].map((key) => plain(f[key])).filter(Boolean).join(" · ");
    at.reopen.hidden = false;
    setText(at.reopen, say(s.open ? "cut.end" : "session.reopen"));
    renderRows(at.entries, s.entries, (e) => this.#row(e), (e) => ({ name: kindOf(e), at: e.at }));
  }

  /** @param {import("../types/journal.js").SessionLine} entry */
  #row(entry) {
    const notes = [
      entry.void ? say("entry.removed") : "",
      entry.history?.some((h) => h.set) ? say("entry.corrected") : "",
      stands(entry) ? say("stop.stands") : entry.how ? say("stop.how", { how: entry.how }) : "",
      entry.n ? "" : say("entry.here"),
      ...(entry.check ?? []).map((c) => c.msg),
    ].filter(Boolean);
    const row = make("button", { class: "list__item list__item--split", type: "button", "data-action": "change", "data-id": entry.id },
      make("span", { class: entry.void ? "entry--void" : "" }, make("b", { text: describe(entry) })),
      make("span", { class: "entry__when", text: clockTime(entry.at) }),
      notes.length ? make("span", { text: notes.join(" · ") }) : null);
    const thumb = entry.kind === "photo.added" && !isOfNewerVersion(entry) && !entry.void ? thumbnail(entry.body) : null;
    if (!thumb) return make("li", {}, row);
    const show = make("button", { class: "entry__photo", type: "button", "aria-label": say("entry.photo.show"), onclick: () => this.#try(() => showPhoto(this.deps.journal, entry, describe(entry))) }, thumb);
    return make("li", { class: "entry--photo" }, show, row);
  }

  /** @param {string} id */
  async #change(id) {
    const entry = this.#session?.entries.find((e) => e.id === id);
    if (!entry) return;
    const options = entry.void
      ? [{ word: "back", label: say("entry.bringback") }, ...(entry.n ? [{ word: "erase", label: say("entry.erase"), more: say("entry.erase.more") }] : [])]
      : [...(stands(entry) ? [{ word: "clear", label: say("stop.clear") }] : []),
        ...(entry.kind === "note.added" && !isOfNewerVersion(entry) ? [{ word: "text", label: say("entry.change.text") }] : []),
        { word: "time", label: say("entry.change.time"), more: clockTime(entry.at) },
        { word: "remove", label: say("entry.remove") }];
    const word = await this.deps.chooser.ask({ label: describe(entry), options });
    if (word === "back") await this.deps.journal.bringBack(id, undefined, this.#id);
    else if (word === "remove") await this.#remove(id);
    else if (word === "clear") await clearStop(this.deps, /** @type {Parameters<typeof clearStop>[1]} */ ({ ...entry.body, id }), this.#session?.open ? this.#id : "");
    else if (word === "erase") await this.#erase(id);
    else if (word === "text") await this.#changeText(entry);
    else if (word === "time") await this.#changeTime(entry);
  }

  /** @param {string} id */
  async #remove(id) {
    await this.deps.journal.voidEntry(id, undefined, this.#id);
    this.deps.toasts.show(say("entry.removed.done"), { about: [id], undo: () => this.#try(() => this.deps.journal.bringBack(id, undefined, this.#id)) });
  }

  /** What was removed stays in the journal; the server takes it out for good, for an owner. @param {string} id */
  async #erase(id) {
    const options = [{ word: "erase", label: say("entry.erase"), more: say("entry.erase.where") }];
    if (!(await this.deps.chooser.ask({ label: say("entry.erase.why"), options }))) return;
    await request("DELETE", `/api/entries/${encodeURIComponent(id)}`);
    this.deps.journal.syncNow();
    this.deps.toasts.erased(id);
    this.deps.toasts.show(say("entry.erased.done"));
  }

  /** @param {import("../types/journal.js").SessionLine} entry */
  async #changeText(entry) {
    const text = await this.deps.textPrompt.ask({ label: say("entry.change.text"), value: plain(entry.body.text), key: `amend.${entry.id}` });
    if (text && text !== entry.body.text) await this.deps.journal.amend(entry.id, { text }, undefined, this.#id);
  }

  /** Moves an entry by minutes. @param {import("../types/journal.js").SessionLine} entry */
  async #changeTime(entry) {
    const word = await this.deps.chooser.ask({ label: say("entry.change.time"), options: [5, 15, 60].map((m) => ({ word: String(m), label: say("entry.earlier", { m }), more: clockTime(entry.at - m * 60_000) })) });
    if (word) await this.deps.journal.amend(entry.id, { at: entry.at - Number(word) * 60_000 }, undefined, this.#id);
  }

  async #rename() {
    const title = await this.deps.textPrompt.ask({ label: say("session.rename"), value: this.#session?.title ?? "", key: `title.${this.#id}` });
    if (title) await this.deps.journal.tap({ kind: "session.set", about: this.#id, body: { title } });
  }

  async #note() {
    const text = await this.deps.textPrompt.ask({ label: say("entry.note"), key: `note.${this.#id}` });
    if (text) await this.deps.journal.tap({ kind: "note.added", in: this.#id, body: { text } });
  }

  async #reopen() {
    const { open, rig } = /** @type {SessionView} */ (this.#session);
    await this.deps.journal.tap({ kind: open ? "session.closed" : "session.opened", about: this.#id, body: open ? {} : { rig } });
  }

  /** @param {() => Promise<unknown>} act */
  async #try(act) {
    try {
      await act();
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
  }
}

/** Whether an entry is a stop of may-i-cut that nobody has cleared. @param {import("../types/journal.js").SessionLine} entry */
function stands({ kind, v, body, cleared, void: removed }) {
  return kind === "check.answered" && !isOfNewerVersion({ v }) && body.guide === "may-i-cut" && body.result === "fail" && !cleared && !removed;
}
