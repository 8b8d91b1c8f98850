// @ts-check
/** Ten taps with the glove on: does this glass feel it? */
import { clone, onActions, refs } from "../parts/dom.js";
import { say } from "../words/words.js";

const taps = 10;
/** Taps closer together than this are one bounce, ms. */
const bounce = 300;

export class GloveTestPage {
  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  start() {
    const root = clone("page-glove-test");
    const at = refs(root);
    this.element.append(root);
    let count = 0;
    let first = 0;
    let last = 0;
    at.count.textContent = `0 / ${taps}`;
    onActions(root, {
      tap: () => {
        const now = Date.now();
        if (now - last < bounce) return;
        first ||= now;
        last = now;
        count++;
        at.count.textContent = `${count} / ${taps}`;
        if (count < taps) return;
        at.told.textContent = say("glove.good", { s: Math.round((now - first) / 100) / 10 });
        count = first = 0;
      },
    });
    at.told.textContent = say("glove.none");
  }
}
