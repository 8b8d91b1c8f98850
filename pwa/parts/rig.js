// @ts-check
/**
 * The rigs of the crew as screens need them: their names, the one in use on
 * this phone, and the fields that the cut plan takes from a rig.
 */

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
  name: "Example 40 A rig", min_current: "20A", max_current: "40A", tips: "20A:0.7mm,40A:0.95mm", fitted: "40A", pressure_kind: "line", pressure: "20A:20psi,40A:60psi",
};
