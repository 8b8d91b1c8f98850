// @ts-check
/**
 * A picture to put marks on with a thumb. While the thumb is down, a magnifier
 * above it shows what lies under it. A touch near a mark drags that one, a
 * touch elsewhere sets a new one; two fingers move and stretch the picture.
 * With keys: arrows move the chosen mark (with Shift ten times as far), Enter
 * sets one in the middle, n chooses the next, + and − zoom, Backspace takes the
 * last one back.
 *
 * Events: "marks" (detail: {done}, done once the thumb is lifted), "placed"
 * (detail: {x, y}) for a touch while no mark is asked for.
 */
import { emit } from "./dom.js";
import { own } from "../words/words.js";

/** @typedef {{x: number, y: number, group: string}} Mark  in pixels of the picture */
/** @typedef {{x: number, y: number, a: number, b: number, turn: number}} Ellipse */

/** How near to a mark a touch takes hold of it, CSS pixels. */
const reach = 26;
/** The magnifier: its radius, how far above the thumb, and how much it magnifies. */
const glass = { radius: 78, above: 132, times: 4 };
const closest = 40; // CSS pixels for one of the picture
const step = 1; // CSS pixels that an arrow key moves a mark

export class Marker {
  /** What new marks belong to; "" sets none. */ group = "";
  /** Whether two scale marks are both ends of a width, shown by a line. */ isWidth = false;
  /** @type {Mark[]} */ marks = [];
  /** @type {Ellipse|null} */ ellipse = null;
  /** @type {ImageBitmap|null} */ #picture = null;
  #view = { x: 0, y: 0, k: 1 };
  #chosen = -1;
  /** Fingers that are down, in CSS pixels of the canvas. @type {Map<number, {x: number, y: number}>} */ #fingers = new Map();
  /** What the first finger does. @type {{mark: Mark|null, fresh: boolean, offX: number, offY: number}|null} */ #drag = null;
  #stop = new AbortController();
  #drawing = 0;

  /** @param {HTMLCanvasElement} canvas */
  constructor(canvas) {
    this.canvas = canvas;
  }

