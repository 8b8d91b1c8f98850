// @ts-check
/**
 * Reads a picture from a file and makes it small enough to keep: drawn anew
 * through a canvas, which leaves the place where it was taken behind.
 */
import { withoutNotes } from "./jpeg.js";
import { say } from "../words/words.js";

/** The longest side that is kept, pixels, and how many bytes it may take. */
const keptSide = 1600;
const keptBytes = 400_000;
/** The thumbnail's longest side, pixels, and characters as a data address. */
const thumbSide = 160;
const thumbLength = 4096;
/** The longest side that is worked on. A phone's memory holds it with ease. */
const openSide = 4096;
/** What a camera may have taken, pixels: where a browser decodes all of them first they take four bytes each for a moment. */
const most = 64e6;

/** @typedef {{sha256: string, type: string, bytes: ArrayBuffer, w: number, h: number, thumb: string}} Encoded */

/** @param {Blob} file @returns {Promise<ImageBitmap>} upright, its longest side no longer than is worked on; rejects with a Trouble if it is no picture */
export async function openPicture(file) {
  const image = new Image();
  image.src = URL.createObjectURL(file);
  try {
    await new Promise((resolve, reject) => ([image.onload, image.onerror] = [resolve, reject])); // its size is known, nothing is decoded
    const size = { width: image.naturalWidth, height: image.naturalHeight };
    if (size.width * size.height > most) throw "large";
    const { width, height } = fitted(size, openSide);
    if (width === size.width) return await createImageBitmap(file);
    return await decodedSmall(file, width, height).catch(() => reduced(image, size.width, width, height));
  } catch (trouble) {
    const n = Math.round((image.naturalWidth * image.naturalHeight) / 1e6);
    if (trouble === "large") throw { kind: "range", msg: say("picture.large", { n }), hint: say("picture.large.hint", { most: most / 1e6 }) };
    throw { kind: "malformed", msg: say("picture.unread"), hint: say("picture.unread.hint") };
  } finally {
    URL.revokeObjectURL(image.src);
  }
}

/** @param {ImageBitmap} picture @returns {Promise<Encoded>} */
export async function encodePicture(picture) {
  const { blob, w, h } = await smallEnough(picture, keptSide, (candidate) => candidate.size <= keptBytes);
  const bytes = await blob.arrayBuffer();
  const sha256 = await hashOf(bytes);
  // Base64 takes four characters for three bytes.
  const small = await smallEnough(picture, thumbSide, (candidate) => Math.ceil(candidate.size / 3) * 4 + 23 <= thumbLength);
  return { sha256, type: blob.type, bytes, w, h, thumb: await dataAddress(small.blob) };
}

/** The name of a picture: the SHA-256 of its bytes in hex. @param {ArrayBuffer} bytes */
export async function hashOf(bytes) {
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return [...sum].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** The picture as it is worked on, pixel by pixel, for a draft. @param {ImageBitmap} picture @returns {Promise<{type: string, bytes: ArrayBuffer}>} */
export async function encodeWhole(picture) {
  const blob = await drawn(picture, picture.width, picture.height).encode(0.9);
  if (!blob) throw new Error("no room to draw the picture anew");
  return { type: blob.type, bytes: await blob.arrayBuffer() };
}

// Free helpers

/** @param {ImageBitmapSource} from @param {number} was  its width @param {number} width @param {number} height */
const reduced = (from, was, width, height) => createImageBitmap(from, was > width ? { resizeWidth: width, resizeHeight: height, resizeQuality: "high" } : {});

/** A picture that is never whole in memory: a decoder of lines that writes fewer of them. Rejects where the browser has none. @param {Blob} file @param {number} width @param {number} height */
async function decodedSmall(file, width, height) {
  const decoder = new ImageDecoder({ data: file.stream(), type: file.type, desiredWidth: width, desiredHeight: height });
  try {
    const { image } = await decoder.decode();
    return await reduced(image, image.displayWidth, width, height).finally(() => image.close());
  } finally {
    decoder.close();
  }
}

/** Steps the quality down, then the size, until it fits. @param {ImageBitmap} picture @param {number} side @param {(blob: Blob) => boolean} fits */
async function smallEnough(picture, side, fits) {
  for (let longest = side; ; longest = Math.round(longest * 0.8)) {
    const { width: w, height: h } = fitted(picture, longest);
    const { encode } = drawn(picture, w, h);
    for (const quality of [0.85, 0.7, 0.55, 0.4]) {
      const blob = await encode(quality);
      if (blob && (fits(blob) || longest < 32)) return { blob, w, h };
    }
  }
}

/** Draws the picture anew, and so without what its file says. @param {ImageBitmap} picture @param {number} w @param {number} h */
function drawn(picture, w, h) {
  const canvas = Object.assign(document.createElement("canvas"), { width: w, height: h });
  const pen = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d"));
  pen.imageSmoothingQuality = "high";
  pen.fillStyle = "#fff"; // JPEG knows no holes
  pen.fillRect(0, 0, w, h);
  pen.drawImage(picture, 0, 0, w, h);
  return {
    /** @param {number} quality @returns {Promise<Blob|null>} null: no room for it */
    async encode(quality) {
      const blob = /** @type {Blob|null} */ (await new Promise((resolve) => canvas.toBlob(resolve, "image/jpeg", quality)));
      return blob && withoutNotes(await blob.arrayBuffer());
    },
  };
}

/** @param {{width: number, height: number}} size @param {number} side */
function fitted({ width, height }, side) {
  const share = Math.min(1, side / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * share)), height: Math.max(1, Math.round(height * share)) };
}

/** @param {Blob} blob @returns {Promise<string>} */
function dataAddress(blob) {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result));
    reader.onerror = () => reject(reader.error);
    reader.readAsDataURL(blob);
  });
}
