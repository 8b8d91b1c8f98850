// @ts-check
// What the eye finds without a finger: whole on the glass, and nothing over it.

/**
 * What is meant by a name or a text: a control, "@ref", or else the smallest block that says it.
 * @param {string} wanted
 */
function thing(wanted) {
  try {
    const found = control(wanted);
    return isClipped(found) ? found.closest("label") ?? found : found; // what is seen of a control that takes files
  } catch (trouble) {
    if (wanted.startsWith("@")) throw trouble;
  }
  const saying = [...stage().querySelectorAll("*")].filter((e) => isVisible(e) && !isClipped(e) && plain(linesOf(e).join(" ")).includes(plain(wanted)));
  const found = saying.filter((e) => !saying.some((other) => other !== e && e.contains(other)));
  if (found.length === 0) throw new Error("it cannot be read on the page");
  return found[0];
}

/** It stands whole on the first screenful: the page is as it is before anybody scrolls. @param {string} wanted */
async function upfront(wanted) {
  const element = thing(wanted);
  for (let at = element.parentElement; at; at = at.parentElement) at.scrollTo({ top: 0, behavior: "instant" });
  await frame();
  whole(element);
}

/** It stands whole on the glass as the page lies now. @param {string} wanted */
function inView(wanted) {
  whole(thing(wanted));
}

/** How far within its edge an element is felt for, in CSS pixels. */
const RIM = 3;

/** @param {Element} element */
function whole(element) {
  const { left, right, top, bottom } = element.getBoundingClientRect();
  const where = `it stands from ${Math.round(top)} to ${Math.round(bottom)} px on a screen of ${innerHeight} px`;
  if (top < 0 || bottom > innerHeight + 1 || left < -1 || right > innerWidth + 1) throw new Error(where);
  const [across, down] = [Math.min(RIM, (right - left) / 2), Math.min(RIM, (bottom - top) / 2)];
  for (const [x, y] of [[(left + right) / 2, (top + bottom) / 2], [left + across, top + down], [right - across, bottom - down]]) {
    const hit = document.elementFromPoint(x, y);
    if (!hit || !hit.contains(element) && !element.contains(hit) && !shares(hit, element)) throw new Error(`${where}, covered by ${hit ? describe(hit) : "nothing that can be touched"}`);
  }
}

/** Whether both are parts of one control or drawn in one label: what is drawn in them takes no touch. @param {Element} hit @param {Element} element */
function shares(hit, element) {
  const of = element.closest(CONTROLS);
  return of !== null && of.contains(hit);
}

/** The page has come: there are words in what it is about, and they are drawn. */
async function painted() {
  const main = document.querySelector("main");
  if (main && linesOf(main).length === 0) throw new Error("nothing can be read on the page yet");
  await frame();
  await frame();
}
