// @ts-check
/**
 * Loads the wasm in the worker. The Go program sets kerfsideCall(name, json) → json, then calls
 * kerfsideReady, and lives on.
 *
 * @typedef {import("../calc/trouble.js").Trouble} Trouble
 * @typedef {{importObject: WebAssembly.Imports, run: (instance: WebAssembly.Instance) => Promise<void>}} GoRuntime
 */

import { waiting } from "../calc/trouble.js";

/**
 * Resolves with the call into the wasm, which returns the result or throws a Trouble.
 *
 * It asks the worker for its address, not import.meta: Chromium crashes the page if a worker that
 * is just being ended reads that (seen with version 156).
 * @param {string} address  of calc.wasm
 * @param {(trouble: Trouble) => void} onExit  the Go program ended: no call works any more
 * @returns {Promise<import("../calc/shapes.js").Call>}
 */
export async function load(address, onExit) {
  if (!address) throw waiting("the page does not say where they are");
  const world = /** @type {typeof globalThis & {Go: new () => GoRuntime, kerfsideReady: (value: unknown) => void, kerfsideCall: (name: string, input: string) => string}} */ (globalThis);
  // Not a static import: if it is missing, the page must hear why.
  const [module] = await Promise.all([compile(address), import(new URL("../gen/wasm_exec.js", location.href).href)]);
  /** @type {GoRuntime} */
  const go = new world.Go();
  const instance = await WebAssembly.instantiate(module, go.importObject);
  await new Promise((resolve, reject) => {
    world.kerfsideReady = resolve;
    go.run(instance).then(
      () => (onExit(waiting("the program ended")), reject(waiting("the program ended"))),
      (err) => (onExit(waiting(String(err))), reject(waiting(String(err)))),
    );
  });
  const { kerfsideCall } = world;
  return (name, input) => {
    const { ok, error } = JSON.parse(kerfsideCall(name, JSON.stringify(input)));
    if (error) throw error;
    return ok;
  };
}

/** @param {string} address @returns {Promise<WebAssembly.Module>} */
async function compile(address) {
  const fetched = fetch(address).then((response) => {
    if (!response.ok) throw waiting(`the server answered ${response.status}`);
    return response;
  });
  try {
    return await WebAssembly.compileStreaming(fetched);
  } catch (err) {
    if (!(err instanceof TypeError)) throw err;
    // Old browsers and odd proxies: no streaming, or not the right content type.
    const response = await fetch(address);
    if (!response.ok) throw waiting(`the server answered ${response.status}`);
    return WebAssembly.compile(await response.arrayBuffer());
  }
}
