// Marks on a picture: where a thumb sets one, which one a touch takes hold of, and what fingers and keys do beside.
import assert from "node:assert/strict";
import { test } from "node:test";
import { Marker } from "../../pwa/parts/marker.js";

Object.assign(globalThis, { requestAnimationFrame: (/** @type {() => void} */ paint) => (frames.push(paint), frames.length), cancelAnimationFrame() {}, addEventListener() {}, devicePixelRatio: 1 });
/** @type {(() => void)[]} */
const frames = [];

/** A picture of 800 by 800 pixels on a canvas of 400 by 400: one pixel of the screen is two of the picture. */
const picture = () => ({ width: 800, height: 800, closed: false, close() { this.closed = true; } });

/** A marker with its picture shown; fingers touch it at places of the canvas. */
function opened({ group = "scale", marks = [], shown = true } = {}) {
  const canvas = Object.assign(new EventTarget(), { clientWidth: 400, clientHeight: 400, clientLeft: 0, clientTop: 0, width: 400, height: 400, setPointerCapture() {}, getBoundingClientRect: () => ({ left: 10, top: 20 }) });
  const marker = new Marker(/** @type {any} */ (canvas));
  marker.start();
  const of = picture();
  if (shown) marker.show(/** @type {any} */ (of), marks.map(([x, y]) => ({ x, y, group })));
  marker.group = group;
  const told = [];
  canvas.addEventListener("marks", (event) => told.push(/** @type {any} */ (event).detail.done));
  canvas.addEventListener("placed", (event) => told.push(/** @type {any} */ (event).detail));
  const finger = (id = 1) => {
    const send = (type, x, y) => canvas.dispatchEvent(Object.assign(new Event(type), { pointerId: id, clientX: x + 10, clientY: y + 20 }));
    return { down: (x, y) => send("pointerdown", x, y), move: (x, y) => send("pointermove", x, y), up: () => send("pointerup", 0, 0), cancel: () => send("pointercancel", 0, 0) };
  };
  const touch = (x, y, toX = x, toY = y) => {
    const thumb = finger();
    thumb.down(x, y);
    if (toX !== x || toY !== y) thumb.move(toX, toY);
    thumb.up();
  };
  const key = (name, more = {}) => {
    const event = Object.assign(new Event("keydown", { cancelable: true }), { key: name, ...more });
    canvas.dispatchEvent(event);
    return event.defaultPrevented;
  };
  const places = () => marker.marks.map(({ x, y }) => [Math.round(x * 100) / 100, Math.round(y * 100) / 100]);
  return { marker, canvas, told, finger, touch, key, places, of };
}

test("six touches are six marks of the group, each where the thumb was lifted", () => {
  const { marker, touch, places, told } = opened();
  for (let i = 0; i < 6; i++) touch(50 * i + 20, 40, 50 * i + 30, 60);
  assert.deepEqual(places(), [0, 1, 2, 3, 4, 5].map((i) => [100 * i + 60, 120]));
  assert.equal(marker.of("scale").length, 6);
  assert.deepEqual(told.slice(0, 3), [false, false, true], "done once the thumb is lifted");
});

test("a touch beside a mark drags it by as much as the thumb moves, and sets none", () => {
  const { touch, places } = opened({ marks: [[200, 200]] });
  touch(120, 110, 170, 110);
  assert.deepEqual(places(), [[300, 200]]);
  touch(150, 100);
  assert.deepEqual(places(), [[300, 200]], "only touched");
});

test("a touch takes hold within the width of a thumb, on the screen and not in the picture", () => {
  const { marker, touch, places } = opened({ marks: [[400, 400]] });
  touch(225.9, 200);
  assert.equal(places().length, 1);
  touch(226, 200);
  assert.deepEqual(places(), [[400, 400], [452, 400]]);
  marker.undo();
  marker.look(400, 400, 100); // four pixels of the screen for one of the picture: the same places are further apart
  touch(227, 200);
  assert.deepEqual(places(), [[400, 400], [406.75, 400]]);
});

test("near two marks the nearer one is taken, between them the earlier", () => {
  for (const [x, want] of [[114, [[220, 200], [260, 200]]], [116, [[200, 200], [280, 200]]], [115, [[220, 200], [260, 200]]]]) {
    const { touch, places } = opened({ marks: [[200, 200], [260, 200]] });
    touch(x, 100, x + 10, 100);
    assert.deepEqual(places(), want, String(x));
  }
});

test("marks of an earlier group can be dragged too, and keep their group", () => {
  const { marker, touch } = opened({ marks: [[200, 200]] });
  marker.group = "rim";
  touch(100, 100, 110, 100);
  touch(300, 300);
  assert.deepEqual(marker.marks, [{ x: 220, y: 200, group: "scale" }, { x: 600, y: 600, group: "rim" }]);
});

test("while no mark is asked for a touch tells its place, but drags what it takes hold of", () => {
  const { touch, places, told } = opened({ group: "", marks: [[200, 200]] });
  touch(300, 300, 310, 300);
  assert.deepEqual([places(), told.at(-1)], [[[200, 200]], { x: 620, y: 600 }]);
  touch(100, 100, 120, 100);
  assert.deepEqual([places(), told.at(-1)], [[[240, 200]], true]);
});

