// @ts-check
/**
 * The photo gauge: a picture of a tip beside something of known width, marks
 * on both of its ends and around the bore's rim, and the size by least squares
 * (calculator photo-gauge) while the marks are set. Kept as a reading of the
 * fitted tip, with the picture beside it. Until then picture and marks are a
 * draft on the phone, and offered when the screen is opened again.
 */
import { caution, clone, make, onActions, onePress, refs, setText } from "../parts/dom.js";
import { reading } from "../parts/answer.js";
import { Entries } from "../parts/entries.js";
import { rigIdInUse } from "../parts/equipment.js";
import { Marker } from "../parts/marker.js";
import { keepPicture } from "../parts/photos.js";
import { encodeWhole, openPicture } from "../parts/picture.js";
import { Photos } from "../journal/photo/photos.js";
import { newId } from "../journal/id.js";
import { say } from "../words/words.js";

const draft = "photo-gauge";
const leastRim = 8;
/** How much is seen while the bore is marked, mm: enough for the largest bores of hand torches. A coin counts as so wide, mm, for that. */
const seen = 3;
const coin = 21;

export class PhotoGaugePage {
  /** @type {Record<string, any>} */ #at = {};
  /** @type {Marker|null} */ #marker = null;
  /** @type {ImageBitmap|null} */ #picture = null;
  /** @type {any} */ #field = null;
  /** @type {Promise<void>} */ #loaded = Promise.resolve();
  /** Whether object or width were entered on this visit: then no draft is put over them. */ #touched = false;
  /** @type {symbol|null} */ #job = null;
  /** @type {any} */ #answer = null;
  /** Whether the bore was shown close. */ #found = false;
  /** Whether a coin is marked across twice, which tells the camera's tilt. */ #tilt = false;
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
      goon: () => this.#goOn(), tilt: () => this.#askTilt(), object: () => this.#askObject(), width: () => this.#askWidth(), keep: onePress((el) => this.#keep(el)), again: () => this.#again(),
      undo: () => this.#undo(), next: () => marker.next(), closer: () => marker.zoom(1.5), wider: () => marker.zoom(1 / 1.5),
      left: () => marker.nudge(-1, 0), right: () => marker.nudge(1, 0), up: () => marker.nudge(0, -1), down: () => marker.nudge(0, 1),
    });
    for (const input of [at.take, at.choose]) input.addEventListener("change", () => this.#open(input));
    at.canvas.addEventListener("marks", (/** @type {CustomEvent} */ event) => this.#marked(event.detail.done));
    at.canvas.addEventListener("placed", (/** @type {CustomEvent} */ event) => this.#placed(event.detail));
    this.#paintObject();
    this.#loaded = this.#load();
    await Promise.all([this.#offer(), this.#loaded]);
  }

  stop() {
    this.#marker?.stop();
    this.#job = null;
  }

  // Private

  async #load() {
    const all = await this.deps.asset("gen/calculators.json");
    this.#field = all.find((/** @type {any} */ c) => c.name === "photo-gauge")?.fields.find((/** @type {any} */ f) => f.key === "object");
    this.#paintObject();
  }

  get #photos() {
    return new Photos(this.deps.journal.db);
  }

  get #known() {
    const { object = "measured", width = "" } = this.deps.drafts.of(draft);
    return { object, width };
  }

  /** Keeps the picture without what its file says, such as where it was taken. A full disk keeps none; it can be marked all the same. @param {ImageBitmap} picture @param {any} [marks] */
  async #keepDraft(picture, marks) {
    await encodeWhole(picture).then((drawn) => this.#photos.keepDraft(drawn, marks)).catch(() => {});
  }

  /** Keeps what is being marked as it is marked. */
  #keepMarks() {
    const marks = (this.#marker?.marks ?? []).map(({ x, y, group }) => ({ x, y, group }));
    this.#photos.markDraft({ list: marks, found: this.#found, tilt: this.#tilt, ...this.#known }).catch(() => {}); // a full disk keeps no draft
  }

  /** A picture that was left before its reading was kept. */
  async #offer() {
    const kept = await this.#photos.draft().catch(() => null);
    if (!kept || this.#picture) return;
    const picture = await openPicture(new Blob([kept.bytes], { type: kept.type })).catch(() => null);
    if (picture && !kept.drawn) await this.#keepDraft(picture, kept.marks); // an earlier version kept the camera's file
    if (!picture || this.#picture || !this.#marker?.isLive) return picture?.close();
    const { list = [], found = false, tilt = false, ...known } = kept.marks ?? {};
    if (known.object && !this.#touched) this.deps.drafts.keep(draft, known); // the phone may have died before it wrote that down
    this.#paintObject();
    this.#picture = picture;
    this.#left = list;
    [this.#found, this.#tilt] = [found, tilt];
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
    this.#at.before.hidden = true;
    this.#at.marking.hidden = false;
    if (this.#picture && !marker.has(this.#picture)) {
      marker.show(this.#picture, this.#left);
      const rim = marker.of("rim");
      const [one, two] = marker.of("scale");
      if (this.#found && one && two) {
        const middle = rim.length ? rim.map(({ x, y }) => [x, y]).reduce(([x, y], [u, v]) => [x + u / rim.length, y + v / rim.length], [0, 0]) : null;
        if (middle) marker.look(middle[0], middle[1], await this.#across(one, two));
        else this.#found = false;
      }
    }
    this.#marked(true);
    this.#at.canvas.focus({ preventScroll: true });
    this.#at.ask.scrollIntoView({ block: "start" });
  }

  /** How many pixels of the picture are seen while the bore is marked. @param {import("../parts/marker.js").Mark} one @param {import("../parts/marker.js").Mark} two */
  async #across(one, two) {
    return (Math.hypot(one.x - two.x, one.y - two.y) * seen) / (await this.#millimetres());
  }

  #askTilt() {
    this.#tilt = true;
    this.#marker?.whole();
    this.#marked(true);
  }

  get #objectName() {
    return this.#field?.choices.find((/** @type {any} */ c) => c.word === this.#known.object)?.label ?? this.#known.object;
  }

  #paintObject() {
    const { object, width } = this.#known;
    setText(this.#at.object, this.#objectName);
    this.#at.widthField.hidden = object !== "measured";
    setText(this.#at.width, width || say("field.empty"));
  }

  /** About how wide the object is. */
  async #millimetres() {
    const { object, width } = this.#known;
    if (object !== "measured") return coin;
    const read = await this.deps.call("read-value", { quantity: "length", text: width, bare: "mm", us: "in", in: "µm" }).catch(() => null);
    return read?.whole ? read.whole / 1000 : coin;
  }

  async #askObject() {
    await this.#loaded;
    const options = (this.#field?.choices ?? []).map((/** @type {any} */ c) => ({ word: c.word, label: c.label }));
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
    if (this.#known.object === "measured" && !this.#known.width) {
      this.#wrong({ msg: say("gauge.nowidth"), hint: say("gauge.nowidth.hint") });
      return;
    }
    try {
      const picture = await openPicture(file);
      await this.#keepDraft(picture);
      if (this.deps.life.aborted) return picture.close(); // offered when the screen is opened again
      this.#picture = picture;
    } catch (trouble) {
      this.#wrong(/** @type {any} */ (trouble));
      return;
    }
    this.#wrong(null);
    this.#left = [];
    this.#found = this.#tilt = false;
    await this.#goOn();
  }

  #again() {
    this.#at.before.hidden = false;
    this.#at.marking.hidden = true;
    this.#paintGoOn(this.#marker?.marks.length ?? 0);
  }

  #undo() {
    if (this.#tilt && this.#marker?.of("scale").length === 2) this.#tilt = false; // nothing marked of it yet
    else this.#marker?.undo();
    this.#marked(true);
    if (this.#marker && this.#marker.of("scale").length < 2) {
      this.#found = false;
      this.#marker.whole();
    }
  }

  /** @param {boolean} done whether the thumb is lifted */
  #marked(done) {
    const marker = /** @type {Marker} */ (this.#marker);
    const scale = marker.of("scale").length;
    const rim = marker.of("rim").length;
    const wanted = this.#tilt ? 4 : 2;
    if (done) {
      marker.group = scale < wanted ? "scale" : this.#found ? "rim" : "";
      this.#keepMarks();
    }
    this.#at.tilt.hidden = this.#known.object === "measured" || this.#tilt || scale !== 2;
    this.#at.ask.textContent = scale >= 2 && scale < wanted ? say("gauge.narrow", { n: scale - 2 }) : scale === 0 ? say("gauge.end", { object: this.#objectName }) : scale === 1 ? say("gauge.otherend") : !this.#found ? say("gauge.bore")
      : rim < leastRim ? say("gauge.rim", { n: rim, of: leastRim }) : say("gauge.enough", { n: rim });
    this.#measure();
  }

  /** The middle of the bore was touched: it is shown close. @param {{x: number, y: number}} at */
  async #placed({ x, y }) {
    const marker = /** @type {Marker} */ (this.#marker);
    const [one, two] = marker.of("scale");
    if (!one || !two) return;
    this.#found = true;
    this.#marked(true);
    marker.look(x, y, await this.#across(one, two));
  }

  /** Newest marks win: an answer to older ones is dropped. */
  async #measure() {
    const marker = /** @type {Marker} */ (this.#marker);
    const job = (this.#job = Symbol());
    const rim = marker.of("rim");
    if (rim.length < leastRim || marker.of("scale").length === 3) {
      this.#show(null, null);
      return;
    }
    const { object, width } = this.#known;
    const places = (/** @type {import("../parts/marker.js").Mark[]} */ list) => list.map(({ x, y }) => `${x.toFixed(2)}:${y.toFixed(2)}`).join(", ");
    const input = { object, ...(object === "measured" ? { width } : {}), scale: places(marker.of("scale")), rim: places(rim) };
    try {
      const answer = await this.deps.calculate("photo-gauge", input, { units: this.deps.settings.values.units });
      if (job === this.#job) this.#show(answer, null);
    } catch (trouble) {
      if (job === this.#job) this.#show(null, trouble);
    }
  }

  /** @param {any} answer @param {any} trouble */
  #show(answer, trouble) {
    const at = this.#at;
    this.#answer = answer;
    at.fault.hidden = !trouble;
    at.fault.replaceChildren(...(trouble ? [trouble.msg, make("span", { text: trouble.hint ?? "" })] : []));
    at.result.hidden = !answer;
    const r = answer?.results;
    const marker = /** @type {Marker} */ (this.#marker);
    marker.ellipse = r ? { x: r.centre_x.value, y: r.centre_y.value, a: r.long_axis.value, b: r.short_axis.value, turn: r.turn.value } : null;
    marker.draw();
    if (trouble) at.ask.textContent = say("gauge.unclear", { n: marker.of("rim").length });
    if (!r) return;
    at.ask.textContent = say("gauge.reads", { n: marker.of("rim").length, largest: r.largest.text, smallest: r.smallest.text });
    at.readings.replaceChildren(
      reading(say("reading.dmax"), r.largest.text, say("gauge.give", { error: r.largest_error.text })),
      reading(say("reading.dmin"), r.smallest.text, say("gauge.give", { error: r.smallest_error.text })));
    at.told.textContent = [say("gauge.told", { trust: r.trust, shape: r.shape }), r.tilt ? say("gauge.tilted", { tilt: r.tilt.text }) : ""].join(" ").trim();
    at.cautions.replaceChildren(...answer.cautions.map((/** @type {string} */ text) => caution(text)));
    at.working.replaceChildren(...answer.working.map((/** @type {string} */ text) => make("li", {}, make("span", { text }))));
  }

  /** Stores the reading about the fitted tip, and the picture. @param {HTMLElement} button */
  async #keep(button) {
    const r = this.#answer?.results;
    if (!r || !this.#picture) return;
    setText(button, say("gauge.keeping")); // a picture takes its time
    try {
      const { views } = await this.deps.journal.paint(["now", "rigs"]);
      const session = views.now?.session ?? null;
      const rig = rigIdInUse(views, this.deps.settings.values.rig);
      if (!rig) throw { msg: say("cut.norig") };
      const at = session ? { in: session.id } : {};
      const tip = views.now?.rigs?.find((/** @type {any} */ one) => one.rig === rig)?.parts?.find((/** @type {any} */ p) => p.slot === "tip");
      const about = tip?.part ?? newId();
      const um = (/** @type {any} */ value) => Math.round(value.value * 1e6);
      const photo = await keepPicture(this.deps.journal, this.#picture);
      await new Entries(this.deps).put([
        ...(tip ? [] : [{ kind: "part.fitted", ...at, about, body: { slot: "tip", rig } }]),
        { ...photo, ...at, about },
        { kind: "part.reading", ...at, about, body: { dmax: um(r.largest), dmin: um(r.smallest), error: um(r.largest_error), by: "photo", photo: photo.id } },
      ], say("gauge.kept", { largest: r.largest.text, smallest: r.smallest.text }));
      this.#answer = null; // until the other screen has come
      await this.#photos.dropDraft().catch(() => {});
      this.deps.go(this.#from);
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {any} */ (trouble));
    }
    setText(button, say("gauge.keep"));
  }

  /** @param {{msg: string, hint?: string}|null} trouble */
  #wrong(trouble) {
    this.#at.wrong.hidden = !trouble;
    this.#at.wrong.replaceChildren(...(trouble ? [trouble.msg, make("span", { text: trouble.hint ?? "" })] : []));
  }
}
