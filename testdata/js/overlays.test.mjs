// What lies over a page is a step of the history: Back closes the topmost and nothing else.
import assert from "node:assert/strict";
import { test } from "node:test";
import { browser } from "./history.mjs";
import { turns } from "./turn.mjs";
import { opened } from "../../pwa/browser/overlays.js";

/** A browser that came from Ready to Cut. */
async function onCut(t) {
  const at = browser(t, "/ready");
  await at.router.again();
  await at.router.show("/cut", true);
  const closed = [];
  /** Opens something over the page; its own button closes it. */
  const over = (name) => {
    const leave = opened(() => closed.push(name));
    return () => (closed.push(name), leave());
  };
  const back = async () => {
    history.back();
    await turns(5);
  };
  return { at, closed, over, back };
}

test("Back closes what lies over the page, which is not shown anew", async (t) => {
  const { at, closed, over, back } = await onCut(t);
  over("pad");
  await back();
  assert.deepEqual([closed, at.address, at.names()], [["pad"], "/cut", ["Ready", "Cut"]]);
  await back();
  assert.deepEqual([at.address, at.names().at(-1)], ["/ready", "Ready"]);
});

test("Forward to it shows nothing and leaves no step behind", async (t) => {
  const { at, closed, over, back } = await onCut(t);
  over("pad");
  await back();
  at.move(1);
  await turns(5);
  assert.deepEqual([closed, at.state.over, at.names()], [["pad"], undefined, ["Ready", "Cut"]]);
  await back();
  assert.equal(at.address, "/ready");
});

test("closed by its own button it leaves no step behind", async (t) => {
  const { at, closed, over, back } = await onCut(t);
  over("pad")();
  await turns(5);
  assert.deepEqual([closed, at.state.over, at.names()], [["pad"], undefined, ["Ready", "Cut"]]);
  await back();
  assert.equal(at.address, "/ready");
});

test("a screen opened right after it was closed is one step from the page", async (t) => {
  const { at, over, back } = await onCut(t);
  over("pad")();
  await at.router.show("/book", true);
  assert.deepEqual(at.entries(), ["/ready", "/cut", "/book"]);
  await back();
  assert.deepEqual([at.address, at.state.over], ["/cut", undefined]);
});

test("another opened right after it is the one that Back closes", async (t) => {
  const { at, closed, over, back } = await onCut(t);
  over("left")();
  over("right");
  await turns(5);
  assert.equal(at.state.over, 1);
  await back();
  assert.deepEqual([closed, at.address, at.state.over], [["left", "right"], "/cut", undefined]);
});

test("one opened when the history has come back, and the page has not heard of it yet, stays", async (t) => {
  const { at, closed, over, back } = await onCut(t);
  const leave = over("left");
  at.between = () => over("right");
  leave();
  await turns(9);
  assert.deepEqual([closed, at.state.over, at.address], [["left"], 1, "/cut"]);
  await back();
  assert.deepEqual([closed, at.state.over, at.address], [["left", "right"], undefined, "/cut"]);
});

test("and one opened and closed right after it takes no step of the page", async (t) => {
  const { at, over } = await onCut(t);
  over("left")();
  over("right")();
  await turns(9);
  assert.deepEqual([at.address, at.state.over], ["/cut", undefined]);
});

test("a page that is left with something over it leaves no step of that", async (t) => {
  const { at, closed, over, back } = await onCut(t);
  over("chooser");
  over("pad");
  await at.router.show("/book", true);
  assert.deepEqual([closed, at.entries()], [["pad", "chooser"], ["/ready", "/cut", "/book"]]);
  await back();
  assert.equal(at.address, "/cut");
});

test("of two the topmost is closed first", async (t) => {
  const { at, closed, over, back } = await onCut(t);
  over("photo");
  over("pad");
  await back();
  assert.deepEqual(closed, ["pad"]);
  await back();
  assert.deepEqual([closed, at.address], [["pad", "photo"], "/cut"]);
});

test("two quick Backs close it and leave the page, also when the browser makes one of them", async (t) => {
  for (const steps of [[-1, -1], [-2]]) {
    const { at, closed, over } = await onCut(t);
    over("pad");
    for (const by of steps) at.move(by);
    await turns(5);
    assert.deepEqual([closed, at.address, at.names().at(-1)], [["pad"], "/ready", "Ready"]);
  }
});

test("loaded anew with something over it, the page stands and Back leads on", async (t) => {
  const { at, over } = await onCut(t);
  over("pad");
  const { state } = at;
  await at.router.show("/cut", true); // ends what is open here
  const anew = browser(t, "/cut", {}, { depth: state.depth, place: "cut" });
  history.pushState(state, "", undefined);
  anew.reload();
  await anew.router.again();
  await turns(5);
  assert.deepEqual([anew.names(), anew.state.over], [["Cut"], undefined]);
});

/** As onCut, with a history that goes where it is sent only when come is called. */
async function slow(t) {
  const cut = await onCut(t);
  const { go } = history;
  /** @type {number[]} */ const sent = [];
  history.go = (n) => void sent.push(n);
  const come = async () => {
    for (const n of sent.splice(0)) go.call(history, n);
    await turns(5);
  };
  return { ...cut, come };
}

test("a step that takes long closes nothing that has been opened meanwhile", async (t) => {
  const { at, closed, over, back, come } = await slow(t);
  over("chooser")();
  over("another");
  await come();
  assert.deepEqual([closed, at.state.over], [["chooser"], 1]);
  await back();
  assert.deepEqual([closed, at.address], [["chooser", "another"], "/cut"]);
});

test("a step that takes long is taken once, however much opens and closes meanwhile", async (t) => {
  const { at, closed, over, come } = await slow(t);
  t.mock.timers.enable({ apis: ["setTimeout"] });
  over("chooser")();
  t.mock.timers.tick(2000);
  over("another")();
  t.mock.timers.tick(2000);
  await come();
  assert.deepEqual([closed, at.address, at.state.over], [["chooser", "another"], "/cut", undefined]);
});

test("a screen does not wait for ever for a step", async (t) => {
  const { at, over } = await slow(t);
  t.mock.timers.enable({ apis: ["setTimeout"] });
  over("pad")();
  const shown = at.router.show("/book", true);
  await turns(5);
  assert.equal(at.names().at(-1), "Cut");
  t.mock.timers.tick(1000);
  await shown;
  assert.equal(at.names().at(-1), "Book");
});
