// @ts-check
/** Book: what happened, day by day, newest first: sessions, and all that was entered outside of any; each entry is put right where it stands. */
import { clone, make, onActions, refs, setText } from "../parts/dom.js";
import { Corrections } from "../parts/corrections.js";
import { DaysFilter } from "../parts/days-filter.js";
import { aboutRow, entryRow } from "../parts/entry-row.js";
import { sayResult } from "../parts/entry-words.js";
import { lookOf, onNews } from "../parts/look.js";
import { QuantityTexts } from "../parts/quantity-texts.js";
import { renderRows } from "../parts/rows.js";
import { shared } from "../parts/shared.js";
import { settled } from "../parts/settled.js";
import { clockTime, dayName, span } from "../parts/times.js";
import { exportJournal } from "../parts/export.js";
import { plain, say } from "../words/words.js";

/** @typedef {import("../types/journal.js").DayItem} Item */
/** @typedef {import("../types/journal.js").SessionLine} Line */
/** A row of a day: a session, an entry, or the answers of one guide. @typedef {{session?: import("../types/journal.js").Session, line?: Line, guide?: string, lines?: Line[]}} Row */

export class BookPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {Item[]} */ #items = [];
  #more = false;
  /** What is shown was looked for. */ #isFound = false;
  /** The section of each day, by its name. @type {Map<string, HTMLElement>} */ #days = new Map();
  /** The guides whose answers are unfolded. @type {Set<string>} */ #unfolded = new Set();
  /** Names of rigs by id, where there are several. @type {Map<string, string>} */ #rigs = new Map();
  /** The same of all rigs. @type {Map<string, string>} */ #named = new Map();
  /** @type {DaysFilter} */ #filter;

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
    this.texts = new QuantityTexts({ call: deps.call, units: () => deps.settings.values.units });
    this.show = this.texts.say.bind(this.texts);
    this.#filter = new DaysFilter(deps, { rigs: () => this.#named, changed: () => this.#try(() => this.#read()) });
  }

  async start() {
    const { deps } = this;
    const root = clone("page-book");
    this.#at = refs(root);
    this.#at.filter.replaceWith(this.#filter.element);
    this.element.append(root);
    const corrections = new Corrections(deps, { show: this.show, lines: () => this.#items.flatMap(({ line }) => line ?? []) });
    onActions(root, {
      export: () => this.#try(() => this.#export()),
      older: () => this.#try(() => this.#older()),
      change: (el) => this.#try(() => corrections.ask(String(el.dataset.id))),
    });
    deps.journal.addEventListener("views", () => this.#read(), { signal: deps.life });
    onNews(deps, () => this.#readFront().catch(() => {}));
    deps.settings.addEventListener?.("change", () => this.#paint(), { signal: deps.life });
    shared().then(({ waiting }) => (this.#at.shared.hidden = !waiting.length)).catch(() => {}); // such a phone takes none
    await this.#read();
    this.#readFront().catch(() => {}); // the days stand without it
  }

  // Private

  /** What each report says, in a line. */
  async #readFront() {
    const { sections: [{ rows }] } = await this.deps.call("journal-report", lookOf(this.deps, "front"));
    if (this.deps.life.aborted) return;
    for (const { title, says, tag } of rows) {
      this.#at[title].textContent = says[0];
      this.#at[title].classList.toggle("tile__due", Boolean(tag));
    }
  }

  async #read() {
    await settled(this.#at.days); // what another phone enters pushes all rows down
    const { views } = await this.deps.journal.read(["days", "rigs"]);
    if (this.deps.life.aborted) return;
    const rigs = views.rigs?.rigs ?? [];
    this.#named = new Map(rigs.map(({ id, fields }) => [id, plain(fields.name)]));
    this.#rigs = rigs.length > 1 ? this.#named : new Map();
    const filter = this.#filter.value;
    if (filter) return this.#find(filter);
    const newest = views.days?.items ?? [];
    const end = this.#isFound ? -1 : this.#items.findIndex((one) => keyOf(one) === keyOf(newest.at(-1))); // what follows it here was asked for, and stays
    const kept = end < 0 ? [] : this.#items.slice(end + 1).filter((one) => !newest.some((other) => keyOf(other) === keyOf(one)));
    this.#items = [...newest, ...kept];
    this.#isFound = false;
    if (kept.length === 0) this.#more = views.days?.more ?? false;
    await this.#paint();
  }

  /** Shows what is looked for, unless something else is by then. @param {import("../types/journal.js").DayFilter} filter */
  async #find(filter) {
    const { items, more } = await this.deps.call("journal-days", { filter });
    if (this.deps.life.aborted || JSON.stringify(this.#filter.value) !== JSON.stringify(filter)) return;
    this.#items = items;
    this.#more = more;
    this.#isFound = true;
    await this.#paint();
  }

  async #paint() {
    this.#draw();
    if ((await this.texts.learn()) && !this.deps.life.aborted) this.#draw();
  }

  #draw() {
    this.#at.none.hidden = this.#items.length > 0;
    setText(this.#at.none, say(this.#filter.value ? "filter.none" : "book.none"));
    this.#at.older.hidden = !this.#more;
    const days = byDay(this.#items);
    for (const name of this.#days.keys()) if (!days.has(name)) this.#days.delete(name);
    for (const [name, rows] of days) {
      const section = this.#days.get(name) ?? make("section", { class: "section" }, make("h2", { text: name }), make("ul", { class: "list" }));
      this.#days.set(name, section);
      renderRows(/** @type {Element} */ (section.lastElementChild), rows, (row) => this.#row(row, name), (row) => (row.line ? aboutRow(row.line) : { name: row.session?.title ?? row.guide }));
    }
    const sections = [...days.keys()].map((name) => /** @type {HTMLElement} */ (this.#days.get(name)));
    const shown = this.#at.days.children;
    if (sections.length !== shown.length || sections.some((section, i) => section !== shown[i])) this.#at.days.replaceChildren(...sections);
  }

  /** @param {Row} row @param {string} day */
  #row({ session, line, guide, lines = [] }, day) {
    if (session) return this.#session(session);
    if (line) return this.#entry(line);
    const key = `${day} ${guide}`;
    const at = lines.map((l) => l.at);
    return make("li", {}, make("details", { class: "fold", open: this.#unfolded.has(key) ? "" : null, ontoggle: (/** @type {Event} */ { target }) => this.#unfold(key, /** @type {HTMLDetailsElement} */ (target).open) },
      make("summary", {}, make("span", {}, make("b", { text: String(guide) }), make("span", { class: "day__more", text: `${clockTime(Math.min(...at))} – ${clockTime(Math.max(...at))} · ${results(lines)}` }))),
      make("ul", { class: "list" }, ...lines.map((l) => this.#entry(l)))));
  }

  /** @param {string} key @param {boolean} isOpen */
  #unfold(key, isOpen) {
    if (isOpen) this.#unfolded.add(key);
    else this.#unfolded.delete(key);
  }

  /** @param {Line} line */
  #entry(line) {
    return entryRow(line, { deps: this.deps, show: this.show, of: this.#rigs.get(plain(line.body?.rig)) });
  }

  /** @param {import("../types/journal.js").Session} s */
  #session(s) {
    const when = s.open ? say("session.open", { from: clockTime(s.opened) }) : `${clockTime(s.opened)} – ${clockTime(s.closed)}`;
    const counts = /** @type {const} */ (["starts", "parts", "drains", "cuts", "notes"]).filter((key) => s[key] > 0).map((key) => say(/* starts | parts | drains | cuts | notes */ `book.${key}`, { n: s[key] }));
    return make("li", {}, make("a", { class: "list__item day__session", href: `/session/${s.id}` },
      make("b", { text: s.title || say("session.untitled") }),
      make("span", { text: [when, this.#rigs.get(s.rig)].filter(Boolean).join(" · ") }),
      make("span", { text: [s.ms > 0 && say("book.arc", { arc: span(s.ms) }), ...counts].filter(Boolean).join(" · ") })));
  }

  async #older() {
    const last = this.#items.at(-1);
    const { items, more } = await this.deps.call("journal-days", { before: markOf(last), filter: this.#filter.value ?? undefined });
    if (this.deps.life.aborted || keyOf(this.#items.at(-1)) !== keyOf(last)) return; // it no longer follows: another tap brought it, or the list is another
    this.#items = [...this.#items, ...items];
    this.#more = more;
    await this.#paint();
  }

  async #export() {
    await exportJournal(this.deps);
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

/** @param {Item|undefined} item */
function markOf(item) {
  const { session, line } = item ?? {};
  return session ? { at: session.opened, id: session.id } : { at: line?.at, id: line?.id };
}

/** @param {Item|undefined} item */
function keyOf(item) {
  return `${item?.session ? "session" : "line"} ${markOf(item).id}`;
}

/**
 * The rows of each day, by its name; the answers of a guide make up one, where its newest stands.
 * @param {Item[]} items newest first
 * @returns {Map<string, Row[]>}
 */
function byDay(items) {
  /** @type {Map<string, Row[]>} */
  const days = new Map();
  for (const { session, line } of items) {
    const name = dayName(/** @type {number} */ (session?.opened ?? line?.at));
    const rows = days.get(name) ?? [];
    days.set(name, rows);
    const guide = line && /^(guide\.opened|check\.answered)$/.test(line.kind) && line.body?.guide !== "may-i-cut" ? plain(line.body?.guide).replaceAll("-", " ") : "";
    const group = guide && rows.find((row) => row.guide === guide);
    if (group) group.lines?.push(/** @type {Line} */ (line));
    else rows.push(guide ? { guide, lines: [/** @type {Line} */ (line)] } : session ? { session } : { line });
  }
  return days;
}

/** How often each answer was given. @param {Line[]} lines */
function results(lines) {
  /** @type {Map<string, number>} */
  const counts = new Map();
  for (const { body, void: removed } of lines) if (body?.result && !removed) counts.set(plain(body.result), (counts.get(plain(body.result)) ?? 0) + 1);
  return [...counts].map(([result, n]) => `${n} ${sayResult(result)}`).join(", ");
}
