// @ts-check
/**
 * What the crew knows without being asked: from its journal how its parts lasted and how long its hands take, and its
 * prices. Those are the crew's and no phone's own: who enters one enters it for all (setting.set about "prices").
 */
import { plain } from "../words/words.js";

/** Fields that are the crew's prices, whatever the job. */
const prices = ["labour", "overhead", "watch_rate", "set_price", "energy_price", "margin"];

/** The register of the journal that holds them. */
const register = "prices";

/** @param {string} key */
export function isPrice(key) {
  return prices.includes(key);
}

/**
 * @param {Pick<import("../app.js").Deps, "journal"|"call">} deps
 * @param {import("../types/calc.js").Description} declared  of whose fields
 * @param {string} rig
 * @returns {Promise<{prices: Record<string, string>, history: Record<string, string>}>}
 */
export async function crewKnows({ journal, call }, { fields }, rig) {
  const [{ views }, history] = await Promise.all([journal.read(["settings"]), call("journal-history", { rig }).then(({ values }) => values, () => ({}))]); // the sum goes without
  const known = (/** @type {Record<string, unknown>} */ values) => Object.fromEntries(fields.filter(({ key }) => plain(values[key]) !== "").map(({ key }) => [key, plain(values[key])]));
  return { prices: known(views.settings?.devices[register]?.fields ?? {}), history: known(history) };
}

/** @param {Pick<import("../app.js").Deps, "journal">} deps @param {string} key @param {string|null} value */
export function keepPrice({ journal }, key, value) {
  return journal.tap({ kind: "setting.set", about: register, body: { [key]: value } });
}
