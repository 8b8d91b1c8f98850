// What the tests reach of a page, as the global kerfside. The server of a test
// adds it to the page; the app itself has no such thing.
import { call, journal, localState, started } from "./app.js";

const { home } = await started;

/** How many pictures are only on this phone. */
const pictures = () => journal.db.run(["photo"], "readonly", (tx) => new Promise((resolve) => {
  const asked = tx.objectStore("photo").get("waiting");
  asked.onsuccess = () => resolve(asked.result?.list.length ?? 0);
}));

/** What joins a crew: in the file of the pages behind the first, or where it lies. */
const assets = document.documentElement.dataset.assets;
const joining = () => import(`${assets}pages.js`).catch(() => import(`${assets}journal/crew/join.js`));

/** @returns {Promise<{hash: string, events: number}>}  equal on phones that hold the same set */
const stateHash = () => call("journal-hash", {});
Object.assign(journal, { stateHash }); // where journeys ask for it

globalThis.kerfside = { joining, pictures, stateHash, syncNow: () => journal.syncNow(), call, journal, localState, home };
