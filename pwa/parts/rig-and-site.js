// @ts-check
/**
 * The rigs and sites of the crew as screens need them: their names, the ones
 * in use on this phone, and what the sums take from them. Rig and site keep what
 * was entered, as text, under the sums' own keys; whose a field is, says its
 * declaration (owner).
 */

import { plain, say } from "../words/words.js";

/** @typedef {Omit<import("../types/journal.js").Thing, "fields"> & {fields: Record<string, string>}} Rig */
/** @typedef {import("../journal/shapes.js").ReadModelBase["views"]} Views */

/**
 * @param {Views["rigs"]} view
 * @returns {Rig[]}
 */
export function rigsOf(view) {
  return thingsOf(view?.rigs);
}

/** @param {Views["rigs"]} view @returns {Rig[]} */
export function sitesOf(view) {
  return thingsOf(view?.sites);
}

/** Fields are text to every screen, whatever single value another phone set. @param {import("../types/journal.js").Thing[]|undefined} things @returns {Rig[]} */
function thingsOf(things = []) {
  return things.map((thing) => ({ ...thing, fields: Object.fromEntries(Object.entries(thing.fields).map(([key, value]) => [key, plain(value)])) }));
}

/** The rig in use here: the one picked, else the only or first one. @param {Rig[]} rigs @param {string} picked */
export function rigInUse(rigs, picked) {
  return rigs.find((r) => r.id === picked) ?? rigs[0] ?? null;
}

/** What stands in the settings for a site when the cut is at none that is kept. */
export const noSite = "none";

/** The site in use here, if any. @param {Rig[]} sites @param {string} picked */
export function siteInUse(sites, picked) {
  return picked === noSite ? null : rigInUse(sites, picked);
}

/**
 * Id of the rig in use: that of the session, else the one picked here, else the only or first one. While
 * no fold has told which rigs there are, the one picked stands.
 * @param {Pick<Views, "now"|"rigs">} views
 * @param {string} picked
 */
export function rigIdInUse({ now, rigs }, picked) {
  const known = rigsOf(rigs);
  const rig = !rigs || rigs.partial ? picked || known[0]?.id : rigInUse(known, picked)?.id;
  return String(now?.session?.rig || rig || "");
}

/** Arc minutes between two drains of the rig's trap: 20 unless it says otherwise. @param {Rig|null} rig */
export function drainMinutes(rig) {
  return Number(rig?.fields.drainEvery ?? 1_200_000) / 60_000;
}

/**
 * What any sum takes of rig and site: all that is kept of them, of which it picks its own fields. In the
 * order of their keys, for some make a key of it: as just entered they stand in another than from the store.
 * @param {Rig|null|undefined} rig @param {Rig|null} [site]
 */
export function keptOf(rig, site) {
  return { rig: inOrder(rig?.fields), site: inOrder(site?.fields) };
}

/** @param {Record<string, string>} [fields] */
function inOrder(fields = {}) {
  return Object.fromEntries(Object.entries(fields).sort());
}

/** What site-check takes of the last readings of the parts in the torch (lengths in µm, as the journal keeps them). @param {import("../journal/shapes.js").ShownPart[]} parts  of the view now @returns {Record<string, string>} */
export function readOf(parts) {
  const read = (/** @type {string} */ slot, /** @type {string} */ key) => parts.find((p) => p.slot === slot)?.reading?.[key];
  const bore = plain(read("tip", "dmax") ?? read("tip", "dmin"));
  const pit = plain(read("electrode", "pit"));
  return { ...(bore ? { tip_reading: `${bore}µm` } : {}), ...(pit ? { pit: `${pit}µm` } : {}) };
}

/**
 * What is kept of rig and site for a form of such fields, by the rule of known in calc/form/kept.go.
 * @param {import("./field.js").Declared[]} declared @param {Rig|null} rig @param {Rig|null} site
 * @returns {Record<string, string>}
 */
export function fieldsKept(declared, rig, site) {
  const own = new Set(declared.filter((f) => f.item && site?.fields[f.key]).map((f) => f.item));
  return Object.fromEntries(declared.filter((f) => f.owner).map((f) => [f.key, site?.fields[f.key] || (!own.has(f.item) && rig?.fields[f.key]) || ""]).filter(([, text]) => text));
}

/** Whether enough is known of rig and site to judge more than the metal. @param {Rig|null} rig @param {Rig|null} site */
export function canJudge(rig, site) {
  const fields = { ...rig?.fields, ...site?.fields };
  return Boolean(fields.duty_points || fields.generator || fields.rated_power || (fields.air_need && (fields.free_air || fields.hose_length)) || (fields.volts && (fields.cord_length || fields.breaker)));
}

/** An example to try things with; its name says that it is one. */
export const exampleRig = {
  name: "Example 45 A rig", min_current: "15A", max_current: "45A", tips: "25A:0.8mm,45A:1.05mm", pressure_kind: "line", pressure: "15A:1.6bar,45A:4.6bar",
};

/**
 * The plan takes the pressure as one text, a value or pairs by what kind it
 * is. On a form that is two fields, of which one is asked.
 * @template {import("./field.js").Declared} D
 * @param {D[]} declared
 * @returns {D[]}
 */
export function withPressure(declared) {
  return declared.flatMap((f) => (f.key !== "pressure" || f.kind !== "text" ? [f] : [
    { ...f, kind: "number", bare: "bar", us: "psi", only: { key: "pressure_kind", words: ["fixed"] } },
    { ...f, key: "pressure_points", kind: "pairs", bare: "A", us: "A", chips: [], help: say("rig.pressure.points"), only: { key: "pressure_kind", words: ["line", "table"] } },
  ]));
}

/** What a form with the two fields shows of a plan's or rig's values. @param {Record<string, string>} values */
export function onForm(values) {
  const { pressure, ...rest } = values;
  if (!pressure) return rest;
  return pressure.includes(":") ? { ...rest, pressure_points: pressure } : { ...rest, pressure };
}

/** What the plan takes of such a form's values. @param {Record<string, string>} values @returns {Record<string, string>} */
export function forPlan(values) {
  const { pressure_points: points, ...rest } = values;
  return points ? { ...rest, pressure: points } : rest;
}
