// @ts-check
/**
 * The start of the app and the only module that knows all parts: it makes
 * them, hands them to the pages, and shows the page of the address.
 *
 * Order matters here: the first screen is painted from what the phone has
 * stored; the worker with the sums starts after that, or when the screen asks it.
 */
import { journal } from "./journal/page-journal.js"; // first: it has the database opened meanwhile
import { loadUnlessLeft, unlessLeft } from "./browser/leaving.js";
import { bridge } from "./calc/bridge.js";
import { call, calculate, sumsRun } from "./calc/calls.js";
import { scriptURL } from "./browser/trusted.js";
import { Alarm } from "./parts/alarm.js";
import { Chooser } from "./parts/chooser.js";
import { Drafts } from "./parts/drafts.js";
import { QuickEntries } from "./parts/quick-entries.js";
import { SyncBadge } from "./parts/sync-badge.js";
import { Pad } from "./parts/pad.js";
import { Settings } from "./parts/settings.js";
import { StatusBar } from "./parts/status-bar.js";
import { learnClock } from "./parts/times.js";
import { noteTouch } from "./parts/settled.js";
import { Toasts } from "./parts/toasts.js";
import { TextPrompt } from "./parts/text-prompt.js";
import { clone, afterPaint, make, noteClick, onActions, refs, markTouched } from "./parts/dom.js";
import { tellOfHomeScreen } from "./parts/home-screen.js";
import { isUpdate } from "./parts/app-update.js";
import { asTrouble } from "./calc/trouble.js";
import { Today } from "./today.js";
import { say, sayTrouble } from "./words/words.js";
import { pathOfLink, Router } from "./router.js";
import { CutPage } from "./pages/cut.js";
import { ReadyPage } from "./pages/ready.js";

/**
 * What every page gets. What it awaited may come back after it is gone: from then on it is asked
 * nothing, and it opens no screen. What a tap began to write is written all the same, and told.
 * @typedef {object} Deps
 * @property {AbortSignal} life   ends with the page: handed to all it listens to, and asked before what comes late is shown
 * @property {import("./journal/journal.js").Journal} journal
 * @property {typeof calculate} calculate
 * @property {typeof call} call
 * @property {typeof sumsRun} sumsRun  no tap waits for sums that have not started
 * @property {Settings} settings
 * @property {Drafts} drafts  what is half typed
 * @property {Today} today   what one screen tells another
 * @property {Pick<Pad, "ask">} pad
 * @property {Pick<Chooser, "ask">} chooser
 * @property {Pick<TextPrompt, "ask">} textPrompt
 * @property {Toasts} toasts
 * @property {Alarm} alarm
 * @property {(path: string) => void} go          opens a screen
 * @property {() => void} back  leaves the screen for the one before, or for its place
 * @property {(text: string) => void} title       sets the title, for screens that learn theirs late
 * @property {Asset} asset
 *
 * @typedef {import("./types/server.js").Assets & {[name: `gen/guide/${string}.json`]: import("./types/guides.js").Guide}} Assets
 * @typedef {<N extends keyof Assets>(name: N) => Promise<Assets[N]>} Asset
 *
 * @typedef {object} Page
 * @property {(params: Record<string, string>) => unknown} start  fills the element, which is its own, and listens
 * @property {() => void} [stop]  lets go of what is no listener; its life has ended
 *
 * @typedef {new (element: HTMLElement, deps: Deps) => Page} PageClass
 */

