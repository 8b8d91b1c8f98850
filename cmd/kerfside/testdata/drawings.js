// Draws every picture of a guide and every one that stands beside an answer, in both systems of
// units, and tells which of its words do not lie within its frame, for TestBrowserDrawingsFit.
(async (steps, sums) => {
  /** A module where it lies: beside the joined files, or in their place. */
  const { assets } = document.documentElement.dataset;
  const load = (name) => import(`${assets}SOURCE${name}`).catch(() => import(`${assets}${name}`));
  const { picturesOf } = await load("draw/beside.js");
  const { drawings } = await load("draw/index.js");
  const { stillDrawings } = await load("draw/still.js");
  const still = await (await fetch(`${assets}gen/drawings.json`)).json();
  const all = { ...drawings, ...stillDrawings(still) };
  const { english } = await load("words/drawings.js");
  const { QuantityTexts } = await load("parts/quantity-texts.js");
  const frame = document.querySelector("main").appendChild(Object.assign(document.createElement("div"), { className: "guide-figure" }));
  const found = new Set();
  let seen = 0;

  /** @param {SVGSVGElement} svg @param {string} where */
  const measure = (svg, where) => {
    frame.replaceChildren(svg);
    const { left, right, top, bottom, width } = svg.getBoundingClientRect();
    if (width < 200) found.add(`${where}: it is ${width} px wide`);
    for (const text of svg.querySelectorAll("text")) {
      const box = text.getBoundingClientRect();
      seen += text.textContent ? 1 : 0;
      const over = [left - box.left, box.right - right, top - box.top, box.bottom - bottom].map(Math.ceil);
      if (over.some((px) => px > 1)) found.add(`${where}: “${text.textContent}” is over by ${over} px (left, right, top, bottom)`);
    }
  };

  for (const mark of ["amps", "volts", "duty", "draws", "warms"]) measure(all[`rating-plate-${mark}`](), "the plate");
  for (const units of ["metric", "us"]) {
    const texts = new QuantityTexts({ call: kerfside.call, units: () => units });
    const words = { ...english, length: (mm, sort = "bore") => texts.say(mm, "length", "mm", sort) };
    for (const { where, name, params } of steps) {
      all[name](params, words);
      await texts.learn();
      measure(all[name](params, words), `${where}, ${units}`);
    }
  }
  for (const { where, name, values } of sums) {
    for (const units of ["metric", "us"]) {
      const told = await kerfside.call(name, { ...values, units }).catch(() => null); // some are refused
      const drawn = told ? picturesOf(told, still) : [];
      for (const svg of drawn) measure(svg, `${name}, ${where}, ${units}`);
      if (drawn.length === 0) break;
    }
  }
  frame.remove();
  return { seen, found: [...found] };
})
