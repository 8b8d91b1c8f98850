// @ts-check
// axe-core, which the step has put on the page.

/** What axe-core finds, a line for each element. */
async function axeFindings() {
  const axe = /** @type {any} */ (globalThis).axe;
  const report = await axe.run(document, {
    resultTypes: ["violations"],
    runOnly: { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa", "best-practice"] },
    rules: { "color-contrast-enhanced": { enabled: true }, "target-size": { enabled: true } },
  });
  return report.violations.flatMap((/** @type {any} */ rule) => rule.nodes.map((/** @type {any} */ node) => `${rule.id}: ${rule.help}: ${node.html.slice(0, 160)}`));
}
