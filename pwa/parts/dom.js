// @ts-check
/**
 * The few things every part needs of the document: templates, references and
 * elements made by hand. Text only ever goes in as text.
 */
import { own } from "../words/words.js";

/**
 * Clones the first element of a <template>.
 * @param {string} id
 * @returns {HTMLElement}
 */
export function clone(id) {
  const template = /** @type {HTMLTemplateElement} */ (document.getElementById(id));
  return /** @type {HTMLElement} */ (template.content.firstElementChild?.cloneNode(true));
}

/**
 * Elements by their data-ref. Which kind one is, its template says: here it has what any of the kinds has.
 * @typedef {Record<string, HTMLInputElement & HTMLDialogElement & HTMLCanvasElement & HTMLDetailsElement & HTMLAnchorElement>} Refs
 */

/**
 * The elements below root that carry data-ref, by that name.
 * @param {HTMLElement} root
 * @returns {Refs}
 */
export function refs(root) {
  /** @type {Record<string, unknown>} */
  const found = {};
  for (const el of /** @type {NodeListOf<HTMLElement>} */ (root.querySelectorAll("[data-ref]"))) found[String(el.dataset.ref)] = el;
  return /** @type {Refs} */ (found);
}

/**
 * Makes an element. Keys of attributes that start with "on" are listeners;
 * "class" and "text" do what they say; null and false leave an attribute out.
 * @template {keyof HTMLElementTagNameMap} T
 * @param {T} tag
 * @param {Record<string, any>} [attributes]
 * @param {...(Node|string|null|undefined|false)} children
 * @returns {HTMLElementTagNameMap[T]}
 */
export function make(tag, attributes = {}, ...children) {
  const el = document.createElement(tag);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (key === "class") el.className = value;
    else if (key === "text") el.textContent = value;
    else if (key.startsWith("on")) el.addEventListener(key.slice(2), value);
    else el.setAttribute(key, value === true ? "" : String(value));
  }
  for (const child of children) if (child) el.append(child);
  return el;
}

/**
 * Puts a text into a control, in place of the one it has, which stays: WebKit drops the click of a
 * mouse that was pressed on a text which is gone when it is let go.
 * @param {Element} el @param {string} text
 */
export function setText(el, text) {
  const [only, ...others] = el.childNodes;
  if (only?.nodeType !== 3 || others.length > 0) el.textContent = text;
  else if (only.nodeValue !== text) only.nodeValue = text;
}

/** Marks a control as touched once somebody has typed there; app.js hears it for the whole document. @param {Event} event */
export function markTouched({ target }) {
  if (target instanceof HTMLElement) target.dataset.touched = "";
}

/**
 * Puts what is stored into a control. Where somebody has typed, what was typed stands: it may have been
 * read from the disk for longer than a thumb takes.
 * @param {HTMLInputElement} control
 * @param {string} text
 */
export function fill(control, text) {
  if (!("touched" in control.dataset)) control.value = text;
}

/**
 * Calls the handler for clicks on [data-action] below root, by action.
 * @param {HTMLElement} root
 * @param {Record<string, (el: HTMLElement, event: MouseEvent) => unknown>} actions
 */
export function onActions(root, actions) {
  root.addEventListener("click", (event) => {
    const el = /** @type {HTMLElement|null} */ (/** @type {HTMLElement} */ (event.target).closest("[data-action]"));
    const action = el && root.contains(el) ? own(actions, String(el.dataset.action)) : undefined;
    if (el && action) action(el, event);
  });
}

/** What was clicked last, and how often that was another control than before. */
const clicks = { last: /** @type {unknown} */ (null), turns: 0 };

/** Notes a click; app.js hears them for the whole document. @param {Event} event */
export function noteClick({ target }) {
  const el = /** @type {HTMLElement|null} */ (/** @type {HTMLElement} */ (target).closest("[data-action], button, a"));
  const clicked = el?.dataset.action ?? el; // a list that is painted anew has the same action on another element
  if (clicked !== clicks.last) clicks.turns++;
  clicks.last = clicked;
}

/**
 * An action that writes: a press while it is under way, or within the moment that a glove bounces, is the
 * same press; not if another control was pressed between, such as Undo.
 * @template {unknown[]} A
 * @param {(...given: A) => unknown} work
 * @param {number} [bounce]  ms after a press; 0 for an action that opens a dialog, which covers its button
 * @returns {(...given: A) => Promise<void>}
 */
export function onePress(work, bounce = 350) {
  let isBusy = false;
  let pressed = -Infinity;
  let turn = clicks.turns;
  return async (...given) => {
    if (isBusy || (turn === clicks.turns && performance.now() - pressed < bounce)) return;
    isBusy = true;
    pressed = performance.now();
    turn = clicks.turns;
    try {
      await work(...given);
    } finally {
      isBusy = false;
    }
  };
}

/** The longest that a frame is waited for, ms. */
const longestFrame = 500;

/** Resolves when what was shown last is drawn; at once while nobody sees it. @returns {Promise<void>} */
export function afterPaint() {
  if (document.visibilityState !== "visible") return Promise.resolve();
  return new Promise((resolve) => {
    requestAnimationFrame(() => setTimeout(resolve)); // after the frame that is about to be drawn
    setTimeout(resolve, longestFrame);
  });
}

/**
 * Brings what has just opened wholly into view, clear of strip, dock and bar (scroll-padding in css/frame.css);
 * of what is higher than the screen its begin.
 * @param {Element} el
 */
export function bringUp(el) {
  const isHigh = el.getBoundingClientRect().height > document.documentElement.clientHeight / 2; // of which "nearest" would show the end, from below
  el.scrollIntoView({ block: isHigh ? "start" : "nearest" });
}

/** What is wrong and what to do, for a place that tells it. @param {{msg: string, hint?: string}|null|undefined} trouble */
export function wrongWords(trouble) {
  return trouble ? [trouble.msg, make("span", { text: trouble.hint ?? "" })] : [];
}

/**
 * Brings the first thing that is wrong below root to the eye, out of its fold, and the keys to its control.
 * For what was wrong when a button was tapped: while somebody types nothing moves.
 * @param {Element} root
 */
export function showWrong(root) {
  const wrong = [.../** @type {NodeListOf<HTMLElement>} */ (root.querySelectorAll(".wrong"))].find((el) => !el.hidden && el.textContent);
  if (!wrong) return;
  wrong.closest("details")?.setAttribute("open", "");
  const tied = wrong.id ? root.querySelector(`[aria-describedby="${wrong.id}"]`) : null;
  const field = (tied ?? wrong).closest(".field") ?? wrong;
  /** @type {HTMLElement|null} */ (field.querySelector("button, input, textarea"))?.focus({ preventScroll: true });
  for (const el of new Set([wrong, field])) bringUp(el);
}

/**
 * Tells the page above that something happened.
 * @param {HTMLElement} el
 * @param {string} type
 * @param {unknown} [detail]
 */
export function emit(el, type, detail) {
  el.dispatchEvent(new CustomEvent(type, { bubbles: true, detail }));
}

/**
 * A yellow or red strip with a caution.
 * @param {string} text
 * @param {boolean} [stop]
 */
export function caution(text, stop = false) {
  return make("p", { class: stop ? "caution caution--stop" : "caution" }, make("span", { text }));
}
