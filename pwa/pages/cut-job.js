// @ts-check
/**
 * The job of the session, on Cut: which cut is next and how it is set, what of it is done, what is waited for, and
 * when the rest will be done, planned anew from what really happened.
 */
import { crewKnows } from "../parts/crew-knows.js";
import { declarationOf } from "../parts/declared.js";
import { setText } from "../parts/dom.js";
import { askedOf, keptJob, piecesOf, rowWords } from "../parts/kept-jobs.js";
import { keptOf, readOf, siteInUse } from "../parts/rig-and-site.js";
import { clockTime, minutes } from "../parts/times.js";
import { newId } from "../journal/id.js";
import { own, say, sayKnown } from "../words/words.js";

/** What may be waited for: the first two of one tap each. */
const waits = ["air", "cooling"];
const others = ["parts", "marking", "moving", "drain", "other"];

/** A plan is made anew when this long has gone by since the last, ms. */
const stale = 120_000;

/** @typedef {import("../types/journal.js").JobView} JobView */
/** @typedef {import("../parts/rig-and-site.js").Rig} Thing */
/** @typedef {{entries: import("../parts/quick-entries.js").QuickEntries, context: () => import("../parts/quick-entries.js").Context, rigs: () => {rig: Thing|null, sites: Thing[]}}} Cut */

export class CutJob {
  #id = "";
  #job = keptJob("");
  /** @type {JobView|null} */ #view = null;
  /** Pieces that were told here and that the view has not. @type {Record<string, number>} */ #since = {};
  /** The row that was picked, by its key. */ #picked = "";
  /** What is waited for. @type {{id: string, why: string, at: number}|null} */ #pause = null;
  /** What was planned last of what is left, and when. @type {{results: any, at: number}|null} */ #plan = null;
  /** Counts what was tapped here. */ #turn = 0;
  #isPlanning = false;
  #sum = new AbortController();

  /**
   * @param {import("../app.js").Deps} deps
   * @param {import("../parts/dom.js").Refs} at
   * @param {Cut} cut  what the screen knows
   */
  constructor(deps, at, cut) {
    this.deps = deps;
    this.at = at;
    this.cut = cut;
    at.job.inert = true; // until it is read
  }

  /** What an arc says of the row it belongs to. */
  get ofRow() {
    const key = this.#row?._key;
    return key ? { cut: key } : {};
  }

  /** The row of now: the one picked, else the first that is not done. */
  get #row() {
    const open = this.#job.rows.filter((row) => this.#left(row) > 0);
    return open.find(({ _key }) => _key === this.#picked) ?? open[0];
  }

  /** @param {import("../parts/kept-jobs.js").CutRow} row */
  #doneOf({ _key = "" }) {
    return (this.#view?.cuts.find(({ cut }) => cut === _key)?.done ?? 0) + (own(this.#since, _key) ?? 0);
  }

