// @ts-check
/**
 * The bytes of an event, in the key order of calc/journal/event.md, and the checks before one is
 * stored. What passes here passes the server.
 */

/**
 * @typedef {import("../calc/trouble.js").Trouble} Trouble
 * @typedef {import("./shapes.js").Entry|import("./shapes.js").ArcTap} Entry
 */

const maxBytes = 16 * 1024;
const maxDepth = 8;
const maxAt = 2 ** 48 - 1;
const name = /^[\w.-]{1,64}$/;
const idForm = /^[\w-]{22}$/;
/** Room for what is known only inside the transaction: stamp, device, session of a target. */
const blankStamp = "0".repeat(16);
const longName = "0".repeat(64);

/**
 * Returns what is wrong with an entry, or null.
 * @param {Entry} entry
 * @returns {Trouble|null}
 */
export function check(entry) {
  for (const key of /** @type {const} */ (["kind", "in", "about", "over"])) {
    const value = entry[key];
    if (key === "kind" ? !name.test(value ?? "") : value !== undefined && !name.test(value)) {
      return wrong(key, `${key} reads "${value}"`, "It has 1 to 64 letters, digits, dots, dashes or underscores.");
    }
  }
  if (entry.id !== undefined && !idForm.test(entry.id)) return wrong("id", `id reads "${entry.id}"`, "An id has 22 letters, digits, dashes or underscores.");
  if (entry.at !== undefined && !(Number.isInteger(entry.at) && entry.at >= 1 && entry.at <= maxAt)) {
    return wrong("at", `when it happened reads ${entry.at}`, "It is a whole number of milliseconds since 1970.");
  }
  if (depth(entry.body) > maxDepth - 1 || Array.isArray(entry.body) || typeof entry.body !== "object" || !entry.body) {
    return wrong("body", "the body of the entry is no plain object", `It is an object at most ${maxDepth - 1} levels deep.`);
  }
  const probe = write({ ...entry, id: entry.id ?? longName.slice(0, 22), in: entry.in ?? longName }, blankStamp, [maxAt, -840], longName);
  const bytes = new TextEncoder().encode(probe).length;
  if (bytes > maxBytes) {
    return { kind: "too-large", field: "body", msg: `The entry has ${bytes} bytes; the most is ${maxBytes}.`, hint: "Split the note into two." };
  }
  return null;
}

/**
 * The raw text of an event.
 * @param {Entry} entry  with its id
 * @param {string} t
 * @param {[number, number]} wall
 * @param {string} device
 */
export function write(entry, t, wall, device) {
  const { id, kind, about, at, over, body } = entry;
  // A lone surrogate is no text: readers take its escape differently.
  return JSON.stringify({ id, t, wall, device, kind, v: 1, in: entry.in, about, at, over, body }, (_, value) => (typeof value === "string" ? whole(value) : value));
}

/** @param {unknown} value @returns {number} */
function depth(value) {
  if (typeof value !== "object" || value === null) return 0;
  return 1 + Math.max(0, ...Object.values(value).map(depth));
}

/** The text with lone surrogates replaced by U+FFFD. @param {string} text */
function whole(text) {
  return text.replace(/[\uD800-\uDBFF][\uDC00-\uDFFF]|[\uD800-\uDFFF]/g, (found) => (found.length === 2 ? found : "\uFFFD"));
}

/** @param {string} field @param {string} msg @param {string} hint @returns {Trouble} */
function wrong(field, msg, hint) {
  return { kind: "malformed", field, msg, hint };
}
