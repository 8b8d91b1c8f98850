// @ts-check
/** Jobs: planned, under way and done, the one last touched first, each with what is left of it. */
import { clone, make, onActions, refs } from "../parts/dom.js";
import { renderRows } from "../parts/rows.js";
import { settled } from "../parts/settled.js";
import { dayName } from "../parts/times.js";
import { newId } from "../journal/id.js";
import { say } from "../words/words.js";

/** @typedef {import("../types/journal.js").JobItem} JobItem */

export class JobsPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** Those that were asked for beyond the newest. @type {JobItem[]} */ #older = [];
  /** @type {JobItem[]} */ #newest = [];

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  async start() {
    const root = clone("page-jobs");
    this.#at = refs(root);
    this.element.append(root);
    onActions(root, { new: () => this.deps.go(`/job/${newId()}`), older: () => this.#more().catch((trouble) => this.deps.toasts.problem(trouble)) });
    this.deps.journal.addEventListener("views", () => this.#read(), { signal: this.deps.life });
    await this.#read();
  }

  // Private

  async #read() {
    await settled(this.#at.jobs);
    const { views } = await this.deps.journal.read(["jobs"]);
    if (this.deps.life.aborted) return;
    this.#newest = views.jobs?.jobs ?? [];
    this.#paint(views.jobs?.total ?? 0);
  }

  async #more() {
    const { jobs, total } = await this.deps.call("journal-jobs", { before: [...this.#newest, ...this.#older].at(-1)?.id });
    if (this.deps.life.aborted) return;
    this.#older.push(...jobs);
    this.#paint(total);
  }

  /** @param {number} total */
  #paint(total) {
    const jobs = [...this.#newest, ...this.#older.filter(({ id }) => !this.#newest.some((job) => job.id === id))];
    this.#at.none.hidden = jobs.length > 0;
    this.#at.older.hidden = jobs.length >= total;
    renderRows(this.#at.jobs, jobs, rowOf, ({ name, at }) => ({ name, at }));
  }
}

/** @param {JobItem} job */
function rowOf({ id, name, at, open, pieces, done }) {
  const state = open ? "open" : done === 0 ? "planned" : done < pieces ? "left" : "done";
  return make("li", {}, make("a", { class: "list__item list__item--split", href: `/job/${id}` },
    make("b", { text: name || say("job.unnamed") }), make("span", { class: "entry__when", text: dayName(at) }),
    make("span", { text: say(/* open | planned | left | done */ `jobs.${state}`, { n: pieces, left: pieces - done }) })));
}