/** Addresses, the place each belongs to, its title and its page; server/screens_test.go holds server/routes.go to the same. */
const screens = /** @type {import("./router.js").Screen[]} */ ([
  [/^\/(?:ready)?$/, "ready", "ready", () => ReadyPage],
  [/^\/(?:gate|sum\/may-i-cut)$/, "ready", "gate", () => import("./pages/gate.js").then((m) => m.GatePage)],
  [/^\/(?:plan|sum\/cut-plan)$/, "ready", "plan", () => import("./pages/sum.js").then((m) => m.PlanPage)],
  [/^\/cut$/, "cut", "cut", () => CutPage],
  [/^\/(?:fix|sum\/fault-rank)$/, "fix", "fix", () => import("./pages/fix.js").then((m) => m.FixPage)],
  [/^\/book$/, "book", "book", () => import("./pages/book.js").then((m) => m.BookPage)],
  [/^\/session\/(?<id>[\w-]+)$/, "book", "session", () => import("./pages/session.js").then((m) => m.SessionPage)],
  [/^\/jobs$/, "book", "jobs", () => import("./pages/report.js").then((m) => m.ReportPage)],
  [/^\/job\/(?<id>[\w-]+)$/, "book", "job", () => import("./pages/job.js").then((m) => m.JobPage)],
  [/^\/book\/(?<report>[\w-]+)$/, "book", "report", () => import("./pages/report.js").then((m) => m.ReportPage)],
  [/^\/book\/(?<report>[\w-]+)\/(?<id>[\w-]+)$/, "book", "report", () => import("./pages/report.js").then((m) => m.ReportPage)],
  [/^\/rigs$/, "book", "rigs", () => import("./pages/rigs.js").then((m) => m.RigsPage)],
  [/^\/rig\/(?<id>[\w-]+)$/, "book", "rig", () => import("./pages/equipment.js").then((m) => m.RigPage)],
  [/^\/site\/(?<id>[\w-]+)$/, "book", "site", () => import("./pages/equipment.js").then((m) => m.SitePage)],
  [/^\/join$/, "book", "join", () => import("./pages/join.js").then((m) => m.JoinPage)],
  [/^\/devices$/, "book", "devices", () => import("./pages/devices.js").then((m) => m.DevicesPage)],
  [/^\/share$/, "book", "share", () => import("./pages/share.js").then((m) => m.SharePage)],
  [/^\/settings$/, "book", "settings", () => import("./pages/settings.js").then((m) => m.SettingsPage)],
  [/^\/sums$/, "ready", "sums", () => import("./pages/sums.js").then((m) => m.SumsPage)],
  [/^\/(?:sum\/)?photo-gauge$/, "cut", "photo-gauge", () => import("./pages/photo-gauge.js").then((m) => m.PhotoGaugePage)],
  [/^\/pace$/, "cut", "pace", () => import("./pages/pace.js").then((m) => m.PacePage)],
  [/^\/(?:rig-card|sum\/rig-table)$/, "ready", "rig-card", () => import("./pages/rig-card.js").then((m) => m.RigCardPage)],
  [/^\/sum\/(?<name>[\w-]+)$/, "ready", "sum", () => import("./pages/sum.js").then((m) => m.SumPage)],
  [/^\/search$/, "ready", "search", () => import("./pages/search.js").then((m) => m.SearchPage)],
  [/^\/guides$/, "ready", "guides", () => import("./pages/guides.js").then((m) => m.GuidesPage)],
  [/^\/guide\/(?<id>[\w-]+)$/, "ready", "guide", () => import("./pages/guide.js").then((m) => m.GuidePage)],
  [/^\/worst-day$/, "", "worst-day", () => import("./pages/guide.js").then((m) => m.WorstDayPage)],
  [/^\/glove-test$/, "book", "glove-test", () => import("./pages/glove-test.js").then((m) => m.GloveTestPage)],
]);

/** What stands at an address that no screen has. @type {import("./router.js").Screen} */
const unknown = [/^/, "", "unknown", () => class {
  /** @param {HTMLElement} element */
  constructor(element) {
    this.element = element;
  }

  start() {
    this.element.append(make("p", { text: say("unknown", { address: location.pathname }) }), make("a", { class: "button button--primary", href: "/ready", text: say("title.ready") }));
    this.element.className = "stack";
  }
}];

const frame = refs(document.body);
const { localState } = journal;
const settings = new Settings(localState);
const drafts = new Drafts(localState);
const today = new Today(localState);
const toasts = new Toasts(frame.toasts);

/** @type {Map<string, Promise<unknown>>} */
const assets = new Map();

const parts = { pad: new Pad(), chooser: new Chooser(), textPrompt: new TextPrompt(drafts) };
const deps = { journal, calculate, call, sumsRun, settings, drafts, today, toasts, alarm: new Alarm(), asset };

/** How long the first screen may take before the rest of the app starts all the same, ms. */
const patience = 5000;
/** After so many ms nobody waits for the start any more. */
const calm = 10_000;

/** The life of what is no page. */
const always = new AbortController().signal;
const statusBar = new StatusBar(depsFor(always), frame.statusBar);

/** @type {Page|null} */
let page = null;
let life = new AbortController();
const router = new Router(screens, unknown, { open, lost });

/** @param {AbortSignal} life @returns {Deps} */
function depsFor(life) {
  /** @type {<Q>(part: {ask: (question: Q) => Promise<string|null>}) => {ask: (question: Q) => Promise<string|null>}} */
  const asking = (part) => ({ ask: (question) => (life.aborted ? Promise.resolve(null) : part.ask(question)) });
  return {
    ...deps, life, pad: asking(parts.pad), chooser: asking(parts.chooser), textPrompt: asking(parts.textPrompt),
    go: (path) => void (life.aborted || router.show(path, true)),
    back: () => void (life.aborted || router.back()),
    title: (text) => void (life.aborted || titleTo(text)),
  };
}

