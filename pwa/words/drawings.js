// @ts-check
// Every word that stands in a drawing or beside it, in English alone for now, but for those of
// draw/still, which have their own. A drawing takes this
// as its second argument, so that another language, or other units, can be
// passed instead.

/** @typedef {typeof english} Words */

/**
 * The words with lengths as they were printed by the sums, in the reader's
 * units; a length that was not is in millimetres.
 * @param {Iterable<[number, string]>} lengths each in millimetres, with its text
 * @returns {Words}
 */
export function wordsWith(lengths) {
  const known = new Map(lengths);
  return { ...english, length: (mm) => known.get(mm) ?? english.length(mm) };
}

export const english = {
  /** A length given in millimetres, in words, as finely as its sort (calc/unit). @param {number} mm @param {string} [_sort] */
  length: (mm, _sort) => `${mm >= 10 ? mm.toFixed(1).replace(/\.0$/, "") : mm.toFixed(2).replace(/0$/, "")} mm`,

  shut: "shut",
  crack: "crack",
  isNew: "new",
  now: "now",
  limit: "limit",
  nick: "nick",
  keyhole: "keyhole",
  pit: "pit",
  insert: "insert",
  offCentre: "off centre",
  guide: "straightedge",
  kerf: "kerf",
  keep: "keep",
  waste: "waste",
  touches: "rests on it",
  slower: "slower",
  planned: "as planned",
  faster: "faster",
  over: "past its limit",
  bore: "bore",
  template: "template",
  long: "long",
  tank: "compressor, tank",
  trapHere: "hose, trap",
  drainEvery: "drain the trap every",
  arcOn: "arc on",
  rest: "rest",
  tenMinutes: "10 min",
  yours: "yours",
  ofReckoned: ["times the speed", "reckoned to sever"],
  /** In the order of speed. @type {Record<string, string>} */
  verdicts: { "too-slow": "too slow", good: "good", "too-fast": "too fast", "did-not-sever": "not severed" },
  /** @type {Record<string, string>} */
  metals: { "mild-steel": "mild steel", galvanised: "galvanised steel", stainless: "stainless steel", aluminium: "aluminium" },

  /** What stands in for a drawing for those who cannot see it: its name, and what it shows. */
  alt: {
    cupFace: (/** @type {number} */ holes, /** @type {number} */ shut, /** @type {boolean} */ cracked) => ({
      title: "Cup from the front",
      desc: `${holes} air holes round the tip, ${shut} of them shut${cracked ? "; a crack runs from the middle to the edge" : ""}.`,
    }),
    electrode: (/** @type {{pit: string, insert: string | false, limit: string | false, off: boolean}} */ { pit, insert, limit, off }) => ({
      title: "Electrode cut through the middle",
      desc: `The pit is ${pit} deep${off ? " and off centre" : ""}; ${insert ? `the insert is ${insert} deep` : "the depth of the insert is not known"}${limit ? `; change at ${limit}` : ""}.`,
    }),
    kerf: (/** @type {string} */ kerf, /** @type {string} */ thickness, /** @type {string} */ bore) => ({
      title: "Kerf in the plate",
      desc: `The kerf is ${kerf} wide in a plate ${thickness} thick; the tip's bore is ${bore}. To scale.`,
    }),
    minutes: (/** @type {string} */ on, /** @type {string} */ rest) => ({
      title: "Ten minutes at this current",
      desc: `Of ten minutes the arc may burn ${on} and the machine rests ${rest}.`,
    }),
    offset: (/** @type {{straight: boolean, far: boolean, name: string, cup: string, kerf: string, given: string | false}} */ { straight, far, name, cup, kerf, given }) => ({
      title: straight ? "Straightedge, cup and kerf" : "Template, cup and kerf",
      desc: `A cup ${cup} across runs along the ${name}; the kerf of ${kerf} lies under its middle; the ${far ? "far" : "near"} side is kept${given ? `, ${given} from the ${name}` : ""}.`,
    }),
    orifice: (/** @type {{fresh: string | false, text: string, limit: string | false, flaw: string}} */ { fresh, text, limit, flaw }) => ({
      title: "Hole of the tip",
      desc: `${fresh ? `New ${fresh}, now` : "Now"} ${text} across${limit ? `, limit ${limit}` : ""}${flaw === "none" ? "" : `, with a ${flaw} in the edge`}.`,
    }),
    piece: (/** @type {string} */ across, /** @type {string} */ up, /** @type {{long: string, middle: string} | undefined} */ bar) => (bar
      ? { title: "The bar and where it balances", desc: `A section ${across} wide and ${up} high, ${bar.long} long; it balances ${bar.middle} from an end.` }
      : { title: "The piece and where it balances", desc: `${across} across and ${up} high; it balances at the cross.` }),
    /** A point of a plot. @param {string} y with its unit @param {string} x */
    plotPoint: (y, x) => `${y} at ${x}`,
    /** What a line of a plot does. @param {string} name @param {string} first a point @param {string} last */
    plotLine: (name, first, last) => `${name}: from ${first} to ${last}.`,
    /** Where an area of a plot ends. @param {string} name @param {string} least @param {string} most with its unit @param {string} x */
    plotBand: (name, least, most, x) => `${name}: ${least} to ${most} at ${x}.`,
    sheets: (/** @type {string} */ gauge, /** @type {[metal: string, thickness: string][]} */ rows) => ({
      title: `${gauge} in ${rows.length} metals`,
      desc: `${rows.map(([metal, thickness]) => `${metal}: ${thickness}`).join("; ")}. To one scale.`,
    }),
    squareFace: (/** @type {string} */ thickness, /** @type {string | false} */ u, /** @type {string | false} */ drag) => ({
      title: "The cut face, square and lag",
      desc: `A face ${thickness} thick, ${u ? `${u} off square` : "square"}${drag ? `; its lag lines trail by ${drag}` : ""}. Not to scale.`,
    }),
    standoff: (/** @type {string | false} */ gap) => ({
      title: "Standoff",
      desc: gap ? `The tip stands ${gap} above the plate.` : "The tip rests on the plate.",
    }),
    strips: () => ({
      title: "Trial strips",
      desc: "Three marked cuts of one length. Slower than planned: bubbly dross. As planned: clean. Faster: a thin hard bead.",
    }),
    tries: (/** @type {string} */ text, /** @type {[speed: string, verdict: string][]} */ cuts) => ({
      title: "Your cuts against the reckoning",
      desc: `${text} ${cuts.map(([speed, verdict], i) => `Cut ${i + 1} at ${speed} times: ${verdict}.`).join(" ")}`,
    }),
    waterWay: (/** @type {string} */ tank, /** @type {string} */ trap, /** @type {string} */ drain, /** @type {number} */ level) => ({
      title: "Where the water settles",
      desc: `In compressor and tank ${tank}; in hose and trap ${trap}. Drain the trap every ${drain}; its bowl is then ${Math.round(level * 100)} in 100 full.`,
    }),
  },
};
