// @ts-check
// How the guide screens fill their templates.
import { setText } from "../parts/dom.js";

/**
 * The single element inside a template, cloned.
 * @param {string} id
 * @returns {HTMLElement}
 */
export function clone(id) {
  const template = document.getElementById(id);
  if (!(template instanceof HTMLTemplateElement) || !template.content.firstElementChild) {
    throw new Error(`no template ${id}`);
  }
  return /** @type {HTMLElement} */ (document.importNode(template.content.firstElementChild, true));
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
