// @ts-check
/**
 * What tabs and workers of one store tell each other. No message carries data that matters:
 * hearers read the store.
 *
 * @typedef {import("./shapes.js").Message} Message
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
