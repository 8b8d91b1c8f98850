// @ts-check
/** Hands a text to the phone as a file. @param {string} name @param {string} text @param {string} [type] */
export function download(name, text, type = "application/x-ndjson") {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
