// @ts-check
/**
 * Photos as entries: keeps one with its bytes, shows its small picture in a
 * list and the large one over the screen.
 */
import { Photos } from "../journal/photo/photos.js";
import { newId } from "../journal/id.js";
import { encodePicture, hashOf, openPicture } from "./picture.js";
import { opened } from "../browser/overlays.js";
import { handOver } from "./download.js";
import { clone, make, onActions, refs } from "./dom.js";
import { plain, say } from "../words/words.js";

/** @typedef {import("../types/journal.js").Body} Body */

/** A small picture comes from another phone: nothing but this may stand in its address. */
const thumbForm = /^data:image\/jpeg;base64,[A-Za-z0-9+/=]{1,4096}$/;

/**
 * Keeps a picture on the phone and returns the entry that tells of it, to be
 * stored next.
 * @param {import("../journal/journal.js").Journal} journal
 * @param {ImageBitmap} picture
 * @returns {Promise<import("../journal/shapes.js").EntryOf<"photo.added"> & {id: string}>}
 */
export async function keepPicture(journal, picture) {
  const encoded = await encodePicture(picture);
  const { sha256, bytes, w, h, thumb } = encoded;
  const id = newId();
  try {
    await new Photos(journal.db).keep(encoded, id);
  } catch {
    throw { kind: "disk-full", msg: say("picture.unkept"), hint: say("picture.unkept.hint") };
  }
  return { kind: "photo.added", id, body: { sha256, bytes: bytes.byteLength, w, h, thumb } };
}

/** The same from a file. @param {import("../journal/journal.js").Journal} journal @param {Blob} file */
export async function keepFile(journal, file) {
  const picture = await openPicture(file);
  try {
    return await keepPicture(journal, picture);
  } finally {
    picture.close();
  }
}

/** The small picture of a photo.added, or null. @param {Body} body */
export function thumbnail(body) {
  return typeof body?.thumb === "string" && thumbForm.test(body.thumb) ? make("img", { class: "thumb", src: body.thumb, alt: "" }) : null;
}

/** Puts this phone's large picture in the place of the small one, where it has it. @param {import("../journal/journal.js").Journal} journal @param {HTMLImageElement} image @param {Body} body */
export async function enlarge(journal, image, body) {
  const picture = await new Photos(journal.db).get(plain(body.sha256)).catch(() => null);
  if (!picture) return;
  image.onload = () => URL.revokeObjectURL(image.src);
  image.src = URL.createObjectURL(new Blob([picture.bytes], { type: "image/jpeg" }));
}

/** Shows the large picture: this phone's, else the server's, which is kept. @param {import("../journal/journal.js").Journal} journal @param {{id: string, body: Body}} entry @param {string} label */
export async function showPhoto(journal, { id, body }, label) {
  const dialog = /** @type {HTMLDialogElement} */ (clone("part-photo"));
  const at = refs(dialog);
  at.label.textContent = label;
  at.photo.alt = label;
  const leave = () => dialog.close();
  onActions(dialog, { leave });
  let address = "";
  const closed = opened(leave);
  dialog.addEventListener("close", () => {
    closed();
    URL.revokeObjectURL(address);
    dialog.remove();
  });
  document.body.append(dialog);
  dialog.showModal();
  const photos = new Photos(journal.db);
  const sha256 = plain(body.sha256);
  const picture = (await photos.get(sha256).catch(() => null)) ?? (await fetchPicture(photos, sha256, id).catch(() => null));
  if (!dialog.open) return;
  at.photo.hidden = !picture;
  at.gone.hidden = Boolean(picture);
  if (!picture) return;
  at.photo.src = address = URL.createObjectURL(new Blob([picture.bytes], { type: "image/jpeg" }));
  at.save.hidden = false;
  onActions(dialog, { save: () => handOver(`kerfside-${sha256.slice(0, 8)}.jpg`, picture.bytes, "image/jpeg") });
}

/** Fetches a picture from the server and keeps it, so that it shows without a signal as well. @param {Photos} photos @param {string} sha256 @param {string} event @returns {Promise<import("../journal/photo/photos.js").Picture>} */
async function fetchPicture(photos, sha256, event) {
  const answer = await fetch(`/api/photos/${encodeURIComponent(sha256)}`, { cache: "no-store" });
  const picture = { sha256, type: "image/jpeg", bytes: await answer.arrayBuffer() };
  if (!answer.ok || (await hashOf(picture.bytes)) !== sha256) throw new Error(`no picture: ${answer.status}`);
  await photos.see(picture, event).catch(() => {}); // a full phone shows it all the same
  return picture;
}
