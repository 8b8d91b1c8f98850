// @ts-check
/**
 * The photo gauge: a picture of a tip with something round of known width,
 * marks around its edge, which tell how the camera leaned, and around the bore's
 * rim, and the size by least squares (calculator photo-gauge) while the marks
 * are set. Something that is not round has two marks, both ends of its width.
 * Kept as a reading of the fitted tip, with the picture beside it. Until then
 * picture and marks are a draft on the phone, and offered when the screen is
 * opened again.
 */
import { bringUp, caution, clone, make, onActions, onePress, refs, setText, wrongWords } from "../parts/dom.js";
import { inertWhile } from "../parts/inert-while.js";
import { reading } from "../parts/answer.js";
import { QuickEntries } from "../parts/quick-entries.js";
import { keptOf, rigIdInUse, rigsOf } from "../parts/rig-and-site.js";
import { Marker } from "../parts/marker.js";
import { keepPicture } from "../parts/photos.js";
import { encodeWhole, openPicture } from "../parts/picture.js";
import { Photos } from "../journal/photo/photos.js";
import { newId } from "../journal/id.js";
import { say } from "../words/words.js";

const draft = "photo-gauge";
const leastRim = 8;
/** Marks on the edge of something round: five tell an ellipse, one more how well they were set. */
const around = 6;
/** How much is seen while the bore is marked, mm: enough for the largest bores of hand torches. A coin counts as so wide, mm, for that. */
const seen = 3;
const coin = 21;
/** How much is seen while an object's edge is marked, and while the bore is looked for beside a coin: times its width. */
const edge = 1.5;
const beside = 4;

