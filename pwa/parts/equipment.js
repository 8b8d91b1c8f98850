// @ts-check
/**
 * The rigs and sites of the crew as screens need them: their names, the ones
 * in use on this phone, and the fields that the sums take from them. Rig and
 * site keep what was entered, as text, under the sums' own keys.
 */

import { plain, say } from "../words/words.js";

/** Fields of cut-plan that belong to the rig and not to today's metal. */
export const rigKeys = ["min_current", "max_current", "arc_volts", "tips", "fitted", "pressure_kind", "pressure", "calibration"];

/** Fields of site-check that stand on the rig's plates. */
export const plateKeys = ["air_need", "air_least", "duty_points", "machine_efficiency", "power_factor"];

/** Fields of site-check that the place decides. */
export const siteKeys = ["free_air", "tank", "cut_in", "cut_out", "compressor_duty", "regulator", "hose_length", "bore", "couplers", "coupler_c",
  "volts", "phases", "size", "cord_length", "breaker", "least_volts", "generator", "headroom", "stretch", "compressor_power", "compressor_first", "altitude", "temperature", "humidity"];

/** @typedef {{id: string, fields: Record<string, string>, by: Record<string, string>, also: any[]}} Rig */

/**
 * @param {any} view  the journal's view rigs, or null
 * @returns {Rig[]}
 */
export function rigsOf(view) {
  return thingsOf(view?.rigs);
}

/** @param {any} view  the journal's view rigs, or null @returns {Rig[]} */
export function sitesOf(view) {
  return thingsOf(view?.sites);
}

/** Fields are text to every screen, whatever single value another phone set. @param {any[]|undefined} things @returns {Rig[]} */
function thingsOf(things = []) {
  return things.map((thing) => ({ ...thing, fields: Object.fromEntries(Object.entries(thing.fields).map(([key, value]) => [key, plain(value)])) }));
}

/** The rig or site in use here: the one picked, else the only or first one. @param {Rig[]} rigs @param {string} picked */
export function rigInUse(rigs, picked) {
  return rigs.find((r) => r.id === picked) ?? rigs[0] ?? null;
}

/**
 * Id of the rig in use: that of the session, else the one picked here, else the only or first one. While
 * no fold has told which rigs there are, the one picked stands.
 * @param {Record<string, any>} views  now and rigs
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

/** What cut-plan takes from a rig. @param {Rig|null} rig */
export function planFields(rig) {
  return pick(rig, rigKeys);
}

/**
 * What site-check takes from rig, site and the last readings of the parts in
 * the torch (lengths in µm, as the journal keeps them).
 * @param {Rig|null} rig @param {Rig|null} site @param {any[]} parts  of the view now
 */
export function siteFields(rig, site, parts) {
  const read = (/** @type {string} */ slot, /** @type {string} */ key) => parts.find((p) => p.slot === slot)?.reading?.[key];
  const bore = plain(read("tip", "dmax") ?? read("tip", "dmin"));
  const pit = plain(read("electrode", "pit"));
  return { ...pick(rig, [...rigKeys, ...plateKeys]), ...pick(site, siteKeys), ...(bore ? { tip_reading: `${bore}µm` } : {}), ...(pit ? { pit: `${pit}µm` } : {}) };
}

/** Whether enough is known of rig and site to judge more than the metal. @param {Record<string, string>} fields */
export function canJudge(fields) {
  return Boolean(fields.duty_points || fields.generator || (fields.air_need && (fields.free_air || fields.hose_length)) || (fields.volts && (fields.cord_length || fields.breaker)));
}

/** @param {Rig|null} thing @param {string[]} keys @returns {Record<string, string>} */
function pick(thing, keys) {
  return Object.fromEntries(keys.filter((k) => thing?.fields[k]).map((k) => [k, String(thing?.fields[k])]));
}

/** An example to try things with; its name says that it is one. */
export const exampleRig = {
  name: "Example 40 A rig", min_current: "20A", max_current: "40A", tips: "20A:0.7mm,40A:0.95mm", pressure_kind: "line", pressure: "20A:20psi,40A:60psi",
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
    { ...f, kind: "number", bare: "bar", us: "psi", help: say("rig.pressure.fixed"), only: { key: "pressure_kind", words: ["fixed"] } },
    { ...f, key: "pressure_points", kind: "pairs", bare: "A", us: "A", right: { bare: "bar", us: "psi" }, help: say("rig.pressure.points"), only: { key: "pressure_kind", words: ["line", "table"] } },
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