  start() {
    const { signal } = this.#stop;
    /** @type {<K extends keyof HTMLElementEventMap>(type: K, handler: (event: HTMLElementEventMap[K]) => void) => void} */
    const on = (type, handler) => this.canvas.addEventListener(type, handler, { signal });
    on("pointerdown", (event) => this.#down(event));
    on("pointermove", (event) => this.#move(event));
    on("pointerup", (event) => this.#up(event));
    on("pointercancel", (event) => this.#cancel(event));
    on("keydown", (event) => this.#key(event));
    on("contextmenu", (event) => event.preventDefault());
    addEventListener("resize", () => this.draw(), { signal });
  }

  stop() {
    this.#stop.abort();
    cancelAnimationFrame(this.#drawing);
    this.#picture?.close();
    this.#picture = null;
  }

  /** @param {ImageBitmap} picture @param {Mark[]} [marks] set on it before */
  show(picture, marks = []) {
    this.#picture?.close();
    this.#picture = picture;
    this.marks = marks;
    this.ellipse = null;
    this.#chosen = -1;
    this.whole();
  }

  /** Whether it may still show something. */
  get isLive() {
    return !this.#stop.signal.aborted;
  }

  /** @param {ImageBitmap} picture */
  has(picture) {
    return this.#picture === picture;
  }

  /** Shows the whole picture. */
  whole() {
    const { width = 1, height = 1 } = this.#picture ?? {};
    this.#view = { x: width / 2, y: height / 2, k: this.#least };
    this.draw();
  }

  /** Shows that place of the picture, this many of its pixels across. @param {number} x @param {number} y @param {number} across */
  look(x, y, across) {
    this.#view = { x, y, k: this.#size.w / across };
    this.#hold();
  }

  /** @param {number} by */
  zoom(by) {
    const at = this.marks[this.#chosen];
    const was = this.#view.k;
    this.#view.k *= by;
    this.#hold();
    const now = this.#view.k;
    if (at) { // the chosen mark stays where it is
      this.#view.x = at.x - ((at.x - this.#view.x) * was) / now;
      this.#view.y = at.y - ((at.y - this.#view.y) * was) / now;
      this.#hold();
    }
  }

  /** @param {string} group */
  of(group) {
    return this.marks.filter((mark) => mark.group === group);
  }

  undo() {
    this.marks.pop();
    this.#chosen = this.marks.length - 1;
    this.#tell(true);
  }

  next() {
    const own = this.marks.length;
    this.#chosen = own ? (this.#chosen + 1) % own : -1;
    const at = this.marks[this.#chosen];
    if (at && !this.#isSeen(at)) this.look(at.x, at.y, this.#size.w / this.#view.k);
    this.draw();
  }

  /** Moves the chosen mark, or the picture if none is. @param {number} dx @param {number} dy in CSS pixels */
  nudge(dx, dy) {
    const mark = this.marks[this.#chosen];
    if (mark) {
      mark.x += dx / this.#view.k;
      mark.y += dy / this.#view.k;
      this.#tell(true);
    } else {
      this.#view.x += (dx * 24) / this.#view.k;
      this.#view.y += (dy * 24) / this.#view.k;
      this.#hold();
    }
  }

  /** Draws with the next frame. */
  draw() {
    cancelAnimationFrame(this.#drawing);
    this.#drawing = requestAnimationFrame(() => this.#paint());
  }

  // Private

  get #size() {
    return { w: this.canvas.clientWidth || 1, h: this.canvas.clientHeight || 1 };
  }

  /** The scale at which all of the picture is seen. */
  get #least() {
    const { width = 1, height = 1 } = this.#picture ?? {};
    return Math.min(this.#size.w / width, this.#size.h / height);
  }

  /** Keeps the view on the picture. */
  #hold() {
    const { width = 1, height = 1 } = this.#picture ?? {};
    const view = this.#view;
    view.k = Math.min(closest, Math.max(this.#least, view.k));
    view.x = Math.min(width, Math.max(0, view.x));
    view.y = Math.min(height, Math.max(0, view.y));
    this.draw();
  }

  /** @param {{x: number, y: number}} at on the canvas */
  #inPicture({ x, y }) {
    const { w, h } = this.#size;
    return { x: this.#view.x + (x - w / 2) / this.#view.k, y: this.#view.y + (y - h / 2) / this.#view.k };
  }

  /** @param {{x: number, y: number}} at in the picture */
  #onCanvas({ x, y }) {
    const { w, h } = this.#size;
    return { x: (x - this.#view.x) * this.#view.k + w / 2, y: (y - this.#view.y) * this.#view.k + h / 2 };
  }

  /** @param {Mark} mark */
  #isSeen(mark) {
    const { x, y } = this.#onCanvas(mark);
    return x > 0 && y > 0 && x < this.#size.w && y < this.#size.h;
  }

  /** @param {PointerEvent} event */
  #at(event) {
    const box = this.canvas.getBoundingClientRect();
    return { x: event.clientX - box.left - this.canvas.clientLeft, y: event.clientY - box.top - this.canvas.clientTop };
  }

  /** @param {PointerEvent} event */
  #down(event) {
    if (!this.#picture) return;
    this.canvas.setPointerCapture(event.pointerId);
    const at = this.#at(event);
    this.#fingers.set(event.pointerId, at);
    if (this.#fingers.size > 1) {
      this.#drop();
      return;
    }
    const near = this.#nearest(at);
    if (near) {
      const spot = this.#onCanvas(near);
      this.#drag = { mark: near, fresh: false, offX: spot.x - at.x, offY: spot.y - at.y };
    } else {
      const mark = this.group ? { ...this.#inPicture(at), group: this.group } : null;
      if (mark) this.marks.push(mark);
      this.#drag = { mark, fresh: true, offX: 0, offY: 0 };
    }
    this.#chosen = this.#drag.mark ? this.marks.indexOf(this.#drag.mark) : this.#chosen;
    this.#tell(false);
  }

  /** A second finger came: the first one meant no mark. */
  #drop() {
    if (this.#drag?.fresh && this.#drag.mark) this.undo();
    this.#drag = null;
  }

  /** @param {PointerEvent} event */
  #move(event) {
    const was = this.#fingers.get(event.pointerId);
    if (!was) return;
    const at = this.#at(event);
    if (this.#fingers.size === 2) this.#pinch(event.pointerId, was, at);
    this.#fingers.set(event.pointerId, at);
    if (this.#drag?.mark) {
      Object.assign(this.#drag.mark, this.#inPicture({ x: at.x + this.#drag.offX, y: at.y + this.#drag.offY }));
      this.#tell(false);
    }
  }

  /** @param {number} id @param {{x: number, y: number}} was @param {{x: number, y: number}} at */
  #pinch(id, was, at) {
    const [other] = [...this.#fingers].filter(([key]) => key !== id).map(([, spot]) => spot);
    const before = Math.hypot(was.x - other.x, was.y - other.y);
    const after = Math.hypot(at.x - other.x, at.y - other.y);
    const held = this.#inPicture({ x: (was.x + other.x) / 2, y: (was.y + other.y) / 2 });
    if (before > 1) this.#view.k = Math.min(closest, Math.max(this.#least, (this.#view.k * after) / before));
    const now = this.#inPicture({ x: (at.x + other.x) / 2, y: (at.y + other.y) / 2 });
    this.#view.x += held.x - now.x;
    this.#view.y += held.y - now.y;
    this.#hold();
  }

  /** @param {PointerEvent} event */
  #up(event) {
    const at = this.#fingers.get(event.pointerId);
    this.#fingers.delete(event.pointerId);
    const drag = this.#drag;
    this.#drag = null;
    if (!at || !drag) return this.draw();
    if (drag.mark) this.#tell(true);
    else emit(this.canvas, "placed", this.#inPicture(at));
  }

  /** @param {PointerEvent} event */
  #cancel(event) {
    this.#fingers.delete(event.pointerId);
    this.#drop();
    this.draw();
  }

  /** @param {{x: number, y: number}} at */
  #nearest(at) {
    /** @type {Mark|null} */
    let best = null;
    let least = reach;
    for (const mark of this.marks) {
      const spot = this.#onCanvas(mark);
      const d = Math.hypot(spot.x - at.x, spot.y - at.y);
      if (d < least) [best, least] = [mark, d];
    }
    return best;
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const far = (event.shiftKey ? 10 : 1) * step;
    /** @type {Record<string, () => void>} */
    const keys = {
      ArrowLeft: () => this.nudge(-far, 0), ArrowRight: () => this.nudge(far, 0), ArrowUp: () => this.nudge(0, -far), ArrowDown: () => this.nudge(0, far),
      Enter: () => this.#place(), " ": () => this.#place(), n: () => this.next(), Escape: () => this.#leave(),
      "+": () => this.zoom(1.5), "-": () => this.zoom(1 / 1.5), Backspace: () => this.undo(),
    };
    const act = own(keys, event.key);
    if (!act || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    event.stopPropagation();
    act();
  }

  /** Sets a mark in the middle of what is seen. */
  #place() {
    const { x, y } = this.#view;
    if (!this.group) return emit(this.canvas, "placed", { x, y });
    this.marks.push({ x, y, group: this.group });
    this.#chosen = this.marks.length - 1;
    this.#tell(true);
  }

  /** No mark is chosen: arrows move the picture. */
  #leave() {
    this.#chosen = -1;
    this.draw();
  }

  /** @param {boolean} done */
  #tell(done) {
    emit(this.canvas, "marks", { done });
    this.draw();
  }

  #paint() {
    const { w, h } = this.#size;
    const dots = Math.min(3, devicePixelRatio || 1);
    if (this.canvas.width !== Math.round(w * dots) || this.canvas.height !== Math.round(h * dots)) {
      this.canvas.width = Math.round(w * dots);
      this.canvas.height = Math.round(h * dots);
      this.#view.k = Math.max(this.#view.k, this.#least);
    }
    const pen = this.canvas.getContext("2d");
    if (!pen || !this.#picture) return;
    pen.setTransform(dots, 0, 0, dots, 0, 0);
    pen.clearRect(0, 0, w, h);
    this.#scene(pen, { x: w / 2, y: h / 2 }, this.#view, this.#view.k);
    if (this.#drag?.mark) this.#magnify(pen, this.#drag.mark);
    else if (this.#chosen < 0) cross(pen, w / 2, h / 2, 14);
  }

  /** The picture with its marks, the place `from` of it at `at` on the canvas. @param {CanvasRenderingContext2D} pen @param {{x: number, y: number}} at @param {{x: number, y: number}} from @param {number} k */
  #scene(pen, at, from, k) {
    const picture = /** @type {ImageBitmap} */ (this.#picture);
    const place = (/** @type {{x: number, y: number}} */ p) => ({ x: at.x + (p.x - from.x) * k, y: at.y + (p.y - from.y) * k });
    const corner = place({ x: 0, y: 0 });
    pen.imageSmoothingEnabled = k < 3;
    pen.drawImage(picture, corner.x, corner.y, picture.width * k, picture.height * k);
    if (this.ellipse) {
      const { x, y } = place(this.ellipse);
      const { a, b, turn } = this.ellipse;
      twice(pen, () => pen.ellipse(x, y, a * k, b * k, turn, 0, 2 * Math.PI));
    }
    const [one, other] = this.isWidth ? this.of("scale").map(place) : [];
    if (one && other) twice(pen, () => (pen.moveTo(one.x, one.y), pen.lineTo(other.x, other.y)));
    for (const [i, mark] of this.marks.entries()) {
      const { x, y } = place(mark);
      twice(pen, () => pen.arc(x, y, i === this.#chosen ? 13 : 7, 0, 2 * Math.PI));
      if (i === this.#chosen) cross(pen, x, y, 5);
    }
  }

  /** @param {CanvasRenderingContext2D} pen @param {Mark} mark */
  #magnify(pen, mark) {
    const { w } = this.#size;
    const thumb = this.#onCanvas(mark);
    const { radius, above, times } = glass;
    const at = { x: Math.min(w - radius, Math.max(radius, thumb.x)), y: thumb.y - above };
    if (at.y < radius) { // no room above: beside the thumb
      at.y = radius;
      at.x = thumb.x < w / 2 ? Math.min(w - radius, thumb.x + above) : Math.max(radius, thumb.x - above);
    }
    pen.save();
    pen.beginPath();
    pen.arc(at.x, at.y, radius, 0, 2 * Math.PI);
    pen.clip();
    pen.fillStyle = "#000";
    pen.fillRect(at.x - radius, at.y - radius, 2 * radius, 2 * radius);
    this.#scene(pen, at, mark, this.#view.k * times);
    pen.restore();
    twice(pen, () => pen.arc(at.x, at.y, radius, 0, 2 * Math.PI));
    cross(pen, at.x, at.y, 26);
  }
}

/** Draws a path white on black, which shows on any picture. @param {CanvasRenderingContext2D} pen @param {() => unknown} path */
function twice(pen, path) {
  for (const [width, colour] of /** @type {[number, string][]} */ ([[5, "#000"], [2.5, "#fff"]])) {
    pen.lineWidth = width;
    pen.strokeStyle = colour;
    pen.beginPath();
    path();
    pen.stroke();
  }
}

/** A cross with an open middle. @param {CanvasRenderingContext2D} pen @param {number} x @param {number} y @param {number} size */
function cross(pen, x, y, size) {
  const open = size / 4;
  twice(pen, () => {
    for (const [dx, dy] of [[1, 0], [-1, 0], [0, 1], [0, -1]]) {
      pen.moveTo(x + dx * open, y + dy * open);
      pen.lineTo(x + dx * size, y + dy * size);
    }
  });
}
