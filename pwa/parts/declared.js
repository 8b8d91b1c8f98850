// @ts-check
/** Looks up what is declared of the calculators, in gen/calculators.json. */

/** @typedef {import("../types/calc.js").Description} Description */

/** Stands until one is loaded. @type {Description} */
export const undeclared = { name: "", title: "", about: "", place: "", fields: [], results: [], sources: [] };

/** @param {Description[]} all @param {import("../types/calc.js").CalculatorName} name */
export function declarationOf(all, name) {
  return /** @type {Description} */ (all.find((c) => c.name === name));
}

/** @param {Description} of @param {string} key */
export function fieldOf({ fields }, key) {
  return /** @type {import("../types/calc.js").FieldDescription} */ (fields.find((f) => f.key === key));
}

/** @param {Description} of @param {string} key */
export function resultOf({ results }, key) {
  return /** @type {import("../types/calc.js").ResultDescription} */ (results.find((r) => r.key === key));
}
