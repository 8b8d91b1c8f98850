// @ts-check
/**
 * Finds words by key. Another language is another file like en.js; the one in
 * use is picked here and nowhere else.
 */
import { en } from "./en.js";

/** @type {Record<string, string>} */
const words = en;

/**
 * The words of that key, with {name} replaced from values.
 * @param {string} key
 * @param {Record<string, string|number>} [values]
 * @returns {string}
 */
export function say(key, values = {}) {
  const text = words[key];
  if (text === undefined) throw new Error(`no words for ${key}`);
  return text.replace(/\{(\w+)\}/g, (_, name) => String(values[name] ?? ""));
}

/**
 * The words of that key, or the key's own last part if there are none: for
 * kinds that a newer version of the app may have written.
 * @param {string} key
 */
export function sayKnown(key) {
  return words[key] ?? key.split(".").slice(1).join(" ").replaceAll("-", " ");
}
