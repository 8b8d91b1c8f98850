// @ts-check
/**
 * What stands and matters, whatever is looked at: an arc that burns, stops that
 * nobody has cleared, the fire watch, and the offer to begin one when an arc has
 * gone off. The frame shows it above every page but Cut, which has one row of its
 * own for the fire watch, always in its place, and the rest of it further down.
 */
import { make, onePress } from "./dom.js";
import { QuickEntries } from "./quick-entries.js";
import { rigInUse, rigsOf } from "./rig-and-site.js";
import { stopsHere } from "./stops.js";
import { clockTime, minutes, span } from "./times.js";
import { lastFireWatch, recentFireWatches } from "./fire-watches.js";
import { own, say } from "../words/words.js";

/** @typedef {import("../types/journal.js").FireWatch} Watch */
/** @typedef {Pick<import("../app.js").Deps, "journal"|"chooser"|"pad"|"textPrompt"|"toasts"|"call"|"sumsRun"|"settings"|"go"|"drafts"|"today"|"alarm">} StatusDeps */

/** How many letters of a name are shown. */
const longestName = 24;
/** What was begun is not ended within this moment, ms: the button that ends it stands where the other stood. */
const deaf = 1000;
/** The longest that a timer of the browser waits, ms. */
const longestTimer = 2 ** 31 - 1;

