// @ts-check
/** Asks the server about crew and devices; what goes wrong is a Trouble. */

import { staying } from "../../browser/leaving.js";
import { within } from "../../browser/within.js";

/** @typedef {import("../../calc/trouble.js").Trouble} Trouble */

/** How long an answer may take, ms. */
const patience = 20_000;

/** The kind of a Trouble that means: nobody answered, so nobody knows what was done. */
export const noAnswer = "no-answer";

/**
 * @template {"GET"|"POST"|"PATCH"|"DELETE"} M
 * @template {string} P
 * @param {M} method
 * @param {P} path
 * @param {unknown} [body]
 * @param {typeof fetch} [send]
 * @returns {Promise<import("./shapes.js").Answer<`${M} ${P}`>>}
 */
export async function request(method, path, body, send = (...words) => fetch(...words)) {
  let ok = false;
  let text = "";
  try {
    await within(patience, async (signal) => {
      const response = await send(path, {
        method,
        headers: { "Content-Type": "application/json", "X-Kerfside": "1" },
        body: body === undefined ? undefined : JSON.stringify(body),
        cache: "no-store",
        redirect: "error",
        signal,
      });
      ({ ok } = response);
      text = await response.text();
    });
  } catch {
    await staying();
    throw silence();
  }
  try {
    const answer = text === "" ? null : JSON.parse(text);
    if (ok) return answer;
    if (answer?.error?.kind) throw answer.error;
  } catch (err) {
    if (/** @type {Partial<Trouble>|null} */ (err)?.kind) throw err;
  }
  throw silence(); // a proxy, or a network that wants a sign-in
}

/** @returns {Trouble} */
function silence() {
  return { kind: noAnswer, msg: "The server does not answer.", hint: "Try again where it is in reach." };
}
