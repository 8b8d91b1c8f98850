// @ts-check
/**
 * Cut: the session. One huge button for the arc, what is due in words, and
 * entries of one tap. Whether an arc runs is read from the journal's own
 * record and nothing else.
 */
import { bringUp, clone, make, onActions, onePress, refs, setText, showWrong } from "../parts/dom.js";
import { CutPlan } from "./cut-plan.js";
import { paintDrain, paintParts } from "./cut-wear.js";
import { ArcListener } from "../parts/arc-listener.js";
import { QuickEntries } from "../parts/quick-entries.js";
import { drainMinutes, rigIdInUse, rigsOf, sitesOf } from "../parts/rig-and-site.js";
import { StatusBar } from "../parts/status-bar.js";
import { Stops, stopsHere } from "../parts/stops.js";
import { clockTime, span, startsOf } from "../parts/times.js";
import { newId } from "../journal/id.js";
import { unlessLeft } from "../browser/leaving.js";
import { own, say, sayKnown } from "../words/words.js";

/** @typedef {import("../journal/shapes.js").ShownRig} ShownRig */
/**
 * What this screen takes of the view now; just after a start that is only what last-shown.js kept.
 * @typedef {{session?: Pick<import("../journal/shapes.js").ShownSession, "id"|"ms"|"starts">|null, rigs?: (Pick<ShownRig, "rig"|"drain"> & Partial<Pick<ShownRig, "parts">>)[], gate?: any}} Now
 */

/** After an arc start the button is deaf this long, ms: gloves bounce. */
const deaf = 1000;
/** While an arc is heard, a press must last this long, ms, to count: spatter and drops do not. */
const longPress = 800;

