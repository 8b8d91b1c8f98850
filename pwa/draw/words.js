// @ts-check
// Every word that stands in a drawing, for one language. A drawing takes this
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
  /** A length given in millimetres, in words. @param {number} mm */
  length: (mm) => `${mm >= 10 ? mm.toFixed(1).replace(/\.0$/, "") : mm.toFixed(2).replace(/0$/, "")} mm`,

  parts: { cup: "cup", tip: "tip", diffuser: "swirl ring", electrode: "electrode", "o-ring": "O-ring", head: "head" },
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
  machine: "machine",
  compressor: "compressor",
  kettle: "kettle",
  oneBreaker: "all on one breaker",
  breakerEach: "a breaker each",
  ventsClear: "room on both sides",
  ventsShut: "vents shut off",
  locked: "locked",
  springsBack: "springs back",
  touching: "they touch",
  gapPilot: "gap: pilot",
  stuckShut: "stuck: no gap",
  turnedHome: "turned home",
  looseHeats: "loose: it heats",
  outAtGaps: "out at each gap",
  scrapStrip: "strip of scrap",
  dropHeld: "held from below",
  dropFree: "swings down",
  slower: "slower",
  planned: "as planned",
  faster: "faster",
  pin: "pin",
  goesIn: "goes in",
  stops: "too big",
  over: "past its limit",
  bore: "bore",
  template: "template",
  long: "long",
  tank: "compressor, tank",
  trapHere: "hose, trap",
  drainEvery: "drain the trap every",
  arcOn: "arc on",
  rest: "rest",
  yours: "yours",
  ofReckoned: ["times the speed", "reckoned to sever"],
  /** In the order of speed. @type {Record<string, string>} */
  verdicts: { "too-slow": "too slow", good: "good", "too-fast": "too fast", "did-not-sever": "not severed" },
  /** @type {Record<string, string>} */
  metals: { "mild-steel": "mild steel", galvanised: "galvanised steel", stainless: "stainless steel", aluminium: "aluminium" },
};
