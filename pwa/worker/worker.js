// @ts-check
/**
 * The worker behind calc/bridge.js. It holds the wasm, answers calls by name, folds the journal and
 * syncs it.
 *
 *   in   {start: {wasm, db}} first; {id, name, input}; {poke: what}; {rest: true}
 *   out  {id, ok} or {id, error: Trouble}; {ready: true}; {dead: Trouble}, after which the page
 *        ends this worker; {stuck: true} and {stuck: false}, about the store; {rested: true}, once
 *        nothing is written any more and this worker can be ended
 */

import { asTrouble } from "../calc/trouble.js";
import { Channel } from "../journal/channel.js";
import { Database, quiesce } from "../journal/db.js";
import { PhotoQueue } from "./photo-queue.js";
import { storeHealth } from "../journal/store-health.js";
import { requeueRejected, resumeSync } from "./retry.js";
import { FoldLoop } from "./fold-loop.js";
import { load } from "./load.js";
import { LongPoll } from "./long-poll.js";
import { WarmUp } from "./warm-up.js";
import { SyncLoop } from "./sync-loop.js";
import { importJournal, exportJournal } from "./transfer.js";
import { UploadLoop } from "./upload-loop.js";

/** Names the build of the app: the address of its files. */
const build = new URL(".", location.href).pathname; // not import.meta: see load.js

/** Settles when the wasm takes calls. @type {ReturnType<typeof later<Engine>>} */
const engine = later();

const warmUp = new WarmUp();

/** @typedef {{call: import("../calc/shapes.js").Call, foldLoop: FoldLoop, sync: SyncLoop, longPoll: LongPoll, uploadLoop: UploadLoop, db: Database, channel: Channel}} Engine */

self.onmessage = ({ data }) => {
  if (data.start) start(data.start);
  else if (data.poke) poke(data.poke);
  else if (data.rest) quiesce().then(() => self.postMessage({ rested: true }));
  else answer(data);
};

storeHealth.addEventListener("stuck", () => self.postMessage({ stuck: true }));
storeHealth.addEventListener("well", () => self.postMessage({ stuck: false }));

/** @param {{wasm: string, db: string}} where */
async function start(where) {
  try {
    const call = await load(where.wasm, (trouble) => self.postMessage({ dead: trouble }));
    const db = new Database(where.db);
    const channel = new Channel(where.db, (message) => {
      if (message.what !== "change") return;
      fold();
      if (message.by !== "sync") sync.trigger("tap");
    });
    const foldLoop = new FoldLoop({ db, call, channel });
    const uploadLoop = new UploadLoop({ photos: new PhotoQueue(db) });
    const applied = () => {
      uploadLoop.trigger(); // the entries that tell of pictures may be at the server now
      return fold();
    };
    const longPoll = new LongPoll({ name: where.db, onNews: () => sync.trigger("news") });
    const sync = new SyncLoop({ db, call, channel, onApplied: applied, onEnd: (cursor) => longPoll.follow(cursor) });
    engine.resolve({ call, foldLoop, sync, longPoll, uploadLoop, db, channel });
    self.postMessage({ ready: true });
    await fold();
    await requeueRejected(db, build).catch(() => {}); // tried again at the next start
    sync.trigger("start");
    uploadLoop.trigger();
    warmUp.start(call);
  } catch (err) {
    self.postMessage({ dead: stumbled(err) });
  }
}

/** What the last fold stumbled over, so that each trouble is told once. */
let told = "";

/** After so many ms without news the snapshot is written: never as the page goes, which ends this worker. */
const quiet = 20_000;
/** @type {ReturnType<typeof setTimeout>|undefined} */
let keeping;

/** Folds, and says so if it cannot. @param {{keep?: boolean}} [options] */
async function fold(options) {
  warmUp.heard();
  const { foldLoop, channel } = await engine.promise;
  try {
    await foldLoop.run(options);
    told = "";
    clearTimeout(keeping);
    if (foldLoop.toKeep) keeping = setTimeout(() => fold({ keep: true }), quiet);
  } catch (err) {
    const trouble = stumbled(err);
    if (trouble.msg !== told) channel.tell({ what: "trouble", trouble });
    told = trouble.msg;
  }
}

/** @param {string} what */
async function poke(what) {
  const { sync, longPoll, uploadLoop } = await engine.promise;
  if (what === "hidden") {
    sync.hidden();
    longPoll.hidden();
    return;
  }
  longPoll.anew();
  if (what === "visible" || what === "pageshow") fold();
  sync.trigger(/** @type {Parameters<SyncLoop["trigger"]>[0]} */ (what));
  uploadLoop.trigger();
}

/** @param {{id: number, name: string, input: {}}} request */
async function answer({ id, name, input }) {
  warmUp.heard();
  try {
    const ready = await engine.promise;
    self.postMessage({ id, ok: await perform(ready, name, input) });
  } catch (err) {
    self.postMessage({ id, error: stumbled(err) });
  }
}

/** @param {Engine} engine @param {string} name @param {{db?: string, text?: string, customers?: boolean}} input */
async function perform({ call, foldLoop, sync, db, channel }, name, input) {
  switch (name) {
    case "export-journal": {
      const from = input.db ? new Database(input.db) : db;
      return exportJournal(from, call, Date.now(), input.customers).finally(() => from !== db && from.close());
    }
    case "import-journal": {
      const { l, ...done } = await importJournal(db, call, input.text ?? "");
      if (l > 0) {
        channel.tell({ what: "change", l, by: "import" });
        await foldLoop.run();
        sync.trigger("tap");
      }
      return done;
    }
    case "journal-resume":
      await resumeSync(db);
      sync.trigger("now");
      return {};
    default:
      if (name.startsWith("journal-")) await foldLoop.run();
      return call(/** @type {keyof import("../calc/shapes.js").Calls} */ (name), input);
  }
}

/** @param {unknown} err */
function stumbled(err) {
  return asTrouble(err, "The calculators stumbled", "Entries are kept. If it stays, open Kerfside anew.");
}

/**
 * A promise that is settled from outside.
 * @template T
 */
function later() {
  /** @type {(value: T) => void} */
  let resolve = () => {};
  /** @type {Promise<T>} */
  const promise = new Promise((r) => (resolve = r));
  return { promise, resolve };
}
