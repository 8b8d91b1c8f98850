// @ts-check
/** What a JPEG file holds beside its picture. */

/** Markers: the begin of the coded lines, a comment, and what a mere picture needs of APPn: JFIF, colour profile, coding of colours. */
const startOfScan = 0xda;
const comment = 0xfe;
const needed = [0xe0, 0xe2, 0xee];

/**
 * A canvas writes no place and no time, but some (those of iPhones) write Exif and notes of their own.
 * The server refuses what it cannot tell from a place, so they are left out.
 * @param {ArrayBuffer} file @returns {Blob}
 */
export function withoutNotes(file) {
  const from = new Uint8Array(file);
  const parts = [from.subarray(0, 2)];
  let at = 2;
  while (at + 4 <= from.length && from[at] === 0xff && from[at + 1] !== startOfScan) {
    const marker = from[at + 1];
    const end = at + 2 + from[at + 2] * 256 + from[at + 3];
    if (marker !== comment && (marker < 0xe0 || marker > 0xef || needed.includes(marker))) parts.push(from.subarray(at, end));
    at = end;
  }
  return new Blob([...parts, from.subarray(at)], { type: "image/jpeg" });
}
