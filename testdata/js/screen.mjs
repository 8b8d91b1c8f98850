// A document for tests that paint whole screens: the app's own templates in linkedom, a
// general-purpose implementation of the DOM that runs in Node.

import { readdir, readFile } from "node:fs/promises";
import { createRequire } from "node:module";

const require = createRequire(new URL("../../cmd/dev/npm/package.json", import.meta.url));
const { parseHTML } = require("linkedom");

const pwa = new URL("../../pwa/", import.meta.url);
const templates = await Promise.all(["pages/", "parts/", "guide/"].map(async (dir) => {
  const files = (await readdir(new URL(dir, pwa))).filter((name) => name.endsWith(".html"));
  return Promise.all(files.map((name) => readFile(new URL(dir + name, pwa), "utf8")));
}));

const words = { ...(await import("../../pwa/words/en.js")).en, ...(await import("../../pwa/words/guides.js")).guides };
const filled = templates.flat().join("").replace(/ data-say="([^"]*)"([^>]*>)/g, (_, key, end) => end + words[key]).replace(/data-say-label="([^"]*)"/g, (_, key) => `aria-label="${words[key]}"`); // as pwa/words.go does

const { document, window } = parseHTML(`<!doctype html><html><body><main></main>${filled}</body></html>`);
const { CustomEvent, Element, HTMLElement, HTMLTemplateElement } = window;
const history = { state: null, pushState(state) { this.state = state; }, replaceState(state) { this.state = state; }, go() { this.state = null; } };
Object.assign(globalThis, { CSS: { supports: () => false }, history, document, CustomEvent, Element, HTMLElement, HTMLTemplateElement, addEventListener() {}, scrollTo() {} });
Element.prototype.scrollIntoView = () => {}; // linkedom lays nothing out

/** A fresh place for a screen. */
export function place() {
  const main = document.querySelector("main");
  main.replaceChildren();
  return main;
}

/** What stands under [data-ref=name], row by row. */
export function rows(main, name) {
  return [...main.querySelector(`[data-ref="${name}"]`).children].map((row) => row.textContent);
}
