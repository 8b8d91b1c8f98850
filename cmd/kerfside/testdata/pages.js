// Walks from every page of the app to every other in one document, for
// TestBrowserPagesEnd, and tells what a page that is gone still hears or does.
(() => {
  const main = document.querySelector("main");
  const found = new Set();
  let step = 0;
  let at = location.pathname;

  // Every listener that is there, with the step of the walk in which it came.
  /** @type {Set<{target: EventTarget, type: string, listener: any, step: number, page: string}>} */
  const there = new Set();
  const { addEventListener: add, removeEventListener: remove } = EventTarget.prototype;
  EventTarget.prototype.addEventListener = function (type, listener, options) {
    const signal = options?.signal;
    if (listener && !signal?.aborted && !(this instanceof AbortSignal)) {
      const one = { target: this ?? window, type, listener, step, page: at };
      there.add(one);
      if (signal) add.call(signal, "abort", () => there.delete(one), { once: true });
      if (options?.once) add.call(this ?? window, type, () => there.delete(one), { once: true });
    }
    return add.call(this ?? window, type, listener, options);
  };
  EventTarget.prototype.removeEventListener = function (type, listener, options) {
    for (const one of there) if (one.target === (this ?? window) && one.type === type && one.listener === listener) there.delete(one);
    return remove.call(this ?? window, type, listener, options);
  };

  /** Whether something outlives the page: all but what stands on it. @param {EventTarget} target */
  const outlives = (target) => !(target instanceof Node) || (target.isConnected && (target === main || !main.contains(target)));
  const left = () => {
    for (const one of there) if (one.step < step && outlives(one.target)) found.add(`${one.page} still hears ${one.type} of ${one.target.constructor.name} on ${at}`);
  };

  // What a tap can do: store, keep a draft or a setting, say something, ask something, go elsewhere.
  const done = [];
  for (const [thing, names] of [[kerfside.journal, ["tap", "startArc", "stopArc", "exportText", "importText", "syncNow"]], [Storage.prototype, ["setItem", "removeItem"]], [HTMLDialogElement.prototype, ["showModal"]], [History.prototype, ["pushState", "back"]], [window, ["print"]]]) {
    for (const name of names) {
      const was = thing[name];
      thing[name] = function (...given) {
        done.push(name);
        return was.apply(this, given);
      };
    }
  }
  const toasts = document.querySelector("[data-ref=toasts]");
  new MutationObserver((changes) => changes.some(({ addedNodes }) => addedNodes.length) && done.push("toast")).observe(toasts, { childList: true });

  // A screen reader lists headings: one that has no words yet is not there yet.
  const unnamed = () => [...main.querySelectorAll(":is(h1, h2, h3, h4):empty:not([hidden], [hidden] *)")].filter((el) => getComputedStyle(el).display !== "none");
  new MutationObserver(() => unnamed().forEach((el) => found.add(`on ${at} a heading has no words: ${el.outerHTML}`))).observe(main, { childList: true, subtree: true });

  const actions = new Set();
  const learn = (root) => {
    for (const el of root.querySelectorAll("[data-action]")) actions.add(el.dataset.action);
    for (const template of root.querySelectorAll("template")) learn(template.content);
  };

  /** Taps a button of every action any page has ever had, where no page of now listens. */
  const probe = async () => {
    learn(document);
    for (const action of actions) {
      const button = document.createElement("button");
      button.dataset.action = action;
      main.append(button);
      done.length = 0;
      button.click();
      button.remove();
      await null;
      if (done.length) found.add(`on ${at} a page that is gone answers ${action}: ${done.join(", ")}`);
    }
  };

  document.querySelector(".frame").style.display = "none"; // nothing is looked at, so nothing is laid out
  const turn = () => new Promise((resolve) => setTimeout(resolve));
  /** @param {string} path */
  const go = (path) => {
    step++;
    at = path;
    const link = document.body.appendChild(Object.assign(document.createElement("a"), { href: path }));
    link.click();
    link.remove();
  };
  /** @param {string} path */
  const shown = async (path) => {
    while (location.pathname !== path || !main.firstElementChild?.children.length || main.querySelector("[aria-busy]")) await turn();
  };

  return {
    /** Goes there, and looks once the page has started. */
    async visit(path) {
      go(path);
      await shown(path);
      left();
      await probe();
    },
    /** Goes through all as fast as they show, so that each leaves while it starts. */
    async hurry(paths) {
      for (const path of paths) {
        go(path);
        while (location.pathname !== path) await turn();
      }
      await shown(paths.at(-1));
      left();
      await probe();
    },
    found: () => [...found],
  };
})()
