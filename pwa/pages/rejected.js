// @ts-check
/** Lists what the server will not have, with why and what to do, in the settings. */
import { readRejected } from "../journal/recovery/rejected.js";
import { Photos } from "../journal/photo/photos.js";
import { make } from "../parts/dom.js";
import { describe } from "../parts/entry-words.js";
import { renderRows } from "../parts/rows.js";
import { dayAndTime } from "../parts/times.js";
import { say } from "../words/words.js";

/** @param {HTMLElement} element @param {import("../journal/journal.js").Journal} journal */
export async function showRejected(element, journal) {
  const { entries, pictures } = await readRejected(journal.db);
  const cards = [...entries.map((entry) => () => entryCard(entry)), ...pictures.map((picture) => () => pictureCard(journal, picture))];
  renderRows(element, cards, (card) => card(), () => ({ name: "" }));
  element.hidden = cards.length === 0;
}

/** @param {import("../journal/recovery/rejected.js").RejectedEntry} entry */
function entryCard({ raw, why }) {
  const event = JSON.parse(raw);
  return make("li", { class: "card" },
    make("b", { text: describe(event) }),
    make("span", { text: [time(event), say("held.entry", { why })].filter(Boolean).join(". ") }));
}

/** @param {import("../journal/journal.js").Journal} journal @param {import("../journal/recovery/rejected.js").RejectedPicture} picture */
function pictureCard(journal, { sha256, raw, why }) {
  const event = raw ? JSON.parse(raw) : null;
  return make("li", { class: "card" },
    make("b", { text: say("said.photo") }),
    make("span", { text: [event && time(event), why ? say("held.picture.why", { why }) : say("held.picture"), say("held.picture.here")].filter(Boolean).join(". ") }),
    make("button", { class: "button", type: "button", text: say("held.picture.save"), onclick: () => savePicture(journal, sha256) }));
}

/** When it was entered, or "". @param {{wall?: unknown}} event */
function time(event) {
  return Array.isArray(event.wall) ? dayAndTime(event.wall[0]) : "";
}

/** @param {import("../journal/journal.js").Journal} journal @param {string} sha256 */
async function savePicture(journal, sha256) {
  const kept = await new Photos(journal.db).get(sha256);
  if (!kept) return;
  const href = URL.createObjectURL(new Blob([kept.bytes], { type: kept.type }));
  make("a", { href, download: `photo-${sha256.slice(0, 8)}.jpg` }).click();
  setTimeout(() => URL.revokeObjectURL(href), 60_000);
}
