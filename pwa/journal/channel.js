// @ts-check
/**
 * What tabs and workers of one store tell each other. A message never carries data that matters:
 * each hearer reads the store.
 *
 *   {what: "change", l, by}   entries were stored; by "tap", "sync" or "import"
 *   {what: "views", l}        newer views, perhaps newer arcs, were stored
 *   {what: "sync", report}    how the last try to sync went
 *   {what: "trouble", trouble}
 *
 * @typedef {{what: "change", l: number, by: "tap"|"sync"|"import"}
 *   | {what: "views", l: number}
 *   | {what: "sync", report: import("./sync.js").Report}
 *   | {what: "trouble", trouble: import("../calc/trouble.js").Trouble}} Message
 */

export class Channel {
  #channel;

  /** @param {string} name of the database @param {(message: Message) => void} hear */
  constructor(name, hear) {
    this.#channel = new BroadcastChannel("kerfside:" + name);
    this.#channel.onmessage = (event) => hear(event.data);
  }

  /** Tells all others; not itself. @param {Message} message */
  tell(message) {
    this.#channel.postMessage(message);
  }

  close() {
    this.#channel.close();
  }
}
