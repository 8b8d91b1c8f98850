// @ts-check
/**
 * What went wrong, in the one shape of the project (calc/problem): kind, field, msg, hint. What a
 * call rejects with is such an object, so that a page can show it as it stands.
 *
 * @typedef {object} Trouble
 * @property {string} kind
 * @property {string} [field]  key of the field to blame
 * @property {string} msg      what was wrong, with what was read
 * @property {string} [hint]   what is allowed, or what to do
 * @property {number} [retry]  seconds to wait before trying again
 * @property {Trouble[]} [also]  further fields with troubles of their own
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
  return { kind: "busy", msg: `The sums are waiting: ${cause}.`, hint: "What you enter is kept. They start by themselves as soon as they can." };
}
