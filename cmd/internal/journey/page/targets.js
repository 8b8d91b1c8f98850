// @ts-check
// Sizes for gloves. A CSS pixel of a phone is taken as 1/160 inch: 56 px are
// 9 mm, 96 px are 15 mm.

const LEAST = 56;
const PRIMARY = 96;
/** What the app marks as the one thing to do on a screen. */
const PRIMARY_KINDS = ".button--primary, .button--arc, .arc, [data-primary]";
/** Half a pixel for rounding. */
const SLACK = 0.5;

/** Everything on the page that is too small, cut off, or lies over another. */
function targetFindings() {
  const root = stage();
  const targets = outer(controlsIn(root).filter((element) => isTarget(element) && !isClipped(element)));
  return [...targets.flatMap(sizeFindings), ...overlapFindings(targets), ...cutFindings(root)];
}

/**
 * Whether an element is touched for itself: not a label of a text field, not a
 * tick whose label is the bigger target.
 * @param {Element} element
 */
function isTarget(element) {
  if (element instanceof HTMLLabelElement) return element.control instanceof HTMLInputElement && /^(radio|checkbox|file)$/.test(element.control.type);
  if (element instanceof HTMLInputElement && /^(radio|checkbox|file)$/.test(element.type)) return ![...(element.labels ?? [])].some(isVisible);
  return !element.matches("[tabindex='-1'][aria-hidden=true]");
}

/** @param {Element} element */
function sizeFindings(element) {
  const found = /** @type {string[]} */ ([]);
  const box = element.getBoundingClientRect();
  const size = `${Math.round(box.width)} x ${Math.round(box.height)} px`;
  if (box.width < LEAST - SLACK || box.height < LEAST - SLACK) found.push(`${describe(element)} is ${size}, under ${LEAST} px`);
  // The number pad shows all its keys at once, so the one that closes it is a key like the others.
  if (element.matches(PRIMARY_KINDS) && !element.closest("dialog")?.querySelector("[data-ref=keys]")) {
    if (box.height < PRIMARY - SLACK) found.push(`primary ${describe(element)} is ${size}, under ${PRIMARY} px high`);
    const room = /** @type {Element} */ (blockOf(/** @type {Element} */ (element.parentElement)));
    const style = getComputedStyle(room);
    const width = room.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
    if (box.width < width - 1) found.push(`primary ${describe(element)} is ${Math.round(box.width)} px wide in ${Math.round(width)} px of room`);
  }
  return found;
}

/** Pairs of targets that share room. Fixed bars lie over what scrolls, and what does not reach its place yet is between both. @param {Element[]} targets */
function overlapFindings(targets) {
  const boxes = targets.map((element) => ({ element, box: element.getBoundingClientRect(), fixed: isFixed(element), between: isBelow(element) }));
  const found = /** @type {string[]} */ ([]);
  for (const [i, a] of boxes.entries()) {
    for (const b of boxes.slice(i + 1)) {
      if (a.fixed !== b.fixed || a.between !== b.between) continue;
      const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
      const down = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
      if (across > 1 && down > 1) found.push(`${describe(a.element)} and ${describe(b.element)} overlap`);
    }
  }
  return found;
}

/** Whether an element would stick above the lower edge, and has no room for that yet in what it sticks within. @param {Element} element */
function isBelow(element) {
  for (let at = /** @type {Element | null} */ (element); at; at = at.parentElement) {
    const { position, bottom } = getComputedStyle(at);
    if (position === "sticky" && parseFloat(bottom) >= 0 && at.getBoundingClientRect().bottom > innerHeight - parseFloat(bottom) + 1) return true;
  }
  return false;
}

/** Whether an element keeps its place while the page scrolls. @param {Element} element */
function isFixed(element) {
  for (let at = /** @type {Element | null} */ (element); at; at = at.parentElement) {
    const { position, top, bottom } = getComputedStyle(at);
    if (position === "fixed" || position === "sticky" && [top, bottom].some((edge) => parseFloat(edge) >= 0)) return true; // sticky far beyond its edge flows with the page
  }
  return false;
}

/** What cannot be read or reached. @param {Element} root */
function cutFindings(root) {
  const found = /** @type {string[]} */ ([]);
  // Not innerWidth: a phone zooms out of a page that is too wide.
  const width = document.documentElement.clientWidth;
  const page = /** @type {Element} */ (document.scrollingElement);
  if (page.scrollWidth > width + 1) found.push(`the page is ${page.scrollWidth} px wide on a screen of ${width} px`);
  const past = /** @type {Element[]} */ ([]);
  for (const element of root.querySelectorAll("*")) {
    if (!(element instanceof HTMLElement) || !isVisible(element) || isClipped(element)) continue;
    const style = getComputedStyle(element);
    if (hasText(element) && style.display !== "inline") {
      if (/hidden|clip/.test(style.overflowX) && element.scrollWidth > element.clientWidth + 1) found.push(`the text of ${describe(element)} is cut off at the side`);
      if (/hidden|clip/.test(style.overflowY) && element.scrollHeight > element.clientHeight + 1) found.push(`the text of ${describe(element)} is cut off below`);
    }
    const box = element.getBoundingClientRect();
    if (hasText(element) && (box.right > width + 1 || box.left < -1) && !scrollsSideways(element)) past.push(element);
  }
  // Where one is too wide the others follow it; the widest tell enough.
  past.sort((a, b) => b.getBoundingClientRect().width - a.getBoundingClientRect().width);
  return found.concat(past.slice(0, 3).map((element) => `${describe(element)} reaches past the side of the screen`));
}

/** Whether text stands in the element itself. @param {Element} element */
function hasText(element) {
  return [...element.childNodes].some((node) => node instanceof Text && node.data.trim() !== "");
}

/** Whether an element stands in a part that scrolls sideways by itself. @param {Element} element */
function scrollsSideways(element) {
  for (let at = element.parentElement; at && at !== document.body; at = at.parentElement) {
    if (/auto|scroll/.test(getComputedStyle(at).overflowX)) return true;
  }
  return false;
}
