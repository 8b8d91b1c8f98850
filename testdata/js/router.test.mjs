// From an address to its screen, and back: the newest wins, and Back never leads astray.
import assert from "node:assert/strict";
import { test } from "node:test";
import { browser } from "./history.mjs";
import { turn } from "./turn.mjs";
import { pathOfLink } from "../../pwa/router.js";

/** A module that comes when it is told to. */
function module(Class) {
  let come = () => {};
  let fail = () => {};
  const comes = new Promise((resolve, reject) => ([come, fail] = [() => resolve(Class), () => reject(new Error("no network"))]));
  return { load: () => comes, come, fail };
}

class Session {}
class Rig {}

test("an address is its screen, with its place, its title and all that it says", async (t) => {
  const { router, shown } = browser(t, "/session/s-1?rig=r-1#cut", { session: async () => Session });
  await router.again();
  assert.deepEqual(shown, [{ name: "Session", place: "book", title: "session", path: "/session/s-1?rig=r-1#cut", params: { id: "s-1", rig: "r-1", hash: "cut", secret: "" } }]);
});

test("a screen opened from another is one step, the same screen again is none", async (t) => {
  const at = browser(t, "/ready");
  await at.router.again();
  await at.router.show("/cut", true);
  await at.router.show("/cut?from=ready", true);
  assert.deepEqual([at.entries(), at.address], [["/ready", "/cut"], "/cut?from=ready"]);
  at.router.back();
  await turn();
  assert.deepEqual([at.address, at.names().at(-1)], ["/ready", "Ready"]);
});

test("Back goes through all that was opened here, then home, and no further out of the app", async (t) => {
  const at = browser(t, "/cut", { session: async () => Session });
  await at.router.again();
  await at.router.show("/session/s-1", true);
  await at.router.show("/session/s-2", true);
  for (const want of ["/session/s-1", "/cut", "/ready"]) {
    at.router.back();
    await turn();
    assert.equal(at.address, want);
  }
  assert.deepEqual(at.entries(), ["/cut", "/ready"], "home was opened from Cut");
  at.router.back();
  await turn();
  assert.equal(at.address, "/cut");
});

test("after the browser went back and forward Back still counts its steps", async (t) => {
  const at = browser(t, "/ready");
  await at.router.again();
  await at.router.show("/cut", true);
  await at.router.show("/ready", true);
  at.move(-1);
  at.move(-1);
  at.move(1);
  await turn();
  assert.deepEqual([at.address, at.names().at(-1)], ["/cut", "Cut"]);
  at.router.back();
  await turn();
  assert.equal(at.address, "/ready");
  at.router.back();
  await turn();
  assert.deepEqual([at.entries(), at.address], [["/ready", "/cut", "/ready"], "/ready"], "the first step stays the first");
});

test("a file that comes late, when another screen was asked for, opens nothing and is no step", async (t) => {
  const [session, rig] = [module(Session), module(Rig)];
  const at = browser(t, "/ready", { session: session.load, rig: rig.load });
  await at.router.again();
  const first = at.router.show("/session/s-1", true);
  const second = at.router.show("/rig/r-1", true);
  rig.come();
  await second;
  session.come();
  await first;
  assert.deepEqual([at.names(), at.entries()], [["Ready", "Rig"], ["/ready", "/rig/r-1"]]);
});

test("nor when the browser went back meanwhile", async (t) => {
  const session = module(Session);
  const at = browser(t, "/ready", { session: session.load });
  await at.router.again();
  await at.router.show("/cut", true);
  const late = at.router.show("/session/s-1", true);
  at.move(-1);
  await turn();
  session.come();
  await late;
  assert.deepEqual([at.names().at(-1), at.entries(), at.address], ["Ready", ["/ready", "/cut"], "/ready"]);
});