export class CutPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {Now|null|undefined} */ #now = null;
  /** The rig whose arc the button runs. */ #rigId = "";
  /** @type {import("../parts/rig-and-site.js").Rig[]} */ #rigs = [];
  /** @type {import("../parts/rig-and-site.js").Rig[]} */ #sites = [];
  /** @type {Stops|null} */ #stops = null;
  /** @type {StatusBar|null} */ #statusBar = null;
  /** @type {Record<string, Pick<import("../types/journal.js").RunningArc, "start">>} */ #arc = {};
  /** @type {ReturnType<typeof setInterval>|undefined} */ #clock;
  /** @type {WakeLockSentinel|null} */ #awake = null;
  /** Whether it is known what is under way: a key may come before the first read. */ #isRead = false;
  /** What is shown until the first read. @type {import("../journal/last-shown.js").Seen|null} */ #last = null;
  /** What the session has of a job. @type {import("./cut-job.js").CutJob|null} */ #job = null;
  #startedAt = 0;
  /** Id of a session that was opened here and that no read has shown yet, so that no second one is opened. */ #opening = "";
  #pressed = 0;
  /** Start of the arc that is heard now, ms since 1970; 0 for none. */ #heard = 0;
  /** When a calibration cut began, ms since 1970; 0 while none is made. */ #teaching = 0;
  /** For how long an arc could have hidden, ms. */ #hidden = 0;
  /** What has rung already, so that it rings once. @type {Set<string>} */ #rung = new Set();

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
    this.entries = new QuickEntries(deps);
    this.ear = new ArcListener(deps.call);
    this.plan = new CutPlan(deps);
  }

  async start() {
    const root = clone("page-cut");
    this.#at = refs(root);
    this.#stops = new Stops(this.deps, this.#at.stops);
    const asks = (/** @type {() => Promise<unknown>} */ entry) => onePress(() => this.#enter(entry), 0);
    onActions(root, {
      arc: () => this.#tapArc(),
      drained: onePress(() => this.#enter(() => this.entries.drained(this.#context))),
      part: asks(() => this.entries.partChanged(this.#context)),
      reading: asks(() => this.entries.reading(this.#context)),
      tried: asks(() => this.entries.tried(this.#context, this.deps.today.begun)),
      note: asks(() => this.entries.note(this.#context)),
      later: asks(() => this.entries.arcLater(this.#context)),
      end: onePress(() => this.#end()),
      done: onePress(() => this.#enter(async () => this.#job?.done())),
      cut: asks(async () => this.#job?.pick()),
      wait: onePress((/** @type {HTMLElement} */ el) => this.#enter(async () => this.#job?.wait(String(el.dataset.why)))),
      listen: onePress(() => void (this.#teaching ? this.#learn() : this.#listen())),
      teach: onePress(() => void this.#listen(true)),
    });
    this.#at.photo.addEventListener("change", () => this.#photo());
    this.#at.arc.addEventListener("pointerdown", () => (this.#pressed = Date.now()));
    const { life } = this.deps;
    this.ear.addEventListener("heard", (event) => this.#hear(/** @type {CustomEvent} */ (event).detail), { signal: life });
    this.deps.journal.addEventListener("change", () => this.#read(), { signal: life });
    this.deps.journal.addEventListener("views", () => this.#read(), { signal: life });
    this.deps.settings.addEventListener("change", () => this.#sayPlan(), { signal: life });
    addEventListener("keydown", (event) => this.#key(event), { signal: life });
    document.addEventListener("visibilitychange", () => this.#seen(), { signal: life });
    addEventListener("pagehide", () => this.#hush(), { signal: life, capture: true }); // before the journal lets go of the store
    this.#clock = setInterval(() => this.#paint(), 500);
    this.#statusBar = new StatusBar(this.deps, this.#at.statusBar, { more: this.#at.watchMore });
    this.#showSeen(root);
    const statusBar = this.#statusBar.start(life); // first: what it shows decides what is shown beside it
    await Promise.all([statusBar, this.#read()]).finally(() => life.aborted || this.#open(root)); // filled first, so that nothing moves under a thumb
    this.#stayAwake();
    this.#sayPlan();
  }

  stop() {
    clearInterval(this.#clock);
    this.#hush();
    this.#awake?.release();
  }

  // Private

  get #rig() {
    return this.#rigs.find((r) => r.id === this.#rigId) ?? null;
  }

  get #running() {
    return own(this.#arc, this.#rigId) ?? null;
  }

  /** How long the arc burns, ms, by the clock that it began by; undefined while none does. */
  get #burning() {
    if (this.#heard) return Date.now() - this.#heard;
    return this.#running ? this.deps.journal.now() - this.#running.start : undefined;
  }

  /** What an entry needs to know about where it is made. */
  get #context() {
    return { session: this.#now?.session?.id ?? this.#opening, rig: this.#rigId, parts: this.#ofRig?.parts ?? [] };
  }

  /** What an arc says of the row of the job that it belongs to. @returns {{cut?: string}} */
  get #ofRow() {
    return this.#job?.ofRow ?? {};
  }

  get #ofRig() {
    return this.#now?.rigs?.find((r) => r.rig === this.#rigId) ?? null;
  }

  /** Shows what stood here last, as of its time, which takes no tap. @param {HTMLElement} root */
  #showSeen(root) {
    const seen = this.deps.journal.seen("cut");
    if (!seen) return;
    this.#last = seen;
    this.#now = { session: seen.starts === undefined ? null : { id: "", ms: seen.ms, starts: seen.starts }, rigs: [{ rig: "", drain: { due: seen.due, every: seen.every } }] };
    this.#arc = seen.start === undefined ? {} : { "": { start: seen.start } };
    this.#paint();
    root.inert = true;
    this.element.append(root);
  }

  /** Takes taps. @param {HTMLElement} root */
  #open(root) {
    root.inert = false;
    if (root.parentNode !== this.element) this.element.append(root);
  }

  /** Keeps what is shown for the next start; nothing where a stop stands, which has words and is not left out. */
  #keepSeen() {
    const { session, gate } = this.#now ?? {};
    const drain = this.#ofRig?.drain;
    const every = drain?.every ?? drainMinutes(this.#rig) * 60_000;
    this.deps.journal.keepSeen("cut", gate?.stops.length > 0 ? null : { ms: session?.ms, starts: session?.starts, start: this.#running?.start, due: drain?.due ?? every, every });
  }

  async #read() {
    const { views, arc } = await this.deps.journal.read(["now", "rigs"]);
    this.#isRead = true;
    this.#last = null;
    this.#now = views.now;
    this.#rigs = rigsOf(views.rigs);
    this.#rigId = rigIdInUse(views, this.deps.settings.values.rig);
    this.#sites = sitesOf(views.rigs);
    this.#arc = arc;
    if (views.now?.session) this.#opening = "";
    if (this.deps.life.aborted) return;
    this.#readJob(views.now?.session?.job ?? "").catch((trouble) => trouble.kind === "not-found" || this.#fail(trouble)); // it may come with the next sync
    this.#paint();
    this.#keepSeen();
  }

  /** Its buttons have their places before it is read. @param {string} id */
  async #readJob(id) {
    this.#at.job.hidden = !id;
    if (!id) this.#job = null;
    if (!id) return;
    const { CutJob } = await unlessLeft(import("./cut-job.js"));
    this.#job ??= new CutJob(this.deps, this.#at, { entries: this.entries, context: () => this.#context, rigs: () => ({ rig: this.#rig, sites: this.#sites }) });
    await this.#job.read(id);
  }

  #paint() {
    const session = this.#now?.session ?? null;
    const running = this.#running;
    const at = this.#at;
    at.arc.setAttribute("aria-pressed", String(Boolean(running || this.#heard)));
    at.word.textContent = say(this.#heard ? "cut.arc.heard" : running ? "cut.stop" : "cut.start");
    const burning = this.#burning;
    at.time.hidden = burning === undefined;
    at.time.textContent = burning === undefined ? "" : span(burning);
    at.entries.inert = Boolean(this.#heard);
    setText(at.listen, say(this.#teaching ? "cut.teach.learn" : this.ear.on ? "cut.listen.stop" : "cut.listen"));
    setText(at.hearing, this.ear.on ? at.heard.textContent ?? "" : "");
    at.ear.setAttribute("aria-pressed", String(this.ear.on));
    at.level.hidden = !this.ear.on;
    const counts = session && !session.starts && !this.#last ? "" : session ? say("cut.counts", { arc: span(session.ms), starts: startsOf(session) }) : say("cut.nosession");
    at.counts.textContent = this.#last ? say("seen.as", { time: clockTime(this.#last.at), what: counts }) : counts;
    at.end.hidden = !session;
    at.whole.hidden = !session;
    if (session) at.whole.href = `/session/${session.id}`;
    this.#stops?.paint(stopsHere(this.#now?.gate, { rig: this.#rigId, session: session?.id, rigs: this.#rigs }), { session: session?.id, sites: this.#sites });
    const standing = this.plan.paint(at);
    this.#job?.paint();
    this.#paintDrain(standing);
    paintParts(this.#at, this.#ofRig?.parts ?? []);
  }

  /** Says the plan in the units of now, once the sums tell them. */
  async #sayPlan() {
    this.#paint();
    if ((await this.plan.learn()) && !this.deps.life.aborted) this.#paint();
  }

  /** @param {string} standing  of the plan's figures */
  #paintDrain(standing) {
    const drain = this.#ofRig?.drain;
    const running = this.#burning ?? 0;
    const every = drain?.every ?? drainMinutes(this.#rig) * 60_000;
    const left = (drain?.due ?? every) - running;
    paintDrain(this.#at, { left, every, standing });
    if (left <= 0 && running > 0) this.#ring(`drain ${drain?.at ?? 0}`, say("cut.drain.now"));
  }

  /** @param {string} what @param {string} text */
  #ring(what, text) {
    if (this.#last || this.#rung.has(what)) return;
    this.#rung.add(what);
    this.deps.alarm.ring(text);
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    // A headset's or glove key's "play" and Enter work as the arc button.
    const free = !(/** @type {HTMLElement} */ (event.target).closest("button, a, input, textarea, dialog, summary"));
    if (event.key === "MediaPlayPause" || (event.key === "Enter" && free)) {
      event.preventDefault();
      this.#tapArc();
    }
  }

  async #tapArc() {
    if (this.#heard) {
      if (Date.now() - this.#pressed >= longPress) this.#stopListening();
      return;
    }
    this.deps.alarm.arm();
    this.#at.wrong.hidden = true;
    try {
      const seen = this.#last;
      if (!this.#isRead) await this.#read();
      const running = this.#running;
      if (seen && (seen.start === undefined) !== (running === null)) return; // pressed for what is so no more
      if (running && Date.now() - this.#startedAt < deaf) return;
      if (running) {
        const ms = this.deps.journal.now() - running.start;
        await this.deps.journal.stopArc({ rig: this.#rigId });
        this.deps.today.tellArc(ms);
      } else {
        await this.#startArc();
      }
      this.deps.alarm.tick();
    } catch (trouble) {
      this.#fail(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
    await this.#read();
  }

  /** @param {boolean} [teach]  by a cut that is made for that */
  async #listen(teach = false) {
    if (this.ear.on) {
      this.#stopListening();
      if (!teach) return;
    }
    this.deps.alarm.arm();
    this.#hidden = 0;
    try {
      const taught = own(this.deps.settings.values.taught, this.#rigId);
      await this.ear.start({ taught, ...(teach ? { teach: "begin" } : {}) });
      if (this.deps.life.aborted || document.visibilityState !== "visible") this.ear.stop(); // the phone may ask for long
      if (this.ear.on) {
        this.#teaching = teach ? Date.now() : 0;
        this.#note(say(teach ? "cut.teach.how" : "cut.listen.note"));
        if (teach) bringUp(this.#at.earNote);
      }
    } catch {
      this.ear.stop();
      this.#note(say("cut.listen.no"));
      bringUp(this.#at.earNote);
    }
    this.#paint();
  }

  /** Sets the detector by the cut that was just made, for this rig on this phone: another microphone hears otherwise. */
  async #learn() {
    const since = this.#teaching;
    this.#teaching = 0;
    try {
      const { taught, arcs } = await this.ear.learn();
      if (taught) this.deps.settings.set({ taught: { ...this.deps.settings.values.taught, [this.#rigId]: taught } });
      this.#note(say("cut.teach.done", { time: span(arcs.reduce((sum, { start, stop }) => sum + stop - start, 0)) }));
      if (this.#startedAt < since) arcs.forEach((arc) => this.#keepHeard(arc)); // else the button kept its time
    } catch (trouble) {
      this.#stopListening();
      const { msg, hint } = /** @type {import("../calc/trouble.js").Trouble} */ (trouble);
      this.#note([say("cut.teach.no"), msg, hint].filter(Boolean).join(" "));
    }
    bringUp(this.#at.earNote);
    this.#paint();
  }

  #hush() {
    if (this.ear.on) this.#stopListening();
  }

  #stopListening() {
    this.ear.stop();
    if (this.#heard) this.#keepHeard({ start: this.#heard, stop: Date.now(), starts: 1 });
    this.#heard = this.#teaching = 0;
    this.#noteHidden();
    this.#paint();
  }

  /** @param {import("../types/calc.js").Report & {sure: boolean}} report */
  #hear(report) {
    this.#heard = report.running;
    setText(this.#at.heard, say(/* quiet | arc | air | other | masked */ `cut.heard.${report.state}`));
    this.#at.level.style.transform = `scaleX(${report.level.toFixed(3)})`;
    if (!report.sure) this.#note(say("cut.listen.unsure"));
    if (report.hidden > this.#hidden) {
      this.#hidden = report.hidden;
      if (!this.#teaching) this.#noteHidden();
    }
    for (const arc of report.arcs) this.#keepHeard(arc);
    this.#paint();
  }

  /** Says for how long nothing was counted, so that it can be entered by hand. */
  #noteHidden() {
    this.#note(this.#hidden >= 1000 ? say("cut.listen.hidden", { time: span(this.#hidden) }) : "");
  }

  /** @param {import("../types/calc.js").Heard} arc */
  #keepHeard(arc) {
    if (this.#running) return; // the button keeps the time of this one
    const ahead = this.deps.journal.now() - Date.now(); // heard by this phone's clock, kept by the server's
    this.deps.today.tellArc(arc.stop - arc.start);
    this.#enter(() => this.entries.put({ kind: "arc.run", in: this.#context.session, body: { rig: this.#rigId, start: arc.start + ahead, stop: arc.stop + ahead, starts: arc.starts, ...this.#ofRow } }, say("cut.heard.kept", { time: span(arc.stop - arc.start) })));
  }

  /** @param {string} text */
  #note(text) {
    this.#at.earNote.hidden = !text;
    this.#at.earNote.textContent = text;
  }

  async #startArc() {
    this.#startedAt = Date.now();
    if (!this.#rigId) {
      this.deps.go("/ready");
      this.deps.toasts.show(say("cut.norig"), { bad: true });
      return;
    }
    const opened = this.#session();
    const [{ arc }] = await Promise.all([this.deps.journal.startArc({ rig: this.#rigId, in: this.#context.session, ...this.#ofRow }), opened]);
    this.#job?.arcBegins();
    this.#arc = arc;
    this.#paint();
  }

  /**
   * Makes sure of a session, with the plan: from then on it is in #context. Resolves when it is stored, which
   * nothing that is entered waits for: the journal keeps the order of taps, also of those that failed.
   */
  async #session() {
    if (this.#context.session) return;
    const id = (this.#opening = newId());
    const plan = this.deps.today.begun;
    const title = plan.fields ? [sayKnown(`metal.${plan.fields.metal ?? "mild-steel"}`), plan.fields.thickness].filter(Boolean).join(" ") : say("session.untitled");
    const of = Object.fromEntries(/** @type {const} */ (["metal", "surface", "position", "start"]).map((key) => [`plan_${key}`, plan.fields?.[key]]).filter(([, word]) => word)); // part lives are told by what they cut
    const told = plan.results ? { plan_current: this.plan.text("current"), plan_pressure: this.plan.text("pressure"), plan_speed: this.plan.text("speed") } : {};
    await this.deps.journal.tap({ kind: "session.opened", about: id, body: { rig: this.#rigId, title, ...of, ...told } });
  }

  /** Makes sure of a session, and enters. @param {() => Promise<unknown>} entry */
  async #enter(entry) {
    try {
      if (!this.#isRead) await this.#read();
      await Promise.all([this.#session(), entry()]);
    } catch (trouble) {
      this.#fail(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
    await this.#read();
  }

  async #photo() {
    const input = this.#at.photo;
    const file = input.files?.[0];
    input.value = "";
    if (!file) return;
    await this.#enter(async () => {
      const { session } = this.#context;
      const { keepFile } = await unlessLeft(import("../parts/photos.js")); // not before it is wanted
      await this.entries.put({ ...(await keepFile(this.deps.journal, file)), in: session }, say("entry.photo.done"));
    });
  }

  async #end() {
    const id = this.#now?.session?.id;
    if (!id) return;
    try {
      await Promise.all([this.#running && this.deps.journal.stopArc({ rig: this.#rigId }), this.entries.put({ kind: "session.closed", about: id, body: {} }, say("cut.ended"))]);
      this.deps.go(`/session/${id}`);
    } catch (trouble) {
      this.#fail(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
  }

  /** @param {{msg: string, hint?: string}} trouble */
  #fail(trouble) {
    this.#at.wrong.hidden = false;
    this.#at.wrong.replaceChildren(trouble.msg ?? String(trouble), make("span", { text: trouble.hint ?? "" }));
    showWrong(this.element);
  }

  /** The microphone is let go of while nobody looks; the screen stays on while somebody does. */
  #seen() {
    if (document.visibilityState !== "visible") this.#hush();
    this.#stayAwake();
  }

  async #stayAwake() {
    if (document.visibilityState !== "visible" || !navigator.wakeLock) return;
    this.#awake = await navigator.wakeLock.request("screen").catch(() => null);
    if (this.deps.life.aborted) this.#awake?.release();
  }
}
