// @ts-check
/**
 * Where this phone is at home: read from the local database, the one place that is certain. Loaded
 * after the first screen, and by the screens of the crew.
 */

import { unlessLeft } from "../../browser/leaving.js";
import { withLocalMeta, withMeta } from "./local.js";
import { hintedCrew, databaseName } from "./database-name.js";

/**
 * The crew that this phone is in, "" for none, after a join that broke off was gone on with.
 *
 * The hint is written after home: a phone that has it alone, or has left a second copy and has no
 * store, lost that to the browser. It goes on as whose copy it is.
 * @param {IDBFactory} [factory]
 * @param {{whose?: () => Promise<import("../second-copy.js").Whose|undefined>, onEmptied?: () => void}} [deps]
 * @returns {Promise<string>}
 */
export async function findHome(factory, { whose = async () => undefined, onEmptied = () => {} } = {}) {
  const { home, joining, crews, device } = await withLocalMeta(factory, (meta) => meta);
  const isBlank = !home && !joining && !crews.length;
  const left = isBlank && !device ? await whose() : undefined;
  const crew = hintedCrew() || (left?.crew ?? "");
  if (isBlank && crew) {
    const device = left?.crew === crew ? left.device : "";
    await withMeta(databaseName(crew), factory, (meta) => void Object.assign(meta, { crew, device: meta.device || device }));
    await withLocalMeta(factory, (meta) => void Object.assign(meta, { home: crew, crews: [crew] }));
    onEmptied();
    return crew;
  }
  if (left) {
    await withLocalMeta(factory, (meta) => void (meta.device ||= left.device));
    onEmptied();
  }
  if (!joining) return home;
  const { resumeJoin } = await unlessLeft(import("./join.js"));
  return resumeJoin({ factory }).catch(() => home); // no answer now: the next start asks again
}
