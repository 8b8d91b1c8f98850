// @ts-check
// axe-core, which the step has put on the page.

/** What lies over the page while it scrolls under. */
const OVER = ".dock, .bar, .strip";

/** What axe-core finds, a line for each element. */
async function axeFindings() {
  const axe = /** @type {any} */ (globalThis).axe;
  const report = await axe.run(document, {
    elementRef: true,
    resultTypes: ["violations"],
    runOnly: { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa", "best-practice"] },
    rules: { "color-contrast-enhanced": { enabled: true }, "target-size": { enabled: true } },
  });
  return report.violations.flatMap((/** @type {any} */ rule) => rule.nodes.filter((/** @type {any} */ node) => !(rule.id === "target-size" && isHalfUnder(node.element))).map((/** @type {any} */ node) => `${rule.id}: ${rule.help}: ${node.html.slice(0, 160)}`));
}

/**
 * Whether a part of an element lies under what is docked. axe counts only the rest of it as its size, but a scroll
 * brings all of it out, and "targets" measures all of it.
 * @param {Element} element
 */
function isHalfUnder(element) {
  if (element.closest(OVER)) return false;
  const box = element.getBoundingClientRect();
  return [...document.querySelectorAll(OVER)].some((over) => {
    const { top, bottom, left, right } = over.getBoundingClientRect();
    return box.top < bottom && box.bottom > top && box.left < right && box.right > left;
  });
}
