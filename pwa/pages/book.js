// @ts-check
/** Book: sessions newest first, and the way to rigs, settings and the export. */
import { clone, make, onActions, refs } from "../parts/dom.js";
import { renderRows } from "../parts/rows.js";
import { dayAndTime, span } from "../parts/times.js";
import { download } from "../parts/download.js";
import { say } from "../words/words.js";

export class BookPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {import("../types/journal.js").Session[]} */ #sessions = [];
  #total = 0;

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  async start() {
    const root = clone("page-book");
    this.#at = refs(root);
    this.element.append(root);
    onActions(root, { export: () => this.#export(), older: () => this.#older() });
    this.deps.journal.addEventListener("views", () => this.#read(), { signal: this.deps.life });
    await this.#read();
  }

  // Private

  async #read() {
    const { views } = await this.deps.journal.read(["book"]);
    if (this.deps.life.aborted) return;
    const newest = views.book?.sessions ?? [];
    const end = this.#sessions.findIndex((s) => s.id === newest.at(-1)?.id); // what follows it here was asked for, and stays
    this.#sessions = [...newest, ...(end < 0 ? [] : this.#sessions.slice(end + 1).filter((s) => !newest.some((n) => n.id === s.id)))];
    this.#total = views.book?.total ?? 0;
    this.#paint();
  }

  #paint() {
    this.#at.none.hidden = this.#sessions.length > 0;
    renderRows(this.#at.sessions, this.#sessions, (s) => make("li", {},
      make("a", { class: "list__item", href: `/session/${s.id}` },
        make("b", { text: s.title || say("session.untitled") }),
        make("span", { text: `${dayAndTime(s.opened)}${s.open ? ` · ${say("session.open")}` : ""}` }),
        make("span", { text: say("book.line", { arc: span(s.ms), starts: s.starts, entries: s.entries }) }))), (s) => ({ name: s.title, at: s.opened }));
    this.#at.older.hidden = this.#sessions.length >= this.#total;
  }

  async #older() {
    const last = this.#sessions.at(-1);
    try {
      const { sessions } = await this.deps.journal.book(last?.id);
      if (this.#sessions.at(-1)?.id !== last?.id) return; // it no longer follows: another tap brought it, or the list is another
      this.#sessions = [...this.#sessions, ...sessions];
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
    this.#paint();
  }

  async #export() {
    try {
      const { name, text } = await this.deps.journal.exportText();
      download(name, text);
      this.deps.toasts.show(say("book.exported", { name }));
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
  }
}
