// What style sheets ask of a browser.

import { parse, walk } from "css-tree";
import { known } from "./support.mjs";

const units = {
  dvh: "viewport_percentage_units_dynamic", dvw: "viewport_percentage_units_dynamic", dvb: "viewport_percentage_units_dynamic", dvi: "viewport_percentage_units_dynamic", dvmin: "viewport_percentage_units_dynamic", dvmax: "viewport_percentage_units_dynamic",
  svh: "viewport_percentage_units_small", svw: "viewport_percentage_units_small", lvh: "viewport_percentage_units_large", lvw: "viewport_percentage_units_large",
  cqw: "container_query_length_units", cqh: "container_query_length_units", cqi: "container_query_length_units", cqb: "container_query_length_units", cqmin: "container_query_length_units", cqmax: "container_query_length_units",
};

/** @param {string} text @param {string} file @returns {import("./scripts.mjs").Use[]} */
export function usesOfStyle(text, file) {
  /** @type {import("./scripts.mjs").Use[]} */ const uses = [];
  const tree = parse(text, { positions: true, parseCustomProperty: true, onParseError: (err) => { throw new Error(`${file}:${err.line}: ${err.message}`); } });
  let property = "";
  let depth = 0;
  const use = (node, ...paths) => {
    const feature = paths.map((path) => known("css", ...path)).find(Boolean);
    if (feature) uses.push({ feature, file, line: node.loc.start.line });
  };
  walk(tree, {
    enter(node) {
      if (node.type === "Rule" && depth++ > 0) use(node, ["selectors", "nesting"]);
      if (node.type === "Declaration") {
        property = node.property;
        use(node, ["properties", property]);
      } else if (node.type === "Atrule") {
        use(node, ["at-rules", node.name]);
      } else if (node.type === "Feature") {
        use(node, ["at-rules", "media", node.name]);
      } else if (node.type === "PseudoClassSelector" || node.type === "PseudoElementSelector") {
        use(node, ["selectors", node.name]);
      } else if (node.type === "NestingSelector") {
        use(node, ["selectors", "nesting"]);
      } else if (node.type === "Identifier" && property) {
        use(node, ["properties", property, node.name]);
      } else if (node.type === "Function") {
        use(node, ["types", node.name], ["types", "color", node.name], ["types", "image", node.name], ["types", "gradient", node.name], ["types", "filter-function", node.name], ["types", "transform-function", node.name], ["types", "easing-function", node.name], ["properties", property, node.name]);
      } else if (node.type === "Dimension") {
        use(node, ["types", "length", units[node.unit] ?? node.unit], ["types", "resolution", node.unit], ["types", "time", node.unit]);
      }
    },
    leave(node) {
      if (node.type === "Rule") depth--;
      if (node.type === "Declaration") property = "";
    },
  });
  return uses;
}
