// @ts-check
/** The words at the top: where the entries are, how many wait, and whether older ones are still to come. */
import { say } from "../words/words.js";
import { setText } from "./dom.js";
import { clockTime } from "./times.js";

/** How far all entries have come; css/frame.css draws it. @param {{onServer: boolean, backedUp: boolean}} state */
export function storageLevel({ onServer, backedUp }) {
  if (backedUp) return "backup";
  return onServer ? "server" : "phone";
}

export class SyncBadge {
  /**
   * @param {import("./dom.js").Refs} frame  with kept, waiting, sync and coming
   * @param {import("../journal/journal.js").Journal} journal
   */
  constructor(frame, journal) {
    this.frame = frame;
    this.journal = journal;
  }

  start() {
    this.journal.addEventListener("sync", (event) => this.#show(/** @type {CustomEvent} */ (event).detail));
    this.journal.addEventListener("change", () => this.#read());
    this.#read();
  }

  async #read() {
    this.#show((await this.journal.read([])).sync);
  }

  /** @param {import("../journal/journal.js").SyncState} state */
  #show(state) {
    const { kept, waiting, sync, coming } = this.frame;
    coming.hidden = state.coming === 0;
    setText(coming, state.coming > 0 ? say("kept.coming", { n: state.coming }) : "");
    kept.textContent = say(/* phone | server | backup */ `kept.${storageLevel(state)}`);
    waiting.textContent = state.crew && state.unsent > 0 && state.since ? say("kept.waiting", { n: state.unsent, time: clockTime(state.since) }) : "";
    sync.dataset.kept = storageLevel(state);
  }
}
