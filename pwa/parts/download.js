// @ts-check
/**
 * Hands a file to the phone: by its share sheet where that takes such files (W3C, Web Share), for on iOS a
 * download may open in the place of the app; else as a download.
 * @param {string} name @param {BlobPart} data @param {string} [type]
 * @returns {Promise<boolean>} whether it lies among the downloads: a share sheet says itself what became of it
 */
export async function handOver(name, data, type = "application/x-ndjson") {
  const file = new File([data], name, { type });
  const sheet = { files: [file] };
  // A person who closes the sheet wants no file; a browser that refuses it, for the tap was long ago, gets the other way.
  if (navigator.canShare?.(sheet) && (await navigator.share(sheet).then(() => true, (err) => err.name === "AbortError"))) return false;
  const url = URL.createObjectURL(file);
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
  return true;
}

/** Hands words to the share sheet; false where there is none, or it takes no words. @param {string} text */
export function shared(text) {
  return navigator.share?.({ text }).then(() => true, (err) => err.name === "AbortError") ?? false;
}
