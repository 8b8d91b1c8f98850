// Starts a wasm of Go once under Node and prints in milliseconds how long that took from
// the start of the process until it was ready for calls, or ended, and what all processors
// did until half a second later: by then the engine is through with what it optimizes.
// Arguments: wasm_exec.js, the wasm.
"use strict";
const [, , loader, wasm] = process.argv;
globalThis.fs = require("fs");
globalThis.path = require("path");
require(loader);
const say = () => {
  const ready = performance.now();
  setTimeout(() => {
    const { user, system } = process.cpuUsage();
    fs.writeSync(1, `${ready} ${(user + system) / 1000}\n`);
    process.exit(0);
  }, 500);
};
globalThis.kerfsideReady = say;
const go = new Go();
WebAssembly.instantiate(fs.readFileSync(wasm), go.importObject).then(({ instance }) => go.run(instance)).then(say);