  /** @param {import("../parts/kept-jobs.js").CutRow} row */
  #left(row) {
    return piecesOf(row) - this.#doneOf(row);
  }

  /** @param {string} id */
  async read(id) {
    this.#id = id;
    const turn = this.#turn;
    const view = await this.deps.call("journal-job", { id });
    if (this.deps.life.aborted || this.#turn !== turn) return; // asked before the last tap
    this.#view = view;
    this.#since = {};
    this.#job = keptJob(id, view.fields);
    this.#pause = view.waiting;
    this.at.job.inert = false;
    this.paint();
    await this.#replan();
  }

  paint() {
    const { at } = this;
    const row = this.#row;
    if (!this.#view) return;
    const n = this.#job.rows.findIndex(({ _key }) => _key === row?._key) + 1;
    setText(at.plan, row ? [say("cutjob.row", { n, of: this.#job.rows.length }), rowWords(row), this.#plan?.results.rows?.[n - 1]?.say].filter(Boolean).join(" · ") : say("cutjob.all"));
    at.done.hidden = at.other.hidden = !row;
    if (row) setText(at.done, piecesOf(row) > 1 ? say("cutjob.done.of", { n: this.#doneOf(row) + 1, of: piecesOf(row) }) : say("cutjob.done"));
    for (const button of /** @type {Iterable<HTMLElement>} */ (/** @type {unknown} */ (at.waits.children))) {
      const why = String(button.dataset.why);
      const isOn = this.#pause?.why === why || (why === "other" && this.#pause && !waits.includes(this.#pause.why));
      button.setAttribute("aria-pressed", String(Boolean(isOn)));
      setText(button, isOn ? say("cutjob.waits", { what: sayKnown(`pause.${this.#pause?.why}`), time: minutes(this.deps.journal.now() - (this.#pause?.at ?? 0)) }) : sayKnown(`cutjob.wait.${why}`));
    }
    this.#paintLeft();
    if (this.#plan && !this.#isPlanning && this.deps.journal.now() - this.#plan.at > stale) this.#replan();
  }

  #paintLeft() {
    const { results, at: then = 0 } = this.#plan ?? {};
    const { value, low = value, high = value } = results?.work ?? {}; // to the last cut
    const step = high - low <= 3600 ? 5 : high - low <= 4 * 3600 ? 10 : 15; // minutes: a time of day is told no finer than its doubt
    const by = (/** @type {number} */ s, round = Math.round) => clockTime(round((then + s * 1000) / 60_000 / step) * 60_000 * step).replace(/^0/, "");
    setText(this.at.by, value ? say("cutjob.by", { by: by(value) }) : "");
    const half = /\D*$/.exec(by(high, Math.ceil))?.[0] ?? ""; // " PM", said once where both have it
    const from = by(low, Math.floor);
    setText(this.at.between, value ? say("cutjob.between", { low: half && from.endsWith(half) ? from.slice(0, -half.length) : from, high: by(high, Math.ceil) }) : "");
    setText(this.at.left, results?.lasts ?? "");
    this.at.left.hidden = !results?.lasts;
  }

  /** One piece more of the row of now. */
  async done() {
    const row = this.#row;
    if (!row?._key) return;
    const n = this.#doneOf(row) + 1;
    this.#turn++;
    this.#since = { ...this.#since, [row._key]: (own(this.#since, row._key) ?? 0) + 1 };
    if (n >= piecesOf(row)) this.#picked = "";
    this.paint();
    await this.cut.entries.put({ kind: "cut.done", about: this.#id, in: this.cut.context().session, body: { cut: row._key, n: 1 } }, say("cutjob.done.kept", { what: rowWords(row), n, of: piecesOf(row) }));
  }

  /** Another row is cut next. */
  async pick() {
    const options = this.#job.rows.map((row, i) => ({ word: String(row._key), label: say("list.row", { n: i + 1, said: rowWords(row) }), more: say("cutjob.of", { n: this.#doneOf(row), of: piecesOf(row) }) }));
    const key = await this.deps.chooser.ask({ label: say("cutjob.which"), options, value: this.#row?._key });
    if (!key) return;
    this.#picked = key;
    this.paint();
  }

  /** Begins to wait, or goes on. @param {string} why */
  async wait(why) {
    if (this.#pause && (this.#pause.why === why || (why === "other" && !waits.includes(this.#pause.why)))) return this.goOn();
    const word = why === "other" ? await this.deps.chooser.ask({ label: say("cutjob.wait.ask"), options: others.map((one) => ({ word: one, label: sayKnown(`pause.${one}`) })) }) : why;
    if (!word) return;
    await this.goOn();
    const { session, rig } = this.cut.context();
    this.#turn++;
    this.#pause = { id: newId(), why: word, at: this.deps.journal.now() };
    this.paint();
    await this.deps.journal.tap({ kind: "pause.started", id: this.#pause.id, in: session, body: { rig, why: word } });
  }

  /** What was waited for is over. */
  async goOn() {
    const was = this.#pause;
    if (!was) return;
    this.#turn++;
    this.#pause = null;
    this.paint();
    await this.deps.journal.tap({ kind: "pause.ended", in: this.cut.context().session, body: { of: was.id } });
  }

  /** An arc ends what was waited for, as in the fold. */
  arcBegins() {
    this.#turn++;
    this.#pause = null;
  }

  /** What is asked of job-plan: all that is kept of rig, site and job, what the parts were read at, and what is done. */
  async #asked() {
    const { rig, sites } = this.cut.rigs();
    const site = siteInUse(sites, this.#job.fields.site || this.deps.settings.values.site);
    const declared = declarationOf(await this.deps.asset("gen/calculators.json"), "job-plan");
    const { history, prices } = await crewKnows(this.deps, declared, rig?.id ?? "");
    return { ...keptOf(rig, site), ...readOf(/** @type {import("../journal/shapes.js").ShownPart[]} */ (this.cut.context().parts)), ...history, ...prices, ...askedOf(this.#job, this.#view) };
  }

  async #replan() {
    this.#sum.abort();
    const { signal } = (this.#sum = new AbortController());
    this.#isPlanning = true;
    try {
      const { results } = await this.deps.calculate("job-plan", await this.#asked(), { units: this.deps.settings.values.units, signal });
      if (signal.aborted || this.deps.life.aborted) return;
      this.#plan = { results, at: this.deps.journal.now() };
      this.paint();
    } catch {
      // what was planned before stands
    } finally {
      if (!signal.aborted) this.#isPlanning = false;
    }
  }
}
