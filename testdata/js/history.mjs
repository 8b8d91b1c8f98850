// A browser at an address, with its history, for tests of the router and of what lies over a page.
import { setGlobals } from "./globals.mjs";
import { Router } from "../../pwa/router.js";

class Ready {}
class Book {}
class Cut {}
class Unknown {}
class Join {}

/** With a router that has these late screens, and the state that the first step is found with. */
export function browser(t, at, late = {}, state = null) {
  const base = "https://shop.local";
  const stack = [{ url: new URL(at, base), state: /** @type {any} */ (state) }];
  let here = 0;
  const shown = [];
  const lost = [];
  let between = () => {};
  const set = (state, url) => ({ state, url: new URL(url, stack[here].url) });
  const move = (by) => {
    if (!stack[here + by]) return;
    here += by;
    const [happened, { state }] = [between, stack[here]];
    between = () => {};
    happened(); // the state has come, its event not yet
    router.popped(/** @type {any} */ ({ state }));
  };
  setGlobals(t, {
    addEventListener() {},
    location: new Proxy({}, { get: (_, name) => stack[here].url[name] }),
    history: {
      go: (by) => setImmediate(() => move(by)),
      get state() { return stack[here].state; },
      pushState(state, _, url) { stack.splice(here + 1, Infinity, set(state, url ?? stack[here].url)), here++; },
      replaceState(state, _, url) { stack[here] = set(state, url ?? stack[here].url); },
      back: () => move(-1),
    },
  });
  const start = () => new Router(/** @type {any} */ ([
    [/^\/(?:ready)?$/, "ready", "ready", () => Ready],
    [/^\/cut$/, "cut", "cut", () => Cut],
    [/^\/join$/, "book", "join", () => Join],
    [/^\/book$/, "book", "book", () => Book],
    ...Object.entries(late).map(([name, load]) => [new RegExp(`^/${name}/(?<id>[\\w-]+)$`), "book", name, load]),
  ]), /** @type {any} */ ([/^/, "", "unknown", () => Unknown]), { open: async ({ Class, ...found }) => void shown.push({ name: Class.name, ...found }), lost: (url, push) => lost.push([url.pathname, push]) });
  let router = start();
  return {
    get router() { return router; }, reload: () => (router = start()), shown, lost, move, names: () => shown.map(({ name }) => name), get address() { return stack[here].url.href.slice(base.length); },
    /** What happens once after the history has come somewhere and before the page hears of it. */ set between(happens) { between = happens; },
    entries: () => stack.map(({ url }) => url.pathname), get state() { return stack[here].state; },
  };
}