export class StatusBar {
  /** @type {import("../journal/shapes.js").ReadModelBase["views"]["now"]} */ #now = null;
  /** @type {import("./rig-and-site.js").Rig[]} */ #rigs = [];
  /** @type {import("../journal/shapes.js").ReadModelBase["arc"]} */ #arc = {};
  /** @type {{rig: string, in: string, at: number}|null} */ #lastArc = null;
  #device = "";
  #offset = 0;
  /** What has rung while nobody saw this tab. */ #unseen = "";
  /** What each row is, so that a button is made anew only when it is another, and what paints its times. @type {WeakMap<HTMLElement, {shown: string, clocks: (() => void)[]}>} */ #drawn = new WeakMap();
  /** When a fire watch was begun here, ms. */ #begun = 0;
  /** @type {ReturnType<typeof setTimeout>|undefined} */ #alarm;
  /** Ends with what is shown here. @type {AbortSignal|undefined} */ #life;
  /** Begins a fire watch, unless one is open here that counts from the last arc. */
  begin = onePress(() => this.#begin());
  /** Ends what is open here, all at once, with one Undo; else the one that is shown. */
  end = onePress(() => this.#end());

  /**
   * @param {StatusDeps} deps
   * @param {HTMLElement} element
   * @param {{more?: HTMLElement}} [onCut]  more: where Cut has what its one row has no room for
   */
  constructor(deps, element, { more } = {}) {
    this.deps = deps;
    this.element = element;
    this.more = more;
    this.entries = new QuickEntries(deps);
    element.setAttribute("role", "region");
    element.setAttribute("aria-label", say("status.label"));
  }

  /** @param {AbortSignal} signal */
  start(signal) {
    const { journal } = this.deps;
    this.#life = signal;
    const read = () => this.#read();
    for (const type of ["change", "views"]) journal.addEventListener(type, read, { signal });
    document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && this.#tick(), { signal });
    // A browser lets nothing sound before the first tap on the page.
    document.addEventListener("pointerup", () => this.#watches.length > 0 && this.deps.alarm.arm(), { signal });
    const clock = setInterval(() => this.#tick(), 1000);
    signal.addEventListener("abort", () => (clearInterval(clock), clearTimeout(this.#alarm)));
    return read();
  }

  /** Paints again, for another page is shown. */
  look() {
    this.#paint();
  }

  // Private

  get #rig() {
    return this.#now?.session?.rig || rigInUse(this.#rigs, this.deps.settings.values.rig)?.id || this.deps.settings.values.rig;
  }

  /** Open watches that still matter. @returns {Watch[]} */
  get #watches() {
    return recentFireWatches(this.#now?.watch, this.deps.journal.now());
  }

  /** Those of this phone, its rig or its session. */
  get #mine() {
    const session = this.#now?.session?.id;
    return this.#watches.filter((w) => w.device === this.#device || w.rig === this.#rig || (session && w.in === session));
  }

  /** Whether an arc of this phone went off lately that no fire watch counts from, and nobody has said no. */
  get #isOffered() {
    const last = this.#lastArc;
    if (!last || own(this.#arc, last.rig) || this.deps.journal.now() - last.at > this.deps.settings.values.watchMinutes * 60_000) return false;
    return this.deps.today.unwatched !== last.at && !this.#watches.some((w) => counts(w, last));
  }

  async #begin() {
    if (this.#mine.length > 0 && !this.#isOffered) return;
    this.#begun = Date.now();
    this.deps.alarm.arm();
    const { session } = this.#now ?? {};
    const last = this.#lastArc;
    const inside = session?.id || last?.in || undefined;
    const ms = this.deps.settings.values.watchMinutes * 60_000;
    await this.#put({ kind: "watch.started", in: inside, body: { ms, rig: last?.rig || this.#rig || undefined } }, say("watch.begun", { min: minutes(ms) }));
  }

  async #end() {
    const watches = this.#mine.length > 0 ? this.#mine : this.#watches.filter((w) => w === lastFireWatch(this.#watches));
    if (watches.length === 0) return;
    const last = this.#lastArc;
    if (last && watches.some((w) => counts(w, last))) this.deps.today.unwatched = last.at;
    await this.#put(watches.map((w) => ({ kind: "watch.ended", in: w.in || undefined, body: { of: w.id } })), say("watch.ended"));
  }

  async #read() {
    const painted = await this.deps.journal.read(["now", "rigs"]);
    if (this.#life?.aborted) return;
    this.#now = painted.views.now;
    this.#rigs = rigsOf(painted.views.rigs);
    this.#arc = painted.arc;
    this.#lastArc = painted.lastArc;
    this.#device = painted.device;
    this.#offset = painted.offset;
    this.#paint();
    this.#tick();
  }

  #paint() {
    const { more } = this;
    if (more) {
      const mine = this.#mine.length > 0;
      this.#fill(this.element, mine ? this.#watchRows() : [this.#beginRow()]);
      this.#fill(more, mine ? [...(this.#isOffered ? [this.#beginRow()] : []), this.#whoRow()] : this.#watchRows());
      return;
    }
    const hidden = location.pathname === "/cut";
    this.#fill(this.element, hidden ? [] : [...this.#arcRows(), ...this.#stopRows(), ...this.#fireRows()]);
  }

  /** @param {HTMLElement} element @param {Row[]} rows */
  #fill(element, rows) {
    const shown = JSON.stringify(rows.map((r) => r.key));
    if (shown !== (this.#drawn.get(element)?.shown ?? "")) {
      const made = rows.map((r) => r.make());
      this.#drawn.set(element, { shown, clocks: made.flatMap((m) => (m.clock ? [m.clock] : [])) });
      element.replaceChildren(...made.map((m) => m.row));
      element.hidden = rows.length === 0;
    }
    for (const clock of this.#drawn.get(element)?.clocks ?? []) clock();
  }

  /** @typedef {{key: unknown[], make: () => {row: HTMLElement, clock?: () => void}}} Row */

  /** @returns {Row[]} */
  #arcRows() {
    const arc = own(this.#arc, this.#rig) ?? Object.values(this.#arc)[0];
    if (!arc) return [];
    return [{ key: ["arc", arc.id], make: () => {
      const word = make("b");
      return { row: make("a", { class: "status-bar__row", href: "/cut" }, word), clock: () => (word.textContent = say("status.arc", { time: span(this.deps.journal.now() - arc.start) })) };
    } }];
  }

  /** @returns {Row[]} */
  #stopRows() {
    const stops = stopsHere(this.#now?.gate, { rig: this.#rig, session: this.#now?.session?.id, rigs: this.#rigs });
    if (stops.length === 0) return [];
    const what = stops.map((s) => s.says).join(", ");
    return [{ key: ["stop", what], make: () => ({ row: make("a", { class: "status-bar__row status-bar__row--stop", href: "/cut" }, make("b", { text: say("stop.what", { what }) })) }) }];
  }

  /** The watch of this phone first, another's after what is offered here. @returns {Row[]} */
  #fireRows() {
    const [watch, offer] = [this.#watchRows(), this.#offerRows()];
    return this.#mine.length > 0 ? [...watch, ...offer] : [...offer, ...watch];
  }

  /** @returns {Row[]} */
  #watchRows() {
    const watch = lastFireWatch(this.#mine) ?? lastFireWatch(this.#watches);
    if (!watch) return [];
    const mine = this.#mine.includes(watch);
    const others = this.#watches.filter((w) => w !== watch && !(mine && this.#mine.includes(w))).length;
    const rig = mine ? "" : this.#rigs.find((r) => r.id === watch.rig)?.fields.name ?? say("watch.elsewhere");
    const { watcher } = this.deps.settings.values;
    const over = !this.#isBurning(watch) && watch.ends <= this.deps.journal.now();
    return [{ key: ["watch", watch, over, rig, watcher, others], make: () => {
      const until = make("b");
      const more = make("span");
      const row = make("div", { class: over ? "status-bar__row status-bar__row--now" : "status-bar__row status-bar__row--watch" },
        make("p", {}, until, more),
        make("button", { class: "button", type: "button", text: say("watch.end"), onclick: () => Math.abs(Date.now() - this.#begun) > deaf && this.#tap(() => this.end()) }));
      return { row, clock: () => {
        until.textContent = this.#untilWords(watch);
        more.textContent = [rig, this.#leftWords(watch), watcher && mine && say("watch.by", { name: shortly(watcher) }), others > 0 && say("watch.others", { n: others })].filter(Boolean).join(" · ");
      } };
    } }];
  }

  /** Who watches, and what to know of it. @returns {Row} */
  #whoRow() {
    const { watcher } = this.deps.settings.values;
    return { key: ["who", watcher], make: () => ({ row: make("div", { class: "stack" },
      make("button", { class: "button status-bar__who", type: "button", text: watcher ? say("watch.who", { name: watcher }) : say("watch.who.ask"), onclick: async () => {
        const name = await this.deps.textPrompt.ask({ label: say("watch.who.label"), value: watcher, key: "watcher" });
        if (name !== null) this.deps.settings.set({ watcher: name });
        this.#paint();
      } }),
      make("p", { class: "note", text: say("watch.why") })) }) };
  }

  /** The button that begins one on Cut, and since when and until when where an arc has gone off. @returns {Row} */
  #beginRow() {
    const off = this.#isOffered ? this.#lastArc?.at : undefined;
    const ends = (off ?? 0) + this.deps.settings.values.watchMinutes * 60_000;
    return { key: ["begin", off], make: () => ({ row: make("button", { class: off === undefined ? "button" : "button status-bar__go", type: "button", onclick: () => this.#tap(() => this.begin()) },
      make("span", {}, make("b", { text: say("watch.start") }), off !== undefined && make("span", { text: ` ${say("watch.offer.why", { off: this.#clock(off), ends: this.#clock(ends) })}` }))) }) };
  }

  /** @returns {Row[]} */
  #offerRows() {
    const last = this.#lastArc;
    const ms = this.deps.settings.values.watchMinutes * 60_000;
    if (!last || !this.#isOffered) return [];
    return [{ key: ["offer", last.at], make: () => ({ row: make("div", { class: "status-bar__row status-bar__row--offer" },
      make("p", {}, make("b", { text: say("watch.offer") }), make("span", { text: say("watch.offer.why", { off: this.#clock(last.at), ends: this.#clock(last.at + ms) }) })),
      make("button", { class: "button status-bar__go", type: "button", text: say("watch.start"), onclick: () => this.#tap(() => this.begin()) }),
      make("button", { class: "button", type: "button", text: say("watch.decline"), onclick: () => {
        this.deps.today.unwatched = last.at;
        this.#paint();
      } })) }) }];
  }

  /** @param {Watch} watch */
  #isBurning(watch) {
    return watch.running || Boolean(own(this.#arc, watch.rig));
  }

  /** @param {Watch} watch */
  #untilWords(watch) {
    if (this.#isBurning(watch)) return say("watch.burning", { min: minutes(watch.ms) });
    return watch.ends > this.deps.journal.now() ? say("watch.until", { time: this.#clock(watch.ends) }) : say("watch.over", { time: this.#clock(watch.ends) });
  }

  /** @param {Watch} watch */
  #leftWords(watch) {
    const left = watch.ends - this.deps.journal.now();
    return this.#isBurning(watch) ? "" : left > 0 ? say("watch.left", { min: minutes(left) }) : say("watch.look");
  }

  /** A time of the server's clock as this phone's clock will show it. @param {number} ms */
  #clock(ms) {
    return clockTime(ms - this.#offset);
  }

  /**
   * Rings for a watch whose end has come, once; else waits for it. A tab that nobody sees may be heard by
   * nobody: it does not count as rung, so that the tab that is seen rings, or this one when it is looked at.
   */
  #tick() {
    this.#paint();
    if (this.more) return; // the frame rings
    clearTimeout(this.#alarm);
    const watch = lastFireWatch(this.#mine);
    if (!watch || this.#isBurning(watch)) return;
    const left = watch.ends - this.deps.journal.now();
    if (left > 0) {
      this.#alarm = setTimeout(() => this.#tick(), Math.min(left, longestTimer));
      return;
    }
    const what = `${watch.id} ${watch.ends}`;
    const isHidden = document.visibilityState === "hidden";
    if (this.deps.today.rung === what || (isHidden && this.#unseen === what)) return;
    if (isHidden) this.#unseen = what;
    else this.deps.today.rung = what;
    this.deps.alarm.ring(say("watch.over", { time: this.#clock(watch.ends) }));
  }

  /** Stores, and knows of it before another tap is heard. @param {import("../journal/shapes.js").Entry|import("../journal/shapes.js").Entry[]} entry @param {string} said */
  async #put(entry, said) {
    await this.entries.put(entry, said);
    await this.#read();
  }

  /** @param {() => Promise<void>} act */
  async #tap(act) {
    try {
      await act();
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
  }
}

/** Whether a watch counts from an arc: one of its rig or its session, unless that came when it was over. @param {Watch} watch @param {{rig: string, in: string, at: number}} arc */
function counts(watch, arc) {
  return (watch.rig === arc.rig || (arc.in !== "" && watch.in === arc.in)) && watch.ends > arc.at;
}

/** The begin of a name, so that a long one leaves room for the screen below. @param {string} name */
function shortly(name) {
  const letters = [...name];
  return letters.length > longestName ? `${letters.slice(0, longestName).join("")}…` : name;
}
