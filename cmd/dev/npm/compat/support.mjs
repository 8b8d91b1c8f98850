// When browsers learnt what: the open data of MDN, against the oldest that the app serves (pwa/browsers.json).

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
export const data = JSON.parse(readFileSync(require.resolve("@mdn/browser-compat-data"), "utf8"));
export const oldest = JSON.parse(readFileSync(new URL("../../../../pwa/browsers.json", import.meta.url), "utf8"));

/** What a feature is called in the data, or null where the data does not know it. @param {string[]} path */
export function known(...path) {
  let at = data;
  for (const step of path) {
    if (!Object.hasOwn(at, step)) return null;
    at = at[step];
  }
  return at?.__compat ? path.join(".") : null;
}

const featureAt = (name) => name.split(".").reduce((at, step) => at[step], data);

/** The features under one, by their last word. @param {string} name */
export const below = (name) => Object.keys(featureAt(name));

/** Where a feature is too new: for each such browser, since when it has it. Empty if all have it. @param {string} name */
export function tooNew(name) {
  const { support } = featureAt(name).__compat;
  const late = [];
  for (const [browser, since] of Object.entries(oldest)) {
    for (const engine of [browser, { chrome: "chrome_android", firefox: "firefox_android", safari: "safari_ios" }[browser]]) {
      const has = [support[engine]].flat().map(whole).sort(compare)[0];
      if (compare(has, since) > 0) late.push(`${engine} ${has === never ? "never" : has}`);
    }
  }
  return late;
}

const never = "9999";

/** The version from which a statement holds, and those that followed it. Behind a switch or by another name is not enough. */
function whole(statement, _, all) {
  if (!statement || statement.flags || statement.prefix || statement.alternative_name) return never;
  if (statement.version_removed && !all.some((next) => next.version_added === statement.version_removed)) return never;
  const added = statement.version_added;
  if (added === true) return "1";
  return typeof added === "string" && added !== "preview" ? added.replace("≤", "") : never;
}

/** @param {string} a @param {string} b */
export function compare(a, b) {
  const [x, y] = [a, b].map((v) => v.split(".").map(Number));
  return x[0] - y[0] || (x[1] ?? 0) - (y[1] ?? 0);
}
