// @ts-check
// Every word that stands in a drawing, for one language. A drawing takes this
// as its second argument, so that another language, or other units, can be
// passed instead.

/** @typedef {typeof english} Words */

/** The words for a reader of inches. @param {"metric"|"us"} units @returns {Words} */
export function wordsIn(units) {
  // An inch is 25.4 mm by definition; thousandths are what a pin gauge tells.
  return units === "us" ? { ...english, length: (mm) => `${Number((mm / 25.4).toFixed(mm > 100 ? 1 : 3))} in` } : english;
}

export const english = {
  /** A length given in millimetres, in words. @param {number} mm */
  length: (mm) => `${mm >= 10 ? mm.toFixed(1).replace(/\.0$/, "") : mm.toFixed(2).replace(/0$/, "")} mm`,

  parts: { cup: "cup", tip: "tip", diffuser: "diffuser", electrode: "electrode", "o-ring": "O-ring", head: "head" },
  shut: "shut",
  crack: "crack",
  isNew: "new",
  now: "now",
  limit: "limit",
  nick: "nick",
  keyhole: "keyhole",
  chip: "chip",
  scorched: "scorched",
  blocked: "blocked",
  pit: "pit",
  insert: "insert",
  offCentre: "off centre",
  dry: "dry",
  cut: "cut",
  missing: "missing",
  clampNear: "bright, near the cut",
  clampFar: "too far away",
  clampPaint: "on paint",
  clampDrop: "on the drop-off",
  cutLine: "cut",
  upright: "upright",
  away: "melt goes away from you",
  trailing: "trails 15–20°",
  travel: "travel",
  bead: "thin hard bead",
  bubbles: "thick, bubbly dross",
  clean: "clean",
  cleanBelow: "clean below",
  spatter: "spatter",
  guide: "straightedge",
  kerf: "kerf",
  keep: "keep",
  waste: "waste",
  water: "water",
  drain: "drain",
  airIn: "air in",
  airOut: "out",
  touches: "rests on it",
  bothSquare: "both sides square",
  oneLeans: "one side leans",
  bothLean: "both sides lean",
  neckShows: "neck shows: not home",
  pushedHome: "pushed home",
  sleeve: "sleeve",
  farSide: ["look", "behind", "too"],
  clearDistance: "11 m (35 ft)",
  watcher: "watch",
  extinguisher: "extinguisher",
  vent: "vent first",
  nowhere: "nowhere to go: it bursts",
  heat: "heat",
  waitPlate: ["wait the time", "on the plate"],
  flowing: "flowing",
  standing: "standing",
  coiled: "on the drum: it heats",
  laidOut: "laid out: it stays cool",
  ventsClear: "room on both sides",
  ventsShut: "vents shut off",
  dropHeld: "held from below",
  dropFree: "swings down",
  slower: "slower",
  planned: "as planned",
  faster: "faster",
  pin: "pin",
  goesIn: "goes in",
  stops: "too big",
};
