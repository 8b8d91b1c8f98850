// @ts-check
import { say } from "../words/words.js";

/**
 * What an entry says of where a part comes from that is fitted: its stock line, as the journal's rule has it; a person
 * picks only where it may be several. null if the question was left.
 * @param {Pick<import("../app.js").Deps, "journal"|"chooser">} deps @param {string} rig @param {string} slot
 */
export async function fromStock({ journal, chooser }, rig, slot) {
  const { views } = await journal.read(["stock"]);
  const from = views.stock?.from ?? {};
  const options = (from[rig] ?? from[""])?.[slot] ?? [];
  const line = options.length > 1 ? await chooser.ask({ label: say("entry.part.from"), options }) : options[0]?.word;
  if (line === null) return null;
  return line && line !== "none" ? { line } : {};
}
