// Runs in every page before any script of its own: finds out when its first
// useful screen is there, and whether that is true. Resolves at the first frame
// after the mark on which a person sees and can press what the screen is for.
"use strict";

globalThis.useful = new Promise((resolve) => {
  const can = (selector) => {
    const element = document.querySelector(selector);
    return Boolean(element?.checkVisibility() && element.textContent.trim() && !element.closest("[inert], [disabled]"));
  };
  const looks = {
    "/cut": () => can("[data-action=arc]"),
    "/ready": () => (globalThis.isNew ? can("[data-action=example]") : can("[data-ref=told]") && can("[data-action=begin]")),
    "/": () => can("p"),
  };
  const mark = performance.mark;
  performance.mark = function (name, ...rest) {
    const made = mark.call(performance, name, ...rest);
    if (name !== "kerfside:useful") return made;
    const isTrue = looks[location.pathname]();
    if (globalThis.pressAtOnce) document.querySelector("[data-action=arc]").click();
    const frame = () => requestAnimationFrame(() => {
      const shown = new MessageChannel(); // its message comes after the frame is drawn
      shown.port1.onmessage = () => (looks[location.pathname]() ? resolve({ marked: made.startTime, drawn: performance.now(), isTrue }) : frame());
      shown.port2.postMessage(null);
    });
    frame();
    return made;
  };
});
