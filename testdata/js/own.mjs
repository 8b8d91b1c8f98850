// What is this phone's own, for tests of screens: drafts and today, over an object with what is kept of both, by name.

import { Drafts } from "../../pwa/parts/drafts.js";
import { Today } from "../../pwa/today.js";

const prefix = "draft.";

/** @param {Record<string, any>} [kept]  read and written as the test goes */
export function ownParts(kept = {}) {
  const own = /** @type {any} */ ({
    get: (name) => kept[name.slice(prefix.length)],
    set: (name, value) => void (kept[name.slice(prefix.length)] = JSON.parse(JSON.stringify(value))),
    remove: (name) => void delete kept[name.slice(prefix.length)],
    names: () => Object.keys(kept).map((name) => prefix + name),
  });
  return { drafts: new Drafts(own), today: new Today(own) };
}
