// @ts-check
// Blunt fingers: what a gloved hand hits that aims at the middle of each control.
//
// The model is our own ("worked"); no published source gives the spread of gloved taps. Sizes of
// fingers and of pixels: a contact 15 mm wide, a CSS pixel of a phone 1/160 inch. "3 mm of jitter" is
// the root mean square of the distance between aim and contact: each of both directions is drawn
// from a normal distribution of 3 mm / √2. The touch is where browsers have it, in the middle of the
// contact; of a contact that reaches over the edge of the glass, in the middle of the part on it.

const PER_MM = 160 / 25.4;
const CONTACT = 15 * PER_MM;
const SPREAD = (3 / Math.SQRT2) * PER_MM;
const DRAWS = 1000;

/** How far from the aim the contacts come down: the same for every control, so that one layout has one answer. */
function bluntDraws() {
  let state = 20261129;
  const uniform = () => {
    // mulberry32, a public domain generator
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  return Array.from({ length: DRAWS }, () => {
    const [far, angle] = [SPREAD * Math.sqrt(-2 * Math.log(1 - uniform())), 2 * Math.PI * uniform()];
    return { right: far * Math.cos(angle), down: far * Math.sin(angle) };
  });
}

/** Where a browser has the touch of a contact around a place. @param {number} at @param {number} size of the glass */
function middleOnGlass(at, size) {
  return (Math.max(at - CONTACT / 2, 0) + Math.min(at + CONTACT / 2, size)) / 2;
}

/** The part of the glass in which an element can be seen when nothing of the page's frame lies over it. @param {Element} element */
function port(element) {
  const all = { top: 0, bottom: innerHeight };
  if (element.closest("dialog") || isFixed(element)) return all;
  for (const frame of document.querySelectorAll(".strip, .bar, .dock, .toasts")) {
    const { top, bottom, height } = frame.getBoundingClientRect();
    if (!height || !isFixed(frame)) continue;
    if (top <= 0) all.top = Math.max(all.top, bottom);
    else if (top < innerHeight && bottom > innerHeight / 2) all.bottom = Math.min(all.bottom, top);
  }
  return all;
}

/** Aims at every control of the page, or of the dialog over it. */
async function bluntTaps() {
  const root = stage();
  const targets = outer(controlsIn(root).filter((element) => isTarget(element) && !isClipped(element) && !element.matches(":disabled, [aria-disabled=true]")));
  const owners = /** @type {Map<Element, Element | null>} */ (new Map()); // of what a touch hits
  const draws = bluntDraws();
  const told = { draws: 0, missed: 0, controls: 0, main: 0, wrong: 0, found: /** @type {string[]} */ ([]) };
  for (const element of targets) {
    if (!isVisible(element)) continue;
    let { top, bottom } = port(element);
    let box = element.getBoundingClientRect();
    if (box.top < top || box.bottom > bottom) {
      element.scrollIntoView({ block: "center", inline: "center", behavior: "instant" });
      await frame();
      ({ top, bottom } = port(element));
      box = element.getBoundingClientRect();
    }
    const x = (Math.max(box.left, 0) + Math.min(box.right, innerWidth)) / 2;
    const y = (Math.max(box.top, top) + Math.min(box.bottom, bottom)) / 2;
    const aimed = document.elementFromPoint(x, y);
    if (!aimed || !belongs(aimed, element)) {
      told.found.push(`${describe(element)} at ${Math.round(x)}, ${Math.round(y)} is covered by ${aimed ? describe(aimed) : "nothing that can be touched"}`);
      continue;
    }
    const wrong = /** @type {Map<Element, number>} */ (new Map());
    for (const { right, down } of draws) {
      const hit = document.elementFromPoint(middleOnGlass(x + right, innerWidth), middleOnGlass(y + down, innerHeight));
      if (hit && !owners.has(hit)) owners.set(hit, targets.find((one) => belongs(hit, one)) ?? null);
      const other = hit && owners.get(hit);
      if (other === element) continue;
      if (other) wrong.set(other, (wrong.get(other) ?? 0) + 1);
      else told.missed++;
    }
    const isMain = element.matches(PRIMARY_KINDS);
    const sum = [...wrong.values()].reduce((a, b) => a + b, 0);
    told.draws += draws.length;
    told.controls++;
    if (isMain) told.main++;
    told.wrong += sum;
    if (isMain ? sum > 0 : sum >= draws.length / 100) {
      const where = [...wrong].map(([other, times]) => `${times} on ${describe(other)}`).join(", ");
      told.found.push(`${isMain ? "main " : ""}${describe(element)}, ${Math.round(box.width)} x ${Math.round(box.height)} px: of ${draws.length} taps ${where}`);
    }
  }
  return told;
}
