// @ts-check
/**
 * In a tab, iOS clears all that a site keeps there after seven days in which the browser was used and the site
 * was not; not so for what lies on the home screen (webkit.org/tracking-prevention, "7-Day Cap on All
 * Script-Writeable Storage"). That keeps its entries apart from the tab's.
 */
import { find, keep } from "../browser/storage.js";
import { say } from "../words/words.js";

/** So long after an entry nothing stands any more of what it said, with its Undo, ms. */
const later = 20_000;

/** Whether this is a tab on iOS, whose engine alone knows that property. */
export function isTabOnIOS() {
  return CSS.supports("-webkit-touch-callout", "none") && !matchMedia("(display-mode: standalone)").matches && !(/** @type {{standalone?: boolean}} */ (navigator).standalone);
}

/** Says so once, some time after the first entry. @param {Pick<import("../app.js").Deps, "journal"|"toasts"|"go">} deps */
export function tellOfHomeScreen({ journal, toasts, go }) {
  if (!isTabOnIOS() || find("kerfside.home")) return;
  journal.addEventListener("change", (event) => {
    if (/** @type {CustomEvent} */ (event).detail.by === "tap") setTimeout(tell, later);
  });
  const tell = () => {
    if (find("kerfside.home") || toasts.element.children.length > 0) return; // after another entry, then
    keep("kerfside.home", "told");
    toasts.show(say("home.first"), { stay: 60_000, action: say("home.how"), undo: () => go("/settings#kept") });
  };
}
