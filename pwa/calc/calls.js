// @ts-check
/**
 * Typed calls into the sums. Pages use these and never see the worker.
 *
 *   const answer = await calculate("cut-plan", { metal: "steel", thickness: "6mm" }, { units: "us", signal });
 *   answer.results.speed.text            // "47.2 in/min"
 *
 * Each rejects with a Trouble {kind, field?, msg, hint?, also?}; an aborted call rejects with the
 * signal's reason, which is no error: see isAbort. kind "busy" means that the sums have not
 * started and the server cannot be reached.
 */

import { bridge } from "./bridge.js";

/**
 * @typedef {import("../types/calc.js").CalculatorName} CalculatorName
 * @typedef {import("./shapes.js").Calls} Calls
 * @typedef {import("../types/calc.js").Entered} Entered
 * @typedef {{signal?: AbortSignal}} CallOptions
 */

/**
 * What a calculator tells; of one whose name only the address says, results are looked at before use.
 * @template {string} [N=string]
 * @typedef {import("../types/calc.js").Answer<N extends CalculatorName ? import("../types/calc.js").Results[N] : Record<string, import("../types/calc.js").Result>>} Answer
 */

/**
 * What is entered into it: texts as typed ("6mm"), numbers, true or false; beside them what is kept of
 * rig and site.
 * @template {string} N
 * @typedef {N extends CalculatorName ? import("../types/calc.js").Entries<N> : Record<string, Entered|Record<string, unknown>>} Entries
 */

/**
 * Makes a call of the table.
 * @template {keyof Calls} N
 * @param {N} name
 * @param {import("./shapes.js").Given<Calls[N]["in"]>} input
 * @param {CallOptions} [options]
 * @returns {Promise<Calls[N]["out"]>}
 */
export function call(name, input, options = {}) {
  return bridge.call(name, input, options);
}

/**
 * Runs a calculator.
 * @template {string} N
 * @param {N} name
 * @param {Entries<N>} values
 * @param {{units?: "metric"|"us"} & CallOptions} [options]
 * @returns {Promise<Answer<N>>}
 */
export function calculate(name, values, { units, signal } = {}) {
  const given = /** @type {import("../types/calc.js").Entries<CalculatorName>} */ (units ? { ...values, units } : values);
  return /** @type {Promise<Answer<N>>} */ (bridge.call(/** @type {CalculatorName} */ (name), given, { signal }));
}

/** Whether the sums run: until then a call waits for them. */
export function sumsRun() {
  return bridge.ready;
}

/** Says whether a rejection only means that its call was aborted. @param {unknown} err */
export function isAbort(err) {
  return err instanceof DOMException && err.name === "AbortError";
}
