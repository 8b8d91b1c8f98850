// @ts-check
/**
 * Photos as entries: keeps one with its bytes, shows its small picture in a
 * list and the large one over the screen.
 */
import { Photos } from "../journal/photo/photos.js";
import { newId } from "../journal/id.js";
import { encodePicture, openPicture } from "./picture.js";
import { clone, make, onActions, refs } from "./dom.js";
import { plain, say } from "../words/words.js";

/** A small picture comes from another phone: nothing but this may stand in its address. */
const thumbForm = /^data:image\/jpeg;base64,[A-Za-z0-9+/=]{1,4096}$/;

/**
 * Keeps a picture on the phone and returns the entry that tells of it, to be
 * stored next.
 * @param {import("../journal/journal.js").Journal} journal
 * @param {ImageBitmap} picture
 * @returns {Promise<{kind: string, id: string, body: Record<string, any>}>}
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

/** The small picture of a photo.added, or null. @param {any} body */
export function thumbnail(body) {
  return typeof body?.thumb === "string" && thumbForm.test(body.thumb) ? make("img", { class: "thumb", src: body.thumb, alt: "" }) : null;
}

/** Shows the large picture: this phone's, else the server's. @param {import("../journal/journal.js").Journal} journal @param {any} body @param {string} label */
export async function showPhoto(journal, body, label) {
  const dialog = /** @type {HTMLDialogElement} */ (clone("part-photo"));
  const at = refs(dialog);
  at.label.textContent = label;
  const kept = await new Photos(journal.db).get(plain(body.sha256)).catch(() => null);
  const own = kept ? URL.createObjectURL(new Blob([kept.bytes], { type: "image/jpeg" })) : "";
  at.photo.alt = label;
  at.photo.addEventListener("error", () => {
    at.photo.hidden = true;
    at.gone.hidden = false;
  });
  at.photo.src = own || `/api/photos/${encodeURIComponent(plain(body.sha256))}`;
  onActions(dialog, { leave: () => dialog.close() });
  dialog.addEventListener("close", () => {
    URL.revokeObjectURL(own);
    dialog.remove();
  });
  document.body.append(dialog);
  dialog.showModal();
}
