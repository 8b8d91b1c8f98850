// @ts-check
// How the guide screens fill their templates.
import { setText } from "../parts/dom.js";
import { english } from "../words/guides.js";
import { own } from "../words/words.js";

/**
 * The single element inside a template, cloned. What has data-say gets the words
 * of that key, what has data-say-label is called by them.
 * @param {string} id
 * @returns {HTMLElement}
 */
export function clone(id) {
  const template = document.getElementById(id);
  if (!(template instanceof HTMLTemplateElement) || !template.content.firstElementChild) {
    throw new Error(`no template ${id}`);
  }
  const root = /** @type {HTMLElement} */ (document.importNode(template.content.firstElementChild, true));
  for (const element of [root, .../** @type {NodeListOf<HTMLElement>} */ (root.querySelectorAll("[data-say], [data-say-label]"))]) {
    if (element.dataset.say) element.textContent = wordsOf(element.dataset.say);
    if (element.dataset.sayLabel) element.setAttribute("aria-label", wordsOf(element.dataset.sayLabel));
  }
  return root;
}

/** @param {string} key */
function wordsOf(key) {
  const words = own(/** @type {Record<string, unknown>} */ (english), key);
  if (typeof words !== "string") throw new Error(`no words for ${key}`);
  return words;
}

/**
 * The element inside root with that data-ref.
 * @param {Element} root @param {string} name
 * @returns {HTMLElement}
 */
export function ref(root, name) {
  const found = root.querySelector(`[data-ref="${name}"]`);
  if (!found) throw new Error(`no data-ref ${name}`);
  return /** @type {HTMLElement} */ (found);
}

/**
 * Fills the words of several data-refs.
 * @param {Element} root @param {Record<string, string>} words
 */
export function fill(root, words) {
  for (const [name, text] of Object.entries(words)) setText(ref(root, name), text);
}
