// @ts-check
/**
 * What went wrong, in the one shape of the project (calc/problem): kind, field, msg, hint. What a
 * call rejects with is such an object, so that a page can show it as it stands.
 *
 * Beside the kinds that Go knows: there was no answer of the server's, the page was being left, the
 * browser has emptied the store, and the store does not answer.
 * @typedef {import("../types/calc.js").TroubleKind | "no-answer" | "cut-off" | "emptied" | "stuck"} Kind
 * @typedef {Omit<import("../types/calc.js").Trouble, "kind" | "also"> & {kind: Kind, also?: Trouble[]}} Trouble
 */

/**
 * err as a Trouble; an error that is none becomes an internal one.
 * @param {any} err
 * @param {string} what  "The sync broke off"
 * @param {string} hint
 * @returns {Trouble}
 */
export function asTrouble(err, what, hint) {
  if (err?.kind && err.msg) return err;
  return { kind: "internal", msg: `${what} (${err?.name ?? "Error"}: ${err?.message ?? err}).`, hint };
}

/** The sums do not run. @param {string} cause @returns {Trouble} */
export function waiting(cause) {
  return { kind: "busy", msg: `The calculators are waiting: ${cause}.`, hint: "What you enter is kept. They start by themselves as soon as they can." };
}
