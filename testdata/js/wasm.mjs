// The app's own wasm in Node, through the app's own loader: what the worker holds.

import { readFile } from "node:fs/promises";

const gen = new URL("../../pwa/gen/", import.meta.url);
let bytes;

/** A fresh start of the wasm; returns its call(name, input). */
export async function startWasm() {
  bytes ??= await readFile(new URL("calc.wasm", gen)).catch(() => {
    throw new Error("pwa/gen/calc.wasm is not built: go run ./cmd/dev test builds it first");
  });
  const { fetch, location } = globalThis;
  globalThis.location = new URL("../../pwa/worker/worker.js", import.meta.url); // where the worker would be
  globalThis.fetch = async () => new Response(bytes, { headers: { "Content-Type": "application/wasm" } });
  try {
    const { load } = await import("../../pwa/worker/load.js");
    return await load("/w/0/calc.wasm", (trouble) => {
      throw new Error(trouble.msg);
    });
  } finally {
    Object.assign(globalThis, { fetch, location });
  }
}