test("a second finger takes back the mark that the first has just set, and none that it drags", () => {
  const { finger, places } = opened({ marks: [[200, 200]] });
  const [first, second] = [finger(1), finger(2)];
  first.down(300, 300);
  assert.equal(places().length, 2);
  second.down(350, 300);
  assert.deepEqual(places(), [[200, 200]]);
  first.up();
  second.move(340, 300);
  second.up();
  assert.deepEqual(places(), [[200, 200]], "the finger that is left sets none");
  first.down(100, 100);
  first.move(110, 100);
  second.down(350, 300);
  first.up();
  second.up();
  assert.deepEqual(places(), [[220, 200]]);
});

test("two fingers stretch the picture about the place that they hold", () => {
  const { finger, touch, places } = opened();
  const [first, second] = [finger(1), finger(2)];
  first.down(100, 200);
  second.down(200, 200);
  second.move(300, 200); // twice as far apart; what was between them at 150 is between them at 200
  first.up();
  second.up();
  touch(200, 200);
  touch(300, 200);
  assert.deepEqual(places(), [[300, 400], [400, 400]]);
});

test("a touch that the browser takes away sets no mark, and leaves a dragged one", () => {
  const { finger, places } = opened({ marks: [[200, 200]] });
  const thumb = finger();
  thumb.down(300, 300);
  thumb.cancel();
  assert.deepEqual(places(), [[200, 200]]);
  thumb.down(100, 100);
  thumb.move(110, 100);
  thumb.cancel();
  thumb.down(300, 300);
  assert.deepEqual(places(), [[220, 200], [600, 600]], "and the next touch is one of its own");
});

test("before a picture is shown a touch does nothing; another picture has its own marks", () => {
  const { marker, touch, places, of } = opened({ shown: false });
  touch(100, 100);
  assert.deepEqual(places(), []);
  marker.show(/** @type {any} */ (of));
  touch(100, 100);
  const next = picture();
  marker.show(/** @type {any} */ (next), [{ x: 1, y: 2, group: "rim" }]);
  assert.deepEqual([places(), of.closed, marker.has(/** @type {any} */ (next))], [[[1, 2]], true, true]);
  marker.stop();
  assert.deepEqual([next.closed, marker.isLive], [true, false]);
  touch(100, 100);
  assert.equal(places().length, 1);
});

test("arrows move the chosen mark by a pixel of the screen, with Shift by ten, and the picture while none is chosen", () => {
  const { marker, key, touch, places } = opened({ marks: [[200, 200], [600, 600]] });
  key("n");
  key("ArrowRight");
  key("ArrowDown", { shiftKey: true });
  assert.deepEqual(places(), [[202, 220], [600, 600]]);
  key("n");
  key("ArrowLeft");
  key("n");
  key("ArrowUp");
  assert.deepEqual(places(), [[202, 218], [598, 600]], "the one after the last is the first");
  key("Escape");
  key("ArrowRight"); // 24 pixels of the screen
  touch(200, 200);
  assert.deepEqual(places().at(-1), [448, 400]);
  assert.equal(marker.marks.length, 3);
});

test("Enter sets a mark in the middle, Backspace takes the last back, and what is no key of ours passes", () => {
  const { marker, key, places, told } = opened();
  assert.equal(key("Enter"), true);
  assert.equal(key(" "), true);
  assert.deepEqual(places(), [[400, 400], [400, 400]]);
  key("Backspace");
  key("ArrowRight");
  assert.deepEqual(places(), [[402, 400]], "the one before is chosen");
  for (const [name, more] of [["Tab", {}], ["toString", {}], ["n", { ctrlKey: true }]]) assert.equal(key(name, more), false, name);
  marker.group = "";
  key("Enter");
  assert.deepEqual(told.at(-1), { x: 400, y: 400 });
  for (let i = 0; i < 3; i++) key("Backspace");
  assert.deepEqual(places(), []);
  key("n");
  key("ArrowLeft"); // no mark to move
});

test("the chosen mark stays in its place as the picture is zoomed, and one that is out of sight is brought into it", () => {
  const { marker, key, touch, places } = opened({ marks: [[300, 500], [20, 20]] });
  key("n");
  for (let i = 0; i < 3; i++) key("+");
  touch(150, 250, 160, 250); // where it stood from the start
  assert.deepEqual(places()[0], [Math.round((300 + 10 / (0.5 * 1.5 ** 3)) * 100) / 100, 500]);
  key("n");
  marker.marks.pop(); // what is under the middle now, when touched
  touch(200, 200);
  assert.deepEqual(places().at(-1), [20, 20]);
});

test("no zoom goes further out than the whole picture, nor so close that a pixel fills the thumb", () => {
  const { marker, touch, places } = opened();
  for (let i = 0; i < 5; i++) marker.zoom(1 / 1.5);
  touch(100, 100);
  assert.deepEqual(places()[0], [200, 200]);
  marker.marks.pop();
  marker.look(400, 400, 1);
  touch(240, 200);
  assert.deepEqual(places()[0], [401, 400]);
});

test("the magnifier stands above the thumb, where there is no room beside it, and always on the canvas", () => {
  for (const [x, y, at] of [[200, 300, [200, 168]], [10, 300, [78, 168]], [395, 300, [322, 168]], [100, 60, [232, 78]], [300, 60, [168, 78]]]) {
    const { canvas, finger } = opened();
    const circles = [];
    const pen = new Proxy({ arc: (cx, cy, r) => circles.push([cx, cy, r]) }, { get: (on, name) => on[name] ?? (() => {}), set: () => true });
    Object.assign(canvas, { getContext: () => pen });
    finger().down(x, y);
    /** @type {() => void} */ (frames.at(-1))();
    assert.deepEqual(circles.find(([, , r]) => r === 78)?.slice(0, 2), at, `${x},${y}`);
  }
});
