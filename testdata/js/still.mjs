// The drawings that never change, as the server tells them of the files in pwa/draw/still.
import { readFileSync, readdirSync } from "node:fs";
import { createRequire } from "node:module";

const { DOMParser } = createRequire(new URL("../../cmd/dev/npm/package.json", import.meta.url))("linkedom");
const folder = new URL("../../pwa/draw/still/", import.meta.url);

const shape = (element) => ({
  name: element.localName,
  attrs: Object.fromEntries([...element.attributes].map(({ name, value }) => [name, value])),
  ...(element.children.length ? { shapes: [...element.children].map(shape) } : { text: element.textContent }),
});

/** @type {Record<string, import("../../pwa/types/server.js").Still>} */
export const still = Object.fromEntries(readdirSync(folder).map((file) => {
  const svg = new DOMParser().parseFromString(readFileSync(new URL(file, folder), "utf8"), "image/svg+xml").documentElement;
  const [title, desc, ...shapes] = [...svg.children];
  const [, , width, height] = svg.getAttribute("viewBox").split(" ").map(Number);
  return [file.replace(/\.svg$/, ""), { width, height, title: title.textContent, desc: desc.textContent, shapes: shapes.map(shape) }];
}));
