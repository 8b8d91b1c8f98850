// @ts-check
// What can be seen on the page, and what its controls are called.

/** Everything that a finger or a key can work. */
const CONTROLS = "button, a[href], input, select, textarea, summary, label, [role=button], [role=tab], [role=link], [role=option], [role=radio], [role=checkbox], [role=switch], [data-action], [tabindex='0']";

/** White space of any kind counts as one space. @param {string} text */
function plain(text) {
  return text.replace(/\s+/g, " ").trim();
}

/** Whether an element takes up room and is drawn. @param {Element} element */
function isVisible(element) {
  const box = element.getBoundingClientRect();
  return box.width > 0 && box.height > 0 && element.checkVisibility({ opacityProperty: true, visibilityProperty: true });
}

/** Whether an element is there for screen readers only. @param {Element} element */
function isClipped(element) {
  for (let at = /** @type {Element | null} */ (element); at; at = at.parentElement) {
    const style = getComputedStyle(at);
    const box = at.getBoundingClientRect();
    if (box.width <= 1 && box.height <= 1 && style.overflow !== "visible") return true;
    if (style.clipPath === "inset(50%)" || style.clip === "rect(0px, 0px, 0px, 0px)") return true;
  }
  return false;
}

/** The part of the page that can be worked now: the top modal dialog, or all of it. */
function stage() {
  return [...document.querySelectorAll("dialog:modal")].at(-1) ?? document.body;
}

/** The block that a text stands in; texts of one block belong together. @param {Element} element */
function blockOf(element) {
  let at = /** @type {Element} */ (element);
  while (at.parentElement && at.tagName !== "text" && /^(inline|contents|ruby)$/.test(getComputedStyle(at).display)) at = at.parentElement;
  return at;
}

/**
 * What stands in an element, a line for each block; values of fields count,
 * options of a closed list do not.
 * @param {Element} root
 * @param {boolean} [heard] with what is there for screen readers only
 */
function linesOf(root, heard = false) {
  const lines = /** @type {string[]} */ ([]);
  let last = /** @type {Element | null} */ (null);
  const add = (/** @type {Element} */ element, /** @type {string} */ text) => {
    const block = blockOf(element);
    if (block === last) lines[lines.length - 1] += text;
    else lines.push(text);
    last = block;
  };
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    if (node instanceof HTMLInputElement || node instanceof HTMLTextAreaElement) {
      if (!/^(checkbox|radio|hidden)$/.test(node.type) && isVisible(node)) add(node, ` ${node.value} `);
    } else if (node instanceof HTMLSelectElement) {
      if (isVisible(node)) add(node, ` ${node.selectedOptions[0]?.label ?? ""} `);
    } else if (node instanceof Text && node.data.trim() === "") {
      if (lines.length > 0) lines[lines.length - 1] += " ";
    } else if (node instanceof HTMLBRElement) {
      last = null;
    } else if (node instanceof Text) {
      const parent = /** @type {Element} */ (node.parentElement);
      if (!parent.closest("select, script, style, template, title, desc") && parent.checkVisibility({ opacityProperty: true, visibilityProperty: true }) && (heard || !isClipped(parent))) add(parent, node.data);
    }
  }
  return lines.map(plain).filter((line) => line !== "");
}

/** What can be read on the page, for a message. */
function visibleLines() {
  return linesOf(document.body).join("\n");
}

/** The name of a control, as a screen reader would say it. @param {Element} element */
function nameOf(element) {
  const ids = element.getAttribute("aria-labelledby");
  if (ids) return plain(ids.split(/\s+/).map((id) => document.getElementById(id)?.textContent ?? "").join(" "));
  const label = element.getAttribute("aria-label");
  if (label) return plain(label);
  if ("labels" in element && element.labels instanceof NodeList && element.labels.length > 0) {
    return plain([...element.labels].map((one) => ownText(/** @type {Element} */ (one))).join(" "));
  }
  if (element instanceof HTMLInputElement && /^(button|submit|reset)$/.test(element.type)) return plain(element.value);
  return ownText(element) || plain(element.getAttribute("title") ?? element.getAttribute("placeholder") ?? "");
}

/** What an element says, pictures by their titles. @param {Element} element */
function ownText(element) {
  const text = plain(linesOf(element, true).join(" "));
  if (text) return text;
  const pictures = element.querySelectorAll("img[alt], svg[aria-label], svg > title");
  return plain([...pictures].map((one) => one.getAttribute("alt") ?? one.getAttribute("aria-label") ?? one.textContent ?? "").join(" "));
}
