// Says something with a button on the page that is shown, and tells each control that it came over.
(() => {
  const turn = () => new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
  const controls = "button, a[href], input, select, textarea, summary";
  const row = document.querySelector("[data-ref=toasts]");
  const name = (el) => `<${el.localName} ${el.className}> "${(el.getAttribute("aria-label") ?? el.textContent).trim().slice(0, 30)}"`;

  /** Points of a box, a little inside of its corners and its middle. */
  const points = ({ left, right, top, bottom }) => [[(left + right) / 2, (top + bottom) / 2], [left + 5, top + 5], [right - 5, top + 5], [left + 5, bottom - 5], [right - 5, bottom - 5]];

  /** Controls that the line lies on: those of strip, dock and bar wholly, others where the page scrolls. */
  const covered = (when) => {
    const foot = row.getBoundingClientRect().top;
    const fixed = (el) => el.closest(".strip, .bar, .dock");
    const found = [];
    for (const el of document.querySelectorAll(controls)) {
      const box = el.getBoundingClientRect();
      if (!box.height || !el.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true }) || row.contains(el) || getComputedStyle(el).clipPath !== "none") continue;
      const isFixed = fixed(el);
      for (const [x, y] of points(box)) {
        if (y < 0 || y >= innerHeight || x < 0 || x >= innerWidth || (!isFixed && y > foot - 1)) continue;
        if (row.contains(document.elementFromPoint(x, y))) found.push(`${when}: the line lies on ${name(el)}`);
      }
    }
    return found;
  };

  return async () => {
    scrollTo(0, 0);
    await turn();
    const seen = [...document.querySelectorAll("main :is(.button--primary, .arc)")].filter((el) => el.getBoundingClientRect().height && points(el.getBoundingClientRect()).every(([x, y]) => el.contains(document.elementFromPoint(x, y))));
    kerfside.journal.dispatchEvent(new CustomEvent("trouble", { detail: { kind: "emptied", msg: "This phone's store was emptied", hint: "Read it in again." } }));
    await turn();
    const found = covered("at the top");
    for (const el of seen) for (const [x, y] of points(el.getBoundingClientRect())) if (!el.contains(document.elementFromPoint(x, y))) found.push(`${name(el)} was seen, and is not any more`);
    const button = row.lastElementChild?.querySelector("button");
    const box = button?.getBoundingClientRect();
    if (!button || !points(box).every(([x, y]) => button.contains(document.elementFromPoint(x, y)))) found.push("the line's own button cannot be touched");
    else if (!row.closest("[data-toasts]") && box.top < innerHeight / 2) found.push("the line's own button is out of the thumb's reach");
    scrollTo(0, document.documentElement.scrollHeight);
    await turn();
    const last = [...document.querySelectorAll("main :is(button, a[href], input, summary)")].filter((el) => el.checkVisibility({ contentVisibilityAuto: true }) && el.getBoundingClientRect().height && !row.contains(el) && !el.closest(".dock")).map((el) => ({ el, bottom: el.getBoundingClientRect().bottom })).sort((a, b) => b.bottom - a.bottom)[0];
    if (last && last.bottom > row.getBoundingClientRect().top + 0.5 && row.parentElement === document.body) found.push(`${name(last.el)} is the last, and does not come out from under the line`);
    found.push(...covered("at the end"));
    button?.click();
    await turn();
    if (button?.isConnected) found.push("the line stays when its button was tapped");
    scrollTo(0, 0);
    return [...new Set(found)];
  };
})()