test("a file that does not come is told, with whether a screen stands to go on with, unless another was asked for", async (t) => {
  const [session, rig] = [module(Session), module(Rig)];
  const at = browser(t, "/session/s-1", { session: session.load, rig: rig.load });
  const first = at.router.again();
  session.fail();
  await first;
  assert.deepEqual([at.lost, at.address], [[["/session/s-1", false]], "/session/s-1"]);
  await at.router.show("/cut", true);
  const late = at.router.show("/rig/r-1", true);
  await at.router.show("/ready", true);
  rig.fail();
  await late;
  assert.equal(at.lost.length, 1);
  await at.router.show("/session/s-2", true);
  assert.deepEqual([at.lost.at(-1), at.address], [["/session/s-2", true], "/ready"]);
});

test("an address of no screen says so, and is a step like others", async (t) => {
  const at = browser(t, "/flight/7");
  await at.router.again();
  assert.deepEqual([at.names(), at.entries()], [["Unknown"], ["/flight/7"]]);
  await at.router.show("/cut", true);
  await at.router.show("/session/of-no-screen", true);
  assert.deepEqual([at.names(), at.shown.at(-1).place], [["Unknown", "Cut", "Unknown"], "cut"]);
  at.router.back();
  await turn();
  assert.equal(at.address, "/cut");
});

test("the place that is lit is where a screen was opened from, also after a reload", async (t) => {
  const at = browser(t, "/cut", { session: async () => Session });
  await at.router.again();
  await at.router.show("/session/s-1", true);
  await at.router.show("/ready", true);
  at.router.back();
  await turn();
  assert.deepEqual(at.shown.map(({ place }) => place), ["cut", "cut", "ready", "cut"]);
  const anew = browser(t, "/session/s-1", { session: async () => Session }, { depth: 2, place: "cut" });
  await anew.router.again();
  assert.equal(anew.shown[0].place, "cut");
  const cold = browser(t, "/session/s-1", { session: async () => Session });
  await cold.router.again();
  assert.equal(cold.shown[0].place, "book", "opened from nowhere, its own");
  cold.router.back();
  await turn();
  assert.equal(cold.address, "/book", "and Back leads there");
});

test("the secret of an invitation reaches its screen, and stays in no address", async (t) => {
  const at = browser(t, "/join#Se-cret");
  await at.router.again();
  assert.deepEqual([at.shown[0].params.secret, at.shown[0].params.hash, at.address], ["Se-cret", "", "/join"]);
  await at.router.show("/cut#s-1", true);
  assert.deepEqual([at.shown[1].params.secret, at.shown[1].params.hash, at.address], ["", "s-1", "/cut#s-1"]);
});

test("a link opens a screen here, unless it is for another page, file or tab", (t) => {
  browser(t, "/guide/air?step=2");
  const link = (href, more = {}) => {
    const url = new URL(href, "https://shop.local/guide/air");
    return { origin: url.origin, pathname: url.pathname, search: url.search, hash: url.hash, target: "", hasAttribute: () => false, ...more };
  };
  const click = (a, more = {}) => pathOfLink(/** @type {any} */ ({ target: { closest: () => a }, defaultPrevented: false, ctrlKey: false, metaKey: false, ...more }));
  assert.equal(click(link("/guide/torch?from=air#tip-size")), "/guide/torch?from=air#tip-size");
  assert.equal(click(link("/guide/air")), "/guide/air");
  for (const [why, a, more] of [
    ["no link", null], ["of this page", link("#trap")], ["another server", link("https://elsewhere.example/cut")], ["the server's own", link("/api/export")],
    ["a file", link("/cut", { hasAttribute: (name) => name === "download" })], ["another tab", link("/cut", { target: "_blank" })],
    ["another tab, by the key", link("/cut"), { ctrlKey: true }], ["by that of a Mac", link("/cut"), { metaKey: true }], ["taken already", link("/cut"), { defaultPrevented: true }],
  ]) assert.equal(click(a, more), null, why);
});
