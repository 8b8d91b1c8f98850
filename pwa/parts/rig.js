// @ts-check
/**
 * The rigs of the crew as screens need them: their names, the one in use on
 * this phone, and the fields that the cut plan takes from a rig.
 */

import { say } from "../words/words.js";

/** Fields of cut-plan that belong to the rig and not to today's metal. */
export const rigKeys = ["min_current", "max_current", "arc_volts", "tips", "fitted", "pressure_kind", "pressure", "calibration"];

/** @typedef {{id: string, fields: Record<string, string>, by: Record<string, string>, also: any[]}} Rig */

/**
 * @param {any} view  the journal's view rigs, or null
 * @returns {Rig[]}
 */
export function rigsOf(view) {
  return view?.rigs ?? [];
}

/** The rig in use here: the one picked, else the only or first one. @param {Rig[]} rigs @param {string} picked */
export function rigInUse(rigs, picked) {
  return rigs.find((r) => r.id === picked) ?? rigs[0] ?? null;
}

/** What cut-plan takes from a rig. @param {Rig|null} rig */
export function planFields(rig) {
  return Object.fromEntries(rigKeys.filter((k) => rig?.fields[k]).map((k) => [k, String(rig?.fields[k])]));
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
