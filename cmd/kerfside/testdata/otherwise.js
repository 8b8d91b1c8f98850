// What is lost on the page that is shown, or on what lies over it, when it is read otherwise.
(() => {
  const turn = () => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
  const name = (el) => `<${el.localName} ${el.className}> "${(el.getAttribute("aria-label") ?? el.textContent).trim().slice(0, 30)}"`;
  const stage = () => document.querySelector("dialog[open]") ?? document.body;
  const seen = (el) => el.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true }) && el.getBoundingClientRect().height > 0;

  /** Why an element cannot be touched in its middle where it lies now; "" if it can, and all of it is on the screen. */
  const out = (el) => {
    const { top, bottom, left, right } = el.getBoundingClientRect();
    if (top < -1 || left < -1 || bottom > innerHeight + 1 || right > innerWidth + 1) return `reaches from ${Math.round(top)} to ${Math.round(bottom)} of ${innerHeight}`;
    const hit = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
    return hit && el.contains(hit) ? "" : `is covered by ${hit ? name(hit) : "nothing"}`;
  };

  /** Main actions: what is docked and what ends a question is on the screen, all others can be brought there. */
  const reach = async () => {
    const found = [];
    const main = [...stage().querySelectorAll(".button--primary, .button--arc, .arc, .pad__enter, [data-action=leave]")].filter((el) => seen(el) && !el.closest("[inert]"));
    for (const el of main) {
      const isHeld = el.closest("dialog") || el.closest(".dock");
      if (isHeld && out(el)) found.push(`${name(el)} ${out(el)} before anything is scrolled`);
    }
    for (const el of main) {
      el.scrollIntoView({ block: "center", behavior: "instant" });
      await turn();
      if (out(el) && el.getBoundingClientRect().height < innerHeight / 2) found.push(`${name(el)} ${out(el)} wherever the page is scrolled`);
    }
    scrollTo(0, 0);
    await turn();
    return found;
  };

  /** Words that are broken within, where no hyphen stands. */
  const broken = () => {
    const found = [];
    for (const el of stage().querySelectorAll(".strip__title, .bar__place span, button, .button, .chip, h2")) {
      if (!seen(el)) continue;
      const walker = document.createTreeWalker(el, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        for (const { 0: word, index } of node.data.matchAll(/[\p{L}\p{N}]{2,14}/gu)) {
          const range = document.createRange();
          range.setStart(node, index);
          range.setEnd(node, index + word.length);
          const lines = new Set([...range.getClientRects()].filter(({ width }) => width > 1).map(({ top }) => Math.round(top)));
          if (lines.size > 1 && getComputedStyle(node.parentElement).position !== "absolute") found.push(`"${word}" of ${name(el)} is broken into ${lines.size} lines`);
        }
      }
    }
    return found;
  };

  // Firefox takes the colours for this from the desktop's theme, which may be faint; Chromium's are a person's choice.
  const isMeasured = navigator.userAgent.includes("Chrome");

  // What is left of a look when the system paints in its own colours.
  const lines = ["border-top-style", "border-top-width", "border-left-style", "border-left-width", "outline-style", "text-decoration-line"];
  const pieces = (el) => [null, "::before", "::after"].map((part) => getComputedStyle(el, part));
  const shape = (el) => pieces(el).flatMap((style, i) => [...lines.map((key) => style.getPropertyValue(key)), ...(i ? [style.content] : [])]).join(" ");
  const canvas = new OffscreenCanvas(1, 1).getContext("2d", { willReadFrequently: true });
  const light = (colour) => {
    canvas.clearRect(0, 0, 1, 1);
    canvas.fillStyle = getComputedStyle(document.documentElement).backgroundColor;
    canvas.fillRect(0, 0, 1, 1);
    canvas.fillStyle = colour;
    canvas.fillRect(0, 0, 1, 1);
    const [r, g, b] = [...canvas.getImageData(0, 0, 1, 1).data].map((v) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const apart = (a, b) => {
    const [low, high] = [light(a), light(b)].sort((x, y) => x - y);
    return (high + 0.05) / (low + 0.05);
  };

  /** What is chosen beside what could be: a line or a mark tells them apart, and so does the fill. */
  const chosen = () => {
    const found = [];
    for (const [on, off] of [["[aria-pressed=true]", "[aria-pressed=false]"], ["[aria-checked=true]", "[aria-checked=false]"], [".bar__place[aria-current]", ".bar__place:not([aria-current])"]]) {
      for (const el of stage().querySelectorAll(on)) {
        const other = [...el.parentElement.querySelectorAll(off)].find((one) => seen(one) && one.className === el.className);
        if (!seen(el) || !other) continue;
        chosen.pairs++;
        const fill = apart(getComputedStyle(el).backgroundColor, getComputedStyle(other).backgroundColor);
        if (shape(el) === shape(other)) found.push(`${name(el)} is chosen and ${name(other)} is not: no line and no mark tells`);
        if (isMeasured && fill < 3 && !el.matches(".arc")) found.push(`${name(el)} is chosen and ${name(other)} is not: their fills stand apart ${fill.toFixed(1)} to 1`);
      }
    }
    return found;
  };

  /** What says more than its neighbour by its look: each is made anew, empty, and no two look the same. */
  const signs = () => {
    const found = [];
    for (const group of [
      [["p", "caution"], ["p", "caution caution--stop"]],
      [["button", "button"], ["button", "button button--stop"]],
      [["p", "told"], ["p", "told told--stop"]],
      [["div", "toast"], ["div", "toast toast--bad"]],
      [["div", "status-bar__row"], ["div", "status-bar__row status-bar__row--now"], ["div", "status-bar__row status-bar__row--stop"]],
      [["p", "due"], ["p", "due due--now"]],
      [["p", "verdict", "ok"], ["p", "verdict", "tight"], ["p", "verdict", "fails"], ["p", "verdict", "unknown"]],
    ]) {
      const made = group.map(([tag, className, verdict]) => {
        const el = document.body.appendChild(Object.assign(document.createElement(tag), { className }));
        if (verdict) el.dataset.verdict = verdict;
        return el;
      });
      const looks = made.map((el) => shape(el));
      for (const [i, look] of looks.entries()) if (looks.indexOf(look) < i) found.push(`${group[i].slice(1).join(" ")} looks like ${group[looks.indexOf(look)].slice(1).join(" ")}`);
      for (const el of made) el.remove();
    }
    const worst = getComputedStyle(document.querySelector(".strip__button--worst"));
    if (worst.borderTopStyle === "none") found.push("nothing is drawn around the button for the worst day");
    return found;
  };

  /** Words that cannot be told from what lies behind them. */
  const faint = () => {
    const found = [];
    for (const el of stage().querySelectorAll("button, a, p, b, h1, h2, h3, span, label, li")) {
      if (!seen(el) || ![...el.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim())) continue;
      const style = getComputedStyle(el);
      if (style.forcedColorAdjust !== "none") found.push(`${name(el)} has its words on a plate of the browser's, whatever it stands on`);
      const ground = [el, ...ancestors(el)].map((one) => getComputedStyle(one).backgroundColor).find((colour) => !/^rgba.*, 0\)$/.test(colour)) ?? "Canvas";
      if (isMeasured && apart(style.color, ground) < 4.5) found.push(`${name(el)} stands apart from its ground ${apart(style.color, ground).toFixed(1)} to 1`);
    }
    return found;
  };
  const ancestors = (el) => (el.parentElement ? [el.parentElement, ...ancestors(el.parentElement)] : []);

  chosen.pairs = 0;
  return { reach, broken, chosen, signs, faint };
})()
