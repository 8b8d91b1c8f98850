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
import { Database, rest } from "../journal/db.js";
import { Photos } from "../journal/photo/photos.js";
import { pulse } from "../journal/pulse.js";
import { offerAgain, resume } from "./again.js";
import { Folder } from "./fold.js";
import { load } from "./load.js";
import { News } from "./news.js";
import { Rehearsal } from "./rehearsal.js";
import { Sync } from "./sync.js";
import { carryIn, carryOut } from "./transfer.js";
import { Upload } from "./upload.js";

/** Names the build of the app: the address of its files. */
const build = new URL(".", location.href).pathname; // not import.meta: see load.js

/** Settles when the wasm takes calls. @type {ReturnType<typeof later<Desk>>} */
const desk = later();

const rehearsal = new Rehearsal();

/** @typedef {{call: import("../calc/shapes.js").Call, folder: Folder, sync: Sync, news: News, upload: Upload, db: Database, channel: Channel}} Desk */

self.onmessage = ({ data }) => {
  if (data.start) start(data.start);
  else if (data.poke) poke(data.poke);
  else if (data.rest) rest().then(() => self.postMessage({ rested: true }));
  else answer(data);
};

pulse.addEventListener("stuck", () => self.postMessage({ stuck: true }));
pulse.addEventListener("well", () => self.postMessage({ stuck: false }));

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
    const folder = new Folder({ db, call, channel });
    const upload = new Upload({ photos: new Photos(db) });
    const applied = () => {
      upload.trigger(); // the entries that tell of pictures may be at the server now
      return fold();
    };
    const news = new News({ name: where.db, onNews: () => sync.trigger("news") });
    const sync = new Sync({ db, call, channel, onApplied: applied, onEnd: (cursor) => news.follow(cursor) });
    desk.resolve({ call, folder, sync, news, upload, db, channel });
    self.postMessage({ ready: true });
    await fold();
    await offerAgain(db, build).catch(() => {}); // tried again at the next start
    sync.trigger("start");
    upload.trigger();
    rehearsal.start(call);
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
  rehearsal.heard();
  const { folder, channel } = await desk.promise;
  try {
    await folder.run(options);
    told = "";
    clearTimeout(keeping);
    if (folder.toKeep) keeping = setTimeout(() => fold({ keep: true }), quiet);
  } catch (err) {
    const trouble = stumbled(err);
    if (trouble.msg !== told) channel.tell({ what: "trouble", trouble });
    told = trouble.msg;
  }
}

/** @param {string} what */
async function poke(what) {
  const { sync, news, upload } = await desk.promise;
  if (what === "hidden") {
    sync.hidden();
    news.hidden();
    return;
  }
  news.anew();
  if (what === "visible" || what === "pageshow") fold();
  sync.trigger(/** @type {Parameters<Sync["trigger"]>[0]} */ (what));
  upload.trigger();
}

/** @param {{id: number, name: string, input: {}}} request */
async function answer({ id, name, input }) {
  rehearsal.heard();
  try {
    const ready = await desk.promise;
    self.postMessage({ id, ok: await perform(ready, name, input) });
  } catch (err) {
    self.postMessage({ id, error: stumbled(err) });
  }
}

/** @param {Desk} desk @param {string} name @param {{db?: string, text?: string}} input */
async function perform({ call, folder, sync, db, channel }, name, input) {
  switch (name) {
    case "journal-carry-out": {
      const from = input.db ? new Database(input.db) : db;
      return carryOut(from, call, Date.now()).finally(() => from !== db && from.close());
    }
    case "journal-carry-in": {
      const { l, ...done } = await carryIn(db, call, input.text ?? "");
      if (l > 0) {
        channel.tell({ what: "change", l, by: "import" });
        await folder.run();
        sync.trigger("tap");
      }
      return done;
    }
    case "journal-resume":
      await resume(db);
      sync.trigger("now");
      return {};
    default:
      if (name.startsWith("journal-")) await folder.run();
      return call(/** @type {keyof import("../calc/shapes.js").Calls} */ (name), input);
  }
}

/** @param {unknown} err */
function stumbled(err) {
  return asTrouble(err, "The sums stumbled", "Entries are kept. If it stays, reload the page.");
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