export class PhotoGaugePage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {Marker|null} */ #marker = null;
  /** @type {ImageBitmap|null} */ #picture = null;
  /** @type {import("../types/calc.js").FieldDescription|undefined} */ #field;
  /** @type {Promise<void>} */ #loaded = Promise.resolve();
  /** Whether object or width were entered on this visit: then no draft is put over them. */ #touched = false;
  /** @type {symbol|null} */ #job = null;
  /** @type {import("../calc/calls.js").Answer<"photo-gauge">|null} */ #answer = null;
  /** Whether the bore was shown close. */ #found = false;
  /** How many marks the object had when what comes next was shown. */ #looked = 0;
  /** About how wide the object is, mm. */ #wide = coin;
  /** The tip's bore when new, where the rig tells it. @type {Promise<string>} */ #tip = Promise.resolve("");
  /** Marks of the picture that was left. @type {import("../parts/marker.js").Mark[]} */ #left = [];
  #from = "/cut";

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  /** @param {Record<string, string>} params */
  async start({ from = "/cut" }) {
    this.#from = /^\/[\w-]/.test(from) ? from : "/cut";
    const root = clone("page-photo-gauge");
    const at = (this.#at = refs(root));
    this.element.append(root);
    const marker = (this.#marker = new Marker(at.canvas));
    marker.start();
    onActions(root, {
      goon: () => this.#goOn(), object: () => this.#askObject(), width: () => this.#askWidth(), keep: onePress((el) => this.#keep(el)), again: () => this.#again(),
      undo: () => this.#undo(), next: () => marker.next(), closer: () => marker.zoom(1.5), wider: () => marker.zoom(1 / 1.5),
      left: () => marker.nudge(-1, 0), right: () => marker.nudge(1, 0), up: () => marker.nudge(0, -1), down: () => marker.nudge(0, 1),
    });
    for (const input of [at.take, at.choose]) input.addEventListener("change", () => this.#open(input));
    at.canvas.addEventListener("marks", (event) => this.#marked(/** @type {CustomEvent} */ (event).detail.done));
    at.canvas.addEventListener("placed", (event) => this.#placed(/** @type {CustomEvent} */ (event).detail));
    this.#paintObject();
    this.#loaded = this.#load();
    this.#tip = this.#knowTip();
    for (const type of ["change", "views"]) this.deps.journal.addEventListener(type, () => this.#learn(), { signal: this.deps.life });
    await Promise.all([this.#offer(), this.#loaded]);
  }

  stop() {
    this.#marker?.stop();
    this.#job = null;
  }

  // Private

  async #load() {
    const all = await this.deps.asset("gen/calculators.json");
    this.#field = all.find((c) => c.name === "photo-gauge")?.fields.find((f) => f.key === "object");
    this.#paintObject();
  }

  /** The bore of the tip in the torch when new; nothing where no rig tells it, and the tip is not judged then. */
  async #knowTip() {
    try {
      const { views } = await this.deps.journal.read(["now", "rigs"]);
      const id = rigIdInUse(views, this.deps.settings.values.rig);
      const sizes = await this.deps.call("rig-sizes", keptOf(rigsOf(views.rigs).find((one) => one.id === id)));
      return sizes.orifice?.new ? `${sizes.orifice.new}mm` : "";
    } catch {
      return "";
    }
  }

  /** The rig may be told after the marks are set: after a start, or by another phone. */
  async #learn() {
    const was = await this.#tip;
    const tip = (this.#tip = this.#knowTip());
    if ((await tip) !== was && this.#marker?.isLive) await this.#measure();
  }

  get #photos() {
    return new Photos(this.deps.journal.db);
  }

  get #known() {
    const { object = "round", width = "" } = this.deps.drafts.of(draft);
    return { object, width };
  }

  /** Keeps the picture without what its file says, such as where it was taken. A full disk keeps none; it can be marked all the same. @param {ImageBitmap} picture @param {import("../journal/photo/photos.js").DraftMarks} [marks] */
  async #keepDraft(picture, marks) {
    await encodeWhole(picture).then((drawn) => this.#photos.keepDraft(drawn, marks)).catch(() => {});
  }

  /** Keeps what is being marked as it is marked. */
  #keepMarks() {
    const marks = (this.#marker?.marks ?? []).map(({ x, y, group }) => ({ x, y, group }));
    this.#photos.markDraft({ list: marks, found: this.#found, ...this.#known }).catch(() => {}); // a full disk keeps no draft
  }

  /** A picture that was left before its reading was kept. */
  async #offer() {
    const kept = await this.#photos.draft().catch(() => null);
    if (!kept || this.#picture) return;
    const picture = await openPicture(new Blob([kept.bytes], { type: kept.type })).catch(() => null);
    if (picture && !kept.drawn) await this.#keepDraft(picture, kept.marks); // an earlier version kept the camera's file
    if (!picture || this.#picture || !this.#marker?.isLive) return picture?.close();
    const { list = [], found = false, tilt: _, ...known } = kept.marks ?? {}; // an earlier version asked for the tilt
    if (known.object && !this.#touched) this.deps.drafts.keep(draft, known); // the phone may have died before it wrote that down
    this.#paintObject();
    this.#picture = picture;
    this.#left = list;
    this.#found = found;
    this.#paintGoOn(this.#left.length);
  }

  /** @param {number} n marks */
  #paintGoOn(n) {
    this.#at.goon.hidden = !this.#picture;
    setText(this.#at.goon, say("gauge.goon", { n }));
  }

  /** Back to the picture, from the start of the screen. */
  async #goOn() {
    const marker = /** @type {Marker} */ (this.#marker);
    this.#wide = await this.#millimetres(); // now: what is seen closer is shown with its words
    if (this.deps.life.aborted) return;
    this.#at.before.hidden = true;
    this.#at.marking.hidden = false;
    if (this.#picture && !marker.has(this.#picture)) {
      marker.show(this.#picture, this.#left);
      const rim = marker.of("rim");
      if (this.#found && rim.length && this.#isScaled) this.#lookAtBore(middle(rim));
      else this.#found = false;
    }
    this.#marked(true);
    this.#at.canvas.focus({ preventScroll: true });
    this.#at.ask.scrollIntoView({ block: "start" });
  }

  /** How many marks the object takes. */
  get #wanted() {
    return this.#known.object === "measured" ? 2 : around;
  }

  get #isScaled() {
    return (this.#marker?.of("scale").length ?? 0) >= this.#wanted;
  }

  /** How wide the object is in the picture, pixels. */
  get #across() {
    const marks = this.#marker?.of("scale") ?? [];
    return Math.max(...marks.flatMap((one) => marks.map((other) => Math.hypot(one.x - other.x, one.y - other.y))));
  }

  /** @param {{x: number, y: number}} at */
  #lookAtBore({ x, y }) {
    this.#marker?.look(x, y, (this.#across * seen) / this.#wide);
  }

  /** What is marked next is shown: the object's edge once two marks tell where it is, then what lies about a coin. */
  #lookOn() {
    const marker = /** @type {Marker} */ (this.#marker);
    const marks = marker.of("scale");
    if (marks.length === this.#looked) return; // one was only moved
    this.#looked = marks.length;
    const { x, y } = middle(marks);
    if (this.#known.object === "measured") return; // the bore is wherever it is
    if (marks.length === 2) marker.look(x, y, this.#across * edge);
    else if (marks.length === this.#wanted && this.#known.object !== "round") marker.look(x, y, this.#across * beside);
  }

  get #objectName() {
    return this.#field?.choices?.find((c) => c.word === this.#known.object)?.label ?? this.#known.object;
  }

  #paintObject() {
    const { object, width } = this.#known;
    setText(this.#at.object, this.#objectName);
    this.#at.widthField.hidden = !isMeasured(object);
    setText(this.#at.width, width || say("field.empty"));
  }

  /** About how wide the object is. */
  async #millimetres() {
    const { object, width } = this.#known;
    if (!isMeasured(object)) return coin;
    const read = await this.deps.call("read-value", { quantity: "length", text: width, bare: "mm", us: "in", in: "µm" }).catch(() => null);
    return read?.whole ? read.whole / 1000 : coin;
  }

  async #askObject() {
    await this.#loaded;
    const options = (this.#field?.choices ?? []).map((c) => ({ word: c.word, label: c.label }));
    const object = await this.deps.chooser.ask({ label: say("gauge.object"), options, value: this.#known.object });
    if (!object) return;
    this.#touched = true;
    this.deps.drafts.keep(draft, { ...this.#known, object });
    this.#paintObject();
  }

  async #askWidth() {
    const units = this.deps.settings.values.units === "us" ? ["in", "mm"] : ["mm", "in"];
    const read = (/** @type {string} */ text) => this.deps.call("read-value", { calculator: "photo-gauge", field: "width", text, units: this.deps.settings.values.units });
    const width = await this.deps.pad.ask({ label: say("gauge.width"), value: this.#known.width, units, read });
    if (!width) return;
    this.#touched = true;
    this.deps.drafts.keep(draft, { ...this.#known, width });
    this.#paintObject();
    this.#wrong(null);
  }

  /** @param {HTMLInputElement} input */
  async #open(input) {
    const file = input.files?.[0];
    input.value = "";
    if (!file) return;
    if (isMeasured(this.#known.object) && !this.#known.width) {
      this.#wrong({ msg: say("gauge.nowidth"), hint: say("gauge.nowidth.hint") });
      return;
    }
    try {
      const picture = await openPicture(file);
      await this.#keepDraft(picture);
      if (this.deps.life.aborted) return picture.close(); // offered when the screen is opened again
      this.#picture = picture;
    } catch (trouble) {
      this.#wrong(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
      return;
    }
    this.#wrong(null);
    this.#left = [];
    this.#found = false;
    await this.#goOn();
  }

  #again() {
    this.#at.before.hidden = false;
    this.#at.marking.hidden = true;
    this.#paintGoOn(this.#marker?.marks.length ?? 0);
  }

  #undo() {
    this.#marker?.undo();
    if (this.#isScaled) return;
    this.#found = false;
    if ((this.#marker?.of("scale").length ?? 0) < 2) this.#marker?.whole();
  }

  /** @param {boolean} done whether the thumb is lifted */
  #marked(done) {
    const marker = /** @type {Marker} */ (this.#marker);
    const [n, rim] = [marker.of("scale").length, marker.of("rim").length];
    if (done) {
      const was = marker.group;
      marker.isWidth = this.#wanted === 2;
      marker.group = !this.#isScaled ? "scale" : this.#found ? "rim" : "";
      if (was === "scale" && !this.#found) this.#lookOn();
      this.#keepMarks();
    }
    const words = { n, of: this.#wanted, object: this.#objectName };
    this.#at.ask.textContent = !this.#isScaled ? say(this.#wanted === around ? "gauge.edge" : n === 0 ? "gauge.end" : "gauge.otherend", words)
      : !this.#found ? say("gauge.bore") : rim < leastRim ? say("gauge.rim", { n: rim, of: leastRim }) : say("gauge.enough", { n: rim });
    this.#measure();
  }

  /** The middle of the bore was touched: it is shown close. @param {{x: number, y: number}} at */
  #placed(at) {
    if (!this.#isScaled) return;
    this.#found = true;
    this.#lookAtBore(at);
    this.#marked(true);
  }

  /** Newest marks win: an answer to older ones is dropped. */
  async #measure() {
    const marker = /** @type {Marker} */ (this.#marker);
    const job = (this.#job = Symbol());
    const rim = marker.of("rim");
    if (rim.length < leastRim || !this.#isScaled) {
      this.#show(null, null);
      return;
    }
    const fresh = await this.#tip;
    if (job !== this.#job) return;
    const { object, width } = this.#known;
    const places = (/** @type {import("../parts/marker.js").Mark[]} */ list) => list.map(({ x, y }) => `${x.toFixed(2)}:${y.toFixed(2)}`).join(", ");
    const input = { object, ...(isMeasured(object) ? { width } : {}), ...(fresh ? { new: fresh } : {}), scale: places(marker.of("scale")), rim: places(rim) };
    try {
      const answer = await this.deps.calculate("photo-gauge", input, { units: this.deps.settings.values.units });
      if (job === this.#job) this.#show(answer, null);
    } catch (trouble) {
      if (job === this.#job) this.#show(null, trouble);
    }
  }

  /** @param {import("../calc/calls.js").Answer<"photo-gauge">|null} answer @param {any} trouble */
  #show(answer, trouble) {
    const at = this.#at;
    this.#answer = answer;
    at.fault.hidden = !trouble;
    at.fault.replaceChildren(...wrongWords(trouble));
    if (answer && at.keep.hidden) inertWhile([at.keep], async () => {}); // it comes where keys were
    at.result.hidden = at.keep.hidden = !answer;
    /** @type {(import("../types/calc.js").PhotoGaugeResults & {why?: any})|undefined} why: a text where there is a verdict */
    const r = answer?.results;
    const marker = /** @type {Marker} */ (this.#marker);
    marker.ellipse = r ? { x: r.centre_x.value, y: r.centre_y.value, a: r.long_axis.value, b: r.short_axis.value, turn: r.turn.value } : null;
    marker.draw();
    if (trouble) at.ask.textContent = say("gauge.unclear", { n: marker.of("rim").length });
    if (!r) return;
    const sizes = { n: marker.of("rim").length, largest: r.largest.text, smallest: r.smallest.text };
    at.ask.textContent = r.verdict ? say("gauge.judged", { ...sizes, verdict: r.verdict }) : say("gauge.reads", sizes);
    at.readings.replaceChildren(
      reading(say("reading.dmax"), r.largest.text, say("gauge.give", { error: r.largest_error.text })),
      reading(say("reading.dmin"), r.smallest.text, say("gauge.give", { error: r.smallest_error.text })));
    at.told.textContent = [r.verdict ? say("gauge.verdict", { verdict: r.verdict, why: r.why }) : "", say("gauge.told", { trust: r.trust, shape: r.shape }), r.tilt?.value ? say("gauge.tilted", { tilt: r.tilt.text }) : ""].join(" ").trim();
    at.cautions.replaceChildren(...answer.cautions.map((text) => caution(text)));
    at.working.replaceChildren(...answer.working.map((text) => make("li", {}, make("span", { text }))));
  }

  /** Stores the reading about the fitted tip, and the picture. @param {HTMLElement} button */
  async #keep(button) {
    const r = this.#answer?.results;
    if (!r || !this.#picture) return;
    setText(button, say("gauge.keeping")); // a picture takes its time
    try {
      const { views } = await this.deps.journal.read(["now", "rigs"]);
      const session = views.now?.session ?? null;
      const rig = rigIdInUse(views, this.deps.settings.values.rig);
      if (!rig) throw { msg: say("cut.norig") };
      const at = session ? { in: session.id } : {};
      const tip = views.now?.rigs?.find((one) => one.rig === rig)?.parts?.find((p) => p.slot === "tip");
      const about = tip?.part ?? newId();
      const um = (/** @type {import("../types/calc.js").Value} */ value) => Math.round(value.value * 1e6);
      const photo = await keepPicture(this.deps.journal, this.#picture);
      await new QuickEntries(this.deps).put([
        .../** @type {import("../journal/shapes.js").Entry[]} */ (tip ? [] : [{ kind: "part.fitted", ...at, about, body: { slot: "tip", rig } }]),
        { ...photo, ...at, about },
        { kind: "part.reading", ...at, about, body: { dmax: um(r.largest), dmin: um(r.smallest), error: um(r.largest_error), by: "photo", photo: photo.id } },
      ], say("gauge.kept", { largest: r.largest.text, smallest: r.smallest.text }));
      this.#answer = null; // until the other screen has come
      await this.#photos.dropDraft().catch(() => {});
      this.deps.go(this.#from);
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
    setText(button, say("gauge.keep"));
  }

  /** @param {{msg: string, hint?: string}|null} trouble */
  #wrong(trouble) {
    this.#at.wrong.hidden = !trouble;
    this.#at.wrong.replaceChildren(...wrongWords(trouble));
    if (trouble) bringUp(this.#at.wrong);
  }
}

/** Whether the object's width is entered. @param {string} object */
function isMeasured(object) {
  return object === "round" || object === "measured";
}

/** @param {{x: number, y: number}[]} marks */
function middle(marks) {
  return marks.reduce((sum, { x, y }) => ({ x: sum.x + x / marks.length, y: sum.y + y / marks.length }), { x: 0, y: 0 });
}
