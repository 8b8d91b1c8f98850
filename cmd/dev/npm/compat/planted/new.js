// @ts-check
// Each line of code is newer than the oldest browsers.
export const sorted = [3, 1].toSorted();
/** @param {any} list */
export const anySorted = (list) => list.toSorted();
export const behind = /(?<=a)b/;
export const behindText = new RegExp("(?<!a)b" + String(behind));
export const grouped = Object.groupBy([1], (x) => String(x));
export const late = AbortSignal.timeout(5);
export const packed = new CompressionStream("gzip");
export const over = document.body.showPopover();
export const promised = Promise.withResolvers();
export const mapped = [..."a"].values().map((v) => v);
export const off = new OffscreenCanvas(1, 1);