/**
 * A JSON file made by the server, such as "gen/calculators.json".
 * @template {keyof Assets} N @param {N} name
 * @returns {Promise<Assets[N]>}
 */
function asset(name) {
  const gone = { kind: "not-found", msg: say("asset.gone"), hint: say("asset.reload") };
  const known = assets.get(name) ?? unlessLeft(fetch(document.documentElement.dataset.assets + name).then((r) => (r.ok ? r.json() : Promise.reject()))).catch(() => Promise.reject(gone));
  assets.set(name, known);
  known.catch(() => assets.delete(name));
  return /** @type {Promise<Assets[N]>} */ (known);
}

/** Makes a screen that was found and loaded the one that is shown. @param {import("./router.js").Found} found */
async function open({ Class, place, title, params, path }) {
  const host = hostAnew();
  frameTo(place, title);
  page = new Class(host, depsFor(life.signal));
  scrollTo(0, 0);
  statusBar.look();
  await begin(page, host, params, path);
}

/** The file of a screen could not be had. @param {URL} url @param {boolean} push  it was asked for from another screen, which stays */
function lost(url, push) {
  if (page && push) toasts.show(say("page.gone"), { bad: true });
  else hostAnew().append(troubled({ msg: say("page.gone") }, () => location.assign(url)));
}

/** Ends the page that is shown; the next gets an element and a life of its own. */
function hostAnew() {
  life.abort();
  page?.stop?.();
  toasts.leavePage();
  for (const part of Object.values(parts)) part.leave();
  life = new AbortController();
  const host = make("div");
  frame.main.replaceChildren(host);
  return host;
}

/** Starts a page; what it could not read is said above what it has. @param {Page} page @param {HTMLElement} host @param {Record<string, string>} params @param {string} path */
async function begin(page, host, params, path) {
  const { signal } = life;
  host.setAttribute("aria-busy", "true");
  try {
    await page.start(params);
  } catch (trouble) {
    if (!signal.aborted) host.prepend(troubled(asTrouble(trouble, say("page.trouble"), say("page.trouble.hint")), () => router.show(path)));
  }
  host.removeAttribute("aria-busy");
}

/** @param {{msg: string, hint?: string}} trouble @param {() => unknown} again */
function troubled(trouble, again) {
  const root = clone("part-trouble");
  refs(root).what.textContent = sayTrouble(trouble);
  onActions(root, { again });
  return root;
}

/** @param {string} place @param {string} title */
function frameTo(place, title) {
  titleTo(say(`title.${title}`));
  const top = ["ready", "cut", "fix", "book"].includes(title);
  frame.back.hidden = top;
  frame.search.hidden = !top; // below the top there is no room for it beside the title
  for (const el of document.querySelectorAll(".bar__place")) {
    if (/** @type {HTMLElement} */ (el).dataset.place === place) el.setAttribute("aria-current", "page");
    else el.removeAttribute("aria-current");
  }
}

/** @param {string} text */
function titleTo(text) {
  frame.title.textContent = text;
  document.title = say("title.page", { text });
}

document.addEventListener("click", (event) => {
  const path = pathOfLink(event);
  if (path === null) return;
  event.preventDefault();
  router.show(path, true);
  frame.main.focus({ preventScroll: true });
});
document.addEventListener("input", markTouched, { capture: true });
document.addEventListener("click", noteClick, { capture: true });
for (const type of /** @type {const} */ (["pointerdown", "pointerup", "pointercancel"])) document.addEventListener(type, noteTouch, { capture: true });
frame.back.addEventListener("click", () => router.back());
history.scrollRestoration = "manual"; // what closes over a page takes its step back, and the page stays where it is now
addEventListener("popstate", (event) => router.popped(event));

addEventListener("pageshow", (event) => {
  if (!event.persisted) return;
  // Out of the browser's memory, the page as it was: other tabs may have written meanwhile.
  for (const what of ["change", "views"]) journal.dispatchEvent(new CustomEvent(what, { detail: {} }));
});

settings.addEventListener("change", async (event) => {
  const changed = /** @type {CustomEvent} */ (event).detail;
  const { device } = await journal.read([]);
  if (device) await journal.tap({ kind: "setting.set", about: device, body: changed }).catch(() => {}); // "trouble" tells it
});
/** A phone that has lost its own settings is given those that the journal knows. */
async function restoreSettings() {
  if (settings.any) return;
  const { views, device } = await journal.read(["settings"]);
  const known = views.settings?.devices?.[device];
  if (!known || settings.any) return;
  settings.restore(known.fields);
  router.again();
}
journal.addEventListener("views", restoreSettings);
localState.addEventListener("corrected", () => router.again()); // after a kill: localStorage had not been written yet

