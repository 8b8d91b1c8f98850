// @ts-check
/**
 * Finds words by key. There is English alone, for now: calculators and guides hold
 * their own sentences.
 */
import { en } from "./en.js";

/** @type {Record<string, string>} */
const words = { ...en };

/** Takes in the words of screens that come when they are needed. @param {Record<string, string>} more */
export function learn(more) {
  Object.assign(words, more);
}

/**
 * The words of that key, with {name} replaced from values, and {name|start|starts} by 1 start, 2 starts.
 * @param {string} key
 * @param {Record<string, string|number>} [values]
 * @returns {string}
 */
export function say(key, values = {}) {
  const text = own(words, key);
  if (text === undefined) throw new Error(`no words for ${key}`);
  return filled(text, values);
}

/** A text with what stands in braces replaced from values. @param {string} text @param {Record<string, string|number>} values */
export function filled(text, values) {
  return text.replace(/\{(\w+)(?:\|(.*?)\|(.*?))?\}/g, (_, name, one, many) => {
    const value = plain(own(values, name));
    return many ? `${value} ${value === "1" ? one : many}` : value;
  });
}

/**
 * What an object says of a key itself: what every object says of "toString" is no word.
 * @template T
 * @param {Record<string, T>} map @param {string} key
 * @returns {T|undefined}
 */
export function own(map, key) {
  return Object.hasOwn(map, key) ? map[key] : undefined;
}

/** A text, a number or true and false as text; what is none of them, as another phone may have sent, is "". @param {unknown} value */
export function plain(value) {
  const single = typeof value === "string" || typeof value === "boolean" || (typeof value === "number" && Number.isFinite(value));
  return single ? String(value) : "";
}

/** A sentence of its own. @param {string} text */
export function sentence(text) {
  return text.slice(0, 1).toUpperCase() + text.slice(1) + (/[.!?]$|^$/.test(text) ? "" : ".");
}

/** What went wrong and what to do, in sentences. @param {{msg: string, hint?: string}} trouble @param {string} [more] */
export function sayTrouble({ msg, hint }, more) {
  return [msg, hint, more].filter((text) => text !== undefined && text !== "").map((text) => sentence(String(text))).join(" ");
}

/** The words of that key, or "" if there are none. @param {string} key */
export function sayIfKnown(key) {
  return own(words, key) ?? "";
}

/**
 * The words of that key, or the key's own last part if there are none: for
 * kinds that a newer version of the app may have written.
 * @param {string} key
 */
export function sayKnown(key) {
  return own(words, key) ?? key.split(".").slice(1).join(" ").replaceAll("-", " ");
}
