// @ts-check
import { say } from "../words/words.js";

/**
 * Reads the stock, and returns what asks from where a part of a slot comes that is fitted: its stock line, as the
 * journal's rule has it; a person picks only where it may be several. That resolves with what the entry says of it, or
 * null if the question was left. It is read beforehand, so that one question follows the other without a step between.
 * @param {Pick<import("../app.js").Deps, "journal"|"chooser">} deps @param {string} rig
 */
export async function stockOf({ journal, chooser }, rig) {
  const { views } = await journal.read(["stock"]);
  const from = views.stock?.from ?? {};
  return async (/** @type {string} */ slot) => {
    const options = (from[rig] ?? from[""])?.[slot] ?? [];
    const line = options.length > 1 ? await chooser.ask({ label: say("entry.part.from"), options }) : options[0]?.word;
    if (line === null) return null;
    return line && line !== "none" ? { line } : {};
  };
}
