// @ts-check
/** What the app's address means for what it keeps: another address is another, empty store. */
import { say } from "../words/words.js";

/** The warning that the address is a bare number, or "". @param {string} [host] */
export function bareAddress(host = location.hostname) {
  const bare = /^\d+(\.\d+){3}$/.test(host) || host.startsWith("[");
  const ownMachine = host.startsWith("127.") || host === "[::1]";
  return bare && !ownMachine ? say("origin.bare", { host }) : "";
}
