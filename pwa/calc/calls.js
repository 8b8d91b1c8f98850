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
 * A quantity: value in SI; text in the wanted units, also in the others.
 * @typedef {{value: number, unit: string, text: string, also?: string}} Value
 *
 * @typedef {object} Answer
 * @property {Record<string, any>} results  by key: a Value, a word, a yes or no, or rows of these
 * @property {string[]} cautions
 * @property {string[]} working             the sum, step by step
 * @property {{id: string, text: string}[]} sources
 * @property {{name: string, params: any}[]} [pictures]  what to draw beside it
 * @property {[number, string][]} [lengths]  those of the pictures: in millimetres, and as text
 * @property {Record<string, any>} [parts]  answers that this one rests on, by the name of their calculator
 *
 * @typedef {{signal?: AbortSignal}} CallOptions
 */

/**
 * Calls any name of the table with any JSON input.
 * @param {string} name
 * @param {unknown} [input]
 * @param {CallOptions} [options]
 * @returns {Promise<any>}
 */
export function call(name, input = {}, options = {}) {
  return bridge.call(name, input, options);
}

/**
 * Runs a calculator on entered values: texts as typed ("6mm"), numbers, true or false; beside them what
 * is kept of rig and site.
 * @param {string} name
 * @param {Record<string, string|number|boolean|null|Record<string, unknown>>} values
 * @param {{units?: "metric"|"us"} & CallOptions} [options]
 * @returns {Promise<Answer>}
 */
export function calculate(name, values, { units, signal } = {}) {
  return call(name, units ? { ...values, units } : values, { signal });
}

/** Whether the sums run: until then a call waits for them. */
export function sumsRun() {
  return bridge.ready;
}

/** Says whether a rejection only means that its call was aborted. @param {unknown} err */
export function isAbort(err) {
  return err instanceof DOMException && err.name === "AbortError";
}
