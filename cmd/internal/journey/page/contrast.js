// @ts-check
// Contrast of text by computation, after WCAG 2.2 (contrast ratio, relative
// luminance). 7:1 for all text, large or not: it is read in the sun.

const CONTRAST = 7;

/** Every text that stands out less than it must. */
function contrastFindings() {
  const found = new Map();
  const walker = document.createTreeWalker(stage(), NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const element = node.parentElement;
    if (!element || (node.textContent ?? "").trim() === "" || found.has(element)) continue;
    if (element.closest("script, style, template, title, desc, option, :disabled") || !isVisible(element) || isClipped(element)) continue;
    const text = document.createRange();
    text.selectNodeContents(node);
    const finding = contrastOf(element, text.getBoundingClientRect());
    if (finding) found.set(element, finding);
  }
  for (const field of stage().querySelectorAll("input, textarea, select")) {
    if (isVisible(field) && !field.matches(":disabled, [type=radio], [type=checkbox], [type=range], [type=file]")) {
      const finding = contrastOf(field, field.getBoundingClientRect());
      if (finding) found.set(field, finding);
    }
  }
  return [...found.values()];
}

/** @param {Element} element @param {DOMRect} box where its text stands */
function contrastOf(element, box) {
  const style = getComputedStyle(element);
  const ground = groundOf(element, box);
  if (typeof ground === "string") return `${describe(element)}: ${ground}`;
  const ink = colour(element instanceof SVGElement ? style.fill : style.color);
  ink[3] *= opacityOf(element);
  const ratio = contrastRatio(over(ink, ground), ground);
  if (ratio >= CONTRAST - 0.005) return "";
  return `${describe(element)}: contrast ${ratio.toFixed(2)}, under ${CONTRAST}: ${style.color} on rgb(${ground.slice(0, 3).map(Math.round).join(", ")})`;
}

/**
 * The colour behind an element, or why it cannot be told. Of a gradient or a
 * picture no single colour is right, so text may not stand on one; a strip of
 * one along an edge, away from the text, does not matter.
 * @param {Element} element
 * @param {DOMRect} box where its text stands
 * @returns {number[] | string}
 */
function groundOf(element, box) {
  const layers = [];
  for (let at = /** @type {Element | null} */ (element); at; at = at.parentElement) {
    const style = getComputedStyle(at);
    if (style.backgroundImage !== "none" && paintedUnder(at, style, box)) return `it stands on a picture or gradient of ${describe(at)}`;
    const paint = colour(style.backgroundColor);
    paint[3] *= opacityOf(at);
    if (paint[3] > 0) layers.push(paint);
    if (paint[3] >= 1) break;
  }
  return layers.reduceRight((under, layer) => over(layer, under), [255, 255, 255, 1]);
}

/**
 * Whether the one background picture of a block reaches under a text in it.
 * Anything but a single picture that is not repeated counts as everywhere.
 * @param {Element} block
 * @param {CSSStyleDeclaration} style of the block
 * @param {DOMRect} box where the text stands
 */
function paintedUnder(block, style, box) {
  const lengths = (/** @type {string} */ text) => text.split(" ").map((part) => part.match(/^(-?[\d.]+)(px|%)$/));
  const [size, place] = [lengths(style.backgroundSize), lengths(style.backgroundPosition)];
  if (style.backgroundRepeat !== "no-repeat" || size.length !== 2 || place.length !== 2 || [...size, ...place].includes(null)) return true;
  const room = block.getBoundingClientRect();
  const whole = [room.width, room.height];
  const extent = size.map((part, i) => (part?.[2] === "%" ? (whole[i] * Number(part[1])) / 100 : Number(part?.[1])));
  const start = place.map((part, i) => (part?.[2] === "%" ? ((whole[i] - extent[i]) * Number(part[1])) / 100 : Number(part?.[1])));
  const across = box.left < room.left + start[0] + extent[0] && box.right > room.left + start[0];
  const down = box.top < room.top + start[1] + extent[1] && box.bottom > room.top + start[1];
  return across && down;
}

/** How much of an element shows through all that it stands in. @param {Element} element */
function opacityOf(element) {
  let all = 1;
  for (let at = /** @type {Element | null} */ (element); at; at = at.parentElement) all *= Number(getComputedStyle(at).opacity);
  return all;
}

/**
 * Any CSS colour as red, green, blue from 0 to 255 and alpha from 0 to 1, read
 * back from a canvas, which knows every way to write one.
 * @param {string} text
 */
function colour(text) {
  const plainRGB = text.match(/^rgba?\((\d+), (\d+), (\d+)(?:, ([\d.]+))?\)$/);
  if (plainRGB) return [Number(plainRGB[1]), Number(plainRGB[2]), Number(plainRGB[3]), plainRGB[4] === undefined ? 1 : Number(plainRGB[4])];
  const canvas = new OffscreenCanvas(1, 1).getContext("2d");
  if (!canvas) throw new Error("no canvas to read colours with");
  canvas.fillStyle = text;
  canvas.fillRect(0, 0, 1, 1);
  const [r, g, b, a] = canvas.getImageData(0, 0, 1, 1).data;
  return [r, g, b, a / 255];
}

/** One colour laid over another that is opaque. @param {number[]} top @param {number[]} under */
function over(top, under) {
  return [0, 1, 2].map((i) => top[i] * top[3] + under[i] * (1 - top[3])).concat(1);
}

/** WCAG 2.2, definition of contrast ratio. @param {number[]} a @param {number[]} b */
function contrastRatio(a, b) {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

/** WCAG 2.2, definition of relative luminance. @param {number[]} rgb */
function luminance(rgb) {
  const [r, g, b] = rgb.slice(0, 3).map((value) => {
    const part = value / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
