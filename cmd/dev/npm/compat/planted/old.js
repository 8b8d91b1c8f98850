// @ts-check
// All oldest browsers know this, or are asked first.
export const last = [3, 1].at(-1);
export const copy = structuredClone(new Map());
export const any = AbortSignal.any?.([]);
export const named = /(?<year>\d{4})(?!x)/.exec("2026");
export const caused = new Error("x", { cause: 1 });
export const record = { toSorted: 1 }.toSorted;
