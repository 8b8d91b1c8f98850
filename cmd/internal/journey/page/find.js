// @ts-check
// Finding a control by what a person calls it, and the spot to touch.

/** The controls in an element that can be seen. @param {Element} root */
function controlsIn(root) {
  return [...root.querySelectorAll(CONTROLS)].filter((element) => isVisible(element) && !element.closest("[inert]"));
}

/** How well a name fits, 0 best, or -1. @param {string} name @param {string} wanted */
function fit(name, wanted) {
  if (name === wanted) return 0;
  const [low, want] = [name.toLowerCase(), wanted.toLowerCase()];
  if (low === want) return 1;
  const bounded = (/** @type {number} */ at) => at >= 0 && !/[\p{L}\p{N}]/u.test(low[at - 1] ?? " ") && !/[\p{L}\p{N}]/u.test(low[at + want.length] ?? " ");
  if (low.startsWith(want) && bounded(0)) return 2;
  return bounded(low.indexOf(want)) ? 3 : -1;
}

/**
 * The one control that is meant. Throws when there is none or more than one.
 * @param {string} wanted name, "name #2" or "@ref"
 * @param {Element} root
 */
function control(wanted, root = stage()) {
  const [, name, number] = /** @type {RegExpMatchArray} */ (wanted.match(/^(.*?)(?: #(\d+))?$/s));
  let found = /** @type {Element[]} */ ([]);
  if (name.startsWith("@")) {
    const ref = CSS.escape(name.slice(1));
    found = [...root.querySelectorAll(`[data-ref~="${ref}"], [data-action~="${ref}"]`)].filter(isVisible);
  } else {
    const ranked = controlsIn(root).map((element) => ({ element, rank: fit(nameOf(element), plain(name)) }));
    const best = Math.min(...ranked.filter((one) => one.rank >= 0).map((one) => one.rank));
    found = outer(ranked.filter((one) => one.rank === best).map((one) => one.element));
  }
  if (number) found = found.slice(Number(number) - 1, Number(number));
  if (found.length === 1) return found[0];
  if (found.length === 0) throw new Error(`no control ${wanted}; there are: ${controlsIn(root).map(nameOf).join(" | ")}`);
  throw new Error(`${found.length} controls are called ${wanted}: ${found.map(nameOf).join(" | ")}; say which with #1, #2`);
}

/**
 * A label and the control it names are one thing, and so is a control within
 * another. Fields for text stand for themselves; a tick or a choice, which may
 * not be drawn, is touched by its label.
 * @param {Element[]} found
 */
function outer(found) {
  const set = new Set(found);
  for (const element of found) {
    if (element instanceof HTMLLabelElement && element.control && set.has(element.control)) {
      const tick = element.control instanceof HTMLInputElement && /^(radio|checkbox)$/.test(element.control.type);
      set.delete(tick ? element.control : element);
    }
  }
  for (const element of [...set]) {
    for (let up = element.parentElement; up; up = up.parentElement) if (set.has(up)) set.delete(element);
  }
  return [...set];
}

/** The next frame of the page. */
function frame() {
  return new Promise((resolve) => requestAnimationFrame(resolve));
}

/**
 * Where an element can be touched: brought into view, standing still, and
 * nothing lies over it.
 * @param {Element} element
 */
async function touchable(element) {
  if (element.matches(":disabled, [aria-disabled=true]")) throw new Error(`${nameOf(element)} is disabled`);
  element.scrollIntoView({ block: "center", inline: "center", behavior: "instant" });
  await frame();
  const before = element.getClientRects()[0];
  await frame();
  const box = element.getClientRects()[0];
  if (!before || !box || before.x !== box.x || before.y !== box.y || before.width !== box.width) throw new Error(`${nameOf(element)} is moving`);
  const x = (Math.max(box.left, 0) + Math.min(box.right, innerWidth)) / 2;
  const y = (Math.max(box.top, 0) + Math.min(box.bottom, innerHeight)) / 2;
  const hit = document.elementFromPoint(x, y);
  if (!hit || !belongs(hit, element)) throw new Error(`${nameOf(element)} is covered by ${hit ? describe(hit) : "nothing that can be touched"}`);
  // A page that is wider than the screen is shown smaller, and a finger only knows the glass.
  const glass = /** @type {VisualViewport} */ (visualViewport);
  watchForTouch(element);
  return { X: (x - glass.offsetLeft) * glass.scale, Y: (y - glass.offsetTop) * glass.scale };
}

/** Whether a touch of hit is one of element. @param {Element} hit @param {Element} element */
function belongs(hit, element) {
  return element.contains(hit) || hit.closest("label")?.control === element;
}

/** Where the page keeps what it has felt since the last spot was found. */
const FELT = Symbol.for("journey.felt");

/**
 * Notes the next touch of the glass, to its click. One that hits something else, because the
 * page has moved since, is kept from it and counts as missed.
 * @param {Element} element
 */
function watchForTouch(element) {
  const page = /** @type {any} */ (globalThis);
  page[FELT]?.listening.abort();
  const felt = (page[FELT] = { came: "no", listening: new AbortController() });
  const options = { capture: true, passive: false, signal: felt.listening.signal };
  const come = (/** @type {Event} */ event, /** @type {string} */ next) => {
    if (event.type === "click" && felt.came === "no") return; // of an earlier touch, or of a script
    felt.came = felt.came === "missed" || !belongs(/** @type {Element} */ (event.target), element) ? "missed" : next;
    if (felt.came === "missed") stop(event);
    if (event.type === "click" || felt.came === "missed" && /^touch(end|cancel)$/.test(event.type)) felt.listening.abort();
  };
  // Where a mouse is the finger its click follows in the same task, and is kept from what was not meant. There is
  // none where what it was pressed on has gone somewhere else: then there is nothing to wait for.
  // A finger's touch follows its pointer, which may have an effect of its own.
  const point = (/** @type {PointerEvent} */ event, /** @type {string} */ next) => {
    if (event.pointerType === "mouse") {
      come(event, next);
      if (event.type === "pointerup" && felt.came === "missed") setTimeout(() => felt.listening.abort());
      return;
    }
    if (event.type === "pointerdown" && !belongs(/** @type {Element} */ (event.target), element)) felt.came = "missed";
    if (felt.came === "missed") stop(event);
  };
  addEventListener("pointerdown", (event) => point(event, "begun"), options);
  addEventListener("pointerup", (event) => point(event, "ended"), options);
  addEventListener("touchstart", (event) => come(event, "begun"), options);
  addEventListener("touchend", (event) => come(event, "ended"), options);
  addEventListener("touchcancel", (event) => come(event, "missed"), options); // there is no click
  addEventListener("click", (event) => come(event, "yes"), options);
}

/** Keeps an event from everything. @param {Event} event */
function stop(event) {
  event.preventDefault();
  event.stopImmediatePropagation();
}

/**
 * What came of the touch: "no", "begun", "ended", and after its click "yes", also when it led to
 * another document; or "missed", once there is nothing more to be kept from what it hit.
 */
function felt() {
  const felt = /** @type {any} */ (globalThis)[FELT];
  if (!felt) return "yes";
  return felt.came === "missed" && !felt.listening.signal.aborted ? "begun" : felt.came;
}

/** An element in a message. @param {Element} element */
function describe(element) {
  const name = plain(element.textContent ?? "").slice(0, 40);
  const mark = element.getAttribute("data-ref") ?? element.getAttribute("data-action") ?? element.getAttribute("class") ?? "";
  return `<${element.localName}${mark ? ` ${mark}` : ""}>${name ? ` "${name}"` : ""}`;
}

/** Where a control can be touched. @param {string} name */
function spot(name) {
  return touchable(control(name));
}

/** A spot of a control away from its middle, in hundredths of its width. @param {string} name @param {number} right @param {number} down */
async function spotOf(name, right, down) {
  const element = control(name);
  const { X, Y } = await touchable(element);
  const { scale } = /** @type {VisualViewport} */ (visualViewport);
  return { X: X + (right / 100) * element.clientWidth * scale, Y: Y + (down / 100) * element.clientWidth * scale };
}

/** The same within a group of controls. @param {string} group @param {string} name */
function spotIn(group, name) {
  return touchable(control(name, groupOf(group)));
}

/** A group of choices by its name. @param {string} name */
function groupOf(name) {
  const groups = [...stage().querySelectorAll("fieldset, [role=group], [role=radiogroup], [role=listbox]")].filter(isVisible);
  const ranked = groups.map((element) => ({ element, rank: fit(groupName(element), plain(name)) })).filter((one) => one.rank >= 0);
  ranked.sort((a, b) => a.rank - b.rank);
  if (ranked.length === 0) throw new Error(`no group ${name}; there are: ${groups.map(groupName).join(" | ")}`);
  return ranked[0].element;
}

/** The name of a group. @param {Element} element */
function groupName(element) {
  const legend = element.querySelector(":scope > legend");
  if (legend) return plain(legend.textContent ?? "");
  const ids = element.getAttribute("aria-labelledby");
  if (ids) return plain(ids.split(/\s+/).map((id) => document.getElementById(id)?.textContent ?? "").join(" "));
  return plain(element.getAttribute("aria-label") ?? "");
}
