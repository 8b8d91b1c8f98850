// What pages and templates ask of a browser.

import { parseHTML } from "linkedom";
import { known } from "./support.mjs";

/** @param {string} text @param {string} file @returns {import("./scripts.mjs").Use[]} */
export function usesOfMarkup(text, file) {
  const { document } = parseHTML(text.includes("<html") ? text : `<!doctype html><html><body>${text}</body></html>`);
  /** @type {import("./scripts.mjs").Use[]} */ const uses = [];
  const look = (root) => {
    for (const element of root.querySelectorAll("*")) {
      const tag = element.localName;
      const [world, every] = element.closest?.("svg") ? ["svg", "global_attributes"] : ["html", "global_attributes"];
      const features = [known(world, "elements", tag)];
      for (const { name, value } of element.attributes) {
        features.push(known(world, "elements", tag, name) ?? known(world, every, name), known(world, "elements", tag, name, value), known(world, every, name, value));
      }
      const first = text.split("\n").findIndex((line) => line.includes(`<${tag}`));
      for (const feature of features) if (feature) uses.push({ feature, file, line: first + 1 });
      if (tag === "template") look(element.content);
    }
  };
  look(document);
  return uses;
}