journal.addEventListener("trouble", (event) => {
  const { detail } = /** @type {CustomEvent} */ (event);
  if (detail.kind === "emptied") toasts.show(sayTrouble(detail), { bad: true, stay: 600_000, action: say("emptied.read"), undo: () => {} }); // nobody may miss it
  else if (detail.kind === "cut-off") toasts.show(sayTrouble(detail));
  else toasts.problem(detail);
});
bridge.addEventListener("ready", () => new QuickEntries(depsFor(always)).takeUp()); // what was tapped before the sums ran
journal.addEventListener("stuck", (event) => {
  const { detail } = /** @type {CustomEvent} */ (event);
  frame.stuck.hidden = !detail;
  frame.stuck.textContent = detail ? sayTrouble(detail) : "";
});
journal.addEventListener("moved", () => loadAgain({ moved: true })); // what was typed is kept
journal.addEventListener("outdated", () => {
  if (!drafts.any) loadAgain();
});

/**
 * Loads the app anew, after the worker has ended; not if the page is left for another meanwhile.
 * @param {{moved?: boolean}} [why]  moved: into a crew or out of one
 */
function loadAgain({ moved = false } = {}) {
  return loadUnlessLeft({
    ready: () => registered.then(() => Promise.all([bridge.leave(), journal.settled(), localState.settled()])),
    stay: () => bridge.back(), // until the other page comes
    load: () => (moved && location.pathname === "/join" ? location.replace("/devices") : location.reload()),
  });
}

/**
 * Settles with the registering that is under way. A WebKit whose page is left just then never installs the service worker,
 * nor takes another, until the browser is closed.
 * @type {Promise<unknown>}
 */
let registered = Promise.resolve();

/** Registers the service worker; tells once when all works offline, and offers a new version when one waits. */
async function workOffline() {
  if (!navigator.serviceWorker) return;
  const before = navigator.serviceWorker.controller;
  const registering = navigator.serviceWorker.register(/** @type {string} */ (scriptURL("/sw.js")));
  registered = registering.catch(() => {});
  const registration = await registering;
  const offer = () => {
    if (!isUpdate(registration.waiting, navigator.serviceWorker.controller)) return;
    toasts.show(say("update.ready"), { action: say("update.take"), stay: 600_000, undo: () => registration.waiting?.postMessage("take over") });
  };
  registration.addEventListener("updatefound", () => {
    const next = registration.installing;
    next?.addEventListener("statechange", () => next.state === "installed" && offer());
  });
  offer();
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    // The event of the first worker may come after it was seen above: only another one is news.
    if (before && navigator.serviceWorker.controller !== before) loadAgain();
  });
  await navigator.serviceWorker.ready;
  document.documentElement.dataset.offline = "ready";
  if (!before) toasts.show(say("offline.ready"));
}

/** @param {EventTarget} target @param {string} type */
const first = (target, type) => new Promise((resolve) => target.addEventListener(type, resolve, { once: true }));

/**
 * Shows the first screen, then starts the rest. No await at the top of the module: the other files
 * of the app import from the one that it is in.
 * @returns {Promise<{home: Promise<void>}>}  once the journal starts; home: settles when what was lost is back
 */
async function start() {
  const asked = first(bridge, "started");
  localState.start().catch(() => {}); // what localStorage has stands
  const shown = router.again();
  new SyncBadge(frame, journal).start();
  const stuck = first(journal, "stuck");
  // The first read follows the phone where localStorage lags behind; once the journal has started that takes a load.
  const known = Promise.race([statusBar.start(always).catch(() => {}), stuck]);
  const useful = Promise.race([shown, stuck]).then(() => {
    performance.mark("kerfside:useful");
    frame.tooOld?.remove(); // not where index.html knows what is lacking
  });
  // What keeps the taps does not wait for a screen that itself waits, for the sums or a network.
  await Promise.race([useful, asked, new Promise((resolve) => setTimeout(resolve, patience))]);
  await known;
  await afterPaint(); // what follows takes the time of the browser
  bridge.start();
  const home = journal.start();
  setTimeout(learnClock, calm);
  tellOfHomeScreen(depsFor(always));
  unlessLeft(workOffline()).catch(() => toasts.show(say("offline.no"), { bad: true }));
  return { home };
}

const started = start();

export { call, journal, localState, started };
