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

/** A sentence of its own. @param {string} text */
export function sentence(text) {
  return text[0].toUpperCase() + text.slice(1) + (/[.!?]$/.test(text) ? "" : ".");
}

/** What went wrong and what to do, in sentences. @param {{msg: string, hint?: string}} trouble @param {string} [more] */
export function sayTrouble({ msg, hint }, more) {
  return [msg, hint, more].filter((text) => text !== undefined && text !== "").map((text) => sentence(String(text))).join(" ");
}

/**
 * The words of that key, or the key's own last part if there are none: for
 * kinds that a newer version of the app may have written.
 * @param {string} key
 */
export function sayKnown(key) {
  return words[key] ?? key.split(".").slice(1).join(" ").replaceAll("-", " ");
}
