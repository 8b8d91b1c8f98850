// @ts-check
// Every word that stands in a drawing or beside it, in English alone for now. A drawing takes this
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
  reliefValve: "relief valve",
  gauge: "gauge",
  breatheIn: ["breathe in:", "it stays in"],
  breatheOut: ["breathe out:", "it bulges"],
  palm: "palm",
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
  tenMinutes: "10 min",
  yours: "yours",
  ofReckoned: ["times the speed", "reckoned to sever"],
  /** In the order of speed. @type {Record<string, string>} */
  verdicts: { "too-slow": "too slow", good: "good", "too-fast": "too fast", "did-not-sever": "not severed" },
  /** @type {Record<string, string>} */
  metals: { "mild-steel": "mild steel", galvanised: "galvanised steel", stainless: "stainless steel", aluminium: "aluminium" },

  /** Rows of a rating plate. U2 is 80 V and 0.4 V for each ampere, as IEC 60974-1 has it (from memory), I2 falls with the root of X, and so does I1: worked. */
  plateRows: [["X", "35 %", "60 %", "100 %"], ["I2", "45 A", "34 A", "27 A"], ["U2", "98 V", "94 V", "91 V"], ["U1 230 V", "I1max 24 A", "I1eff 14 A"]],

  /** What stands in for a drawing for those who cannot see it: its name, and what it shows. */
  alt: {
    ratingPlate: (/** @type {string} */ mark) => ({
      title: "A rating plate, made up",
      desc: { volts: "Marked: the input volts, U1, in the last line.", duty: "Marked: the duty cycle, X, over its amps, I2.", draws: "Marked: the largest input amps, I1max, in the last line.", warms: "Marked: the effective input amps, I1eff, in the last line." }[mark] ?? "Marked: the largest amps, first in the line of I2.",
    }),
    bevel: (/** @type {string} */ sides) => ({
      title: "Kerf from its end",
      desc: { none: "Both sides of the kerf are square.", one: "One side of the kerf is square, the other leans.", both: "Both sides lean in at the bottom, like a V." }[sides] ?? "The kerf from its end.",
    }),
    circuit: (/** @type {boolean} */ shared) => ({
      title: "What hangs on the breaker",
      desc: shared ? "One breaker feeds machine, compressor and kettle." : "Machine and compressor have a breaker each.",
    }),
    clamp: (/** @type {string} */ at) => ({
      title: "Where the work clamp sits",
      desc: {
        near: "On bright metal close to the cut, on the side that stays.",
        far: "At the far end of the plate, a long way from the cut.",
        paint: "The clamp bites on paint.",
        "drop-off": "On the piece that will fall off.",
      }[at] ?? "The work clamp on a plate.",
    }),
    compressor: (/** @type {string} */ focus) => ({
      title: "Compressor and receiver",
      desc: {
        drain: "The drain is at the lowest point of the receiver.",
        valve: "The relief valve with its ring stands on top of the receiver.",
      }[focus] ?? "A compressor on its receiver: gauge, relief valve, drain.",
    }),
    cord: (/** @type {boolean} */ coiled) => ({
      title: "Supply cord",
      desc: coiled ? "Wound on its drum, where it gets hot." : "Laid out straight from socket to machine.",
    }),
    coupler: (/** @type {boolean} */ home) => ({
      title: "Coupler",
      desc: home ? "The plug is home, the sleeve forward over it." : "The plug stops short: its neck shows, the sleeve is not forward.",
    }),
    cupFace: (/** @type {number} */ holes, /** @type {number} */ shut, /** @type {boolean} */ cracked) => ({
      title: "Cup from the front",
      desc: `${holes} air holes round the tip, ${shut} of them shut${cracked ? "; a crack runs from the middle to the edge" : ""}.`,
    }),
    cutFace: (/** @type {"slow" | "right" | "fast"} */ speed, /** @type {boolean} */ spatter) => ({
      title: "Face of the cut",
      desc: {
        slow: "Lag lines nearly upright; thick bubbly dross hangs below.",
        right: "Lag lines rake a little back; nothing hangs below.",
        fast: "Lag lines rake far back; a thin hard bead runs along the bottom edge.",
      }[speed] + (spatter ? " Spatter sits on the top edge." : ""),
    }),
    diffuser: (/** @type {string} */ state) => ({
      title: "Swirl ring",
      desc: state === "good" ? "A ring with a row of small holes, whole and open." : `A ring with a row of small holes; it is ${state}.`,
    }),
    electrode: (/** @type {{pit: string, insert: string | false, limit: string | false, off: boolean}} */ { pit, insert, limit, off }) => ({
      title: "Electrode cut through the middle",
      desc: `The pit is ${pit} deep${off ? " and off centre" : ""}; ${insert ? `the insert is ${insert} deep` : "the depth of the insert is not known"}${limit ? `; change at ${limit}` : ""}.`,
    }),
    fireArea: (/** @type {boolean} */ wall) => ({
      title: "Ground round the cut",
      desc: `Clear or cover everything that burns within 11 m (35 ft) of the cut${wall ? ", and look at the far side of the wall" : ""}.`,
    }),
    gaugePin: (/** @type {boolean} */ goes) => ({
      title: "Gauge pin in the tip",
      desc: goes ? "The pin goes in by hand: the hole is at least this wide." : "The pin does not go in: the hole is narrower.",
    }),
    hollow: (/** @type {boolean} */ vented) => ({
      title: "Closed hollow",
      desc: vented ? "A tube with a vent drilled: what swells can leave." : "A sealed tube: the air inside swells and presses on every wall.",
    }),
    kerf: (/** @type {string} */ kerf, /** @type {string} */ thickness, /** @type {string} */ bore) => ({
      title: "Kerf in the plate",
      desc: `The kerf is ${kerf} wide in a plate ${thickness} thick; the tip's bore is ${bore}. To scale.`,
    }),
    leanEdge: (/** @type {number} */ stage) => ({
      title: "Starting on an edge",
      desc: stage > 1
        ? "The torch moves along; sparks leave the bottom and trail a little."
        : "The torch stands upright, its tip half over the edge; sparks fall straight down.",
    }),
    leanPierce: (/** @type {number} */ tilt, /** @type {boolean} */ through) => ({
      title: "Piercing",
      desc: through
        ? "The torch stands upright, the hole is through; sparks leave below."
        : `The torch leans ${tilt} degrees from upright; the melt blows out of the hollow to the other side.`,
    }),
    mask: (/** @type {boolean} */ out) => ({
      title: "Seal check of the mask",
      desc: out ? "A palm shuts the outlet; breathing out, the mask bulges and no air slips out."
        : "A palm shuts the inlet; breathing in, the mask sucks in and stays in.",
    }),
    mesh: (/** @type {boolean} */ covered) => ({
      title: "Cutting mesh",
      desc: covered ? "A strip of scrap along the line keeps the arc on metal." : "The line crosses gaps; at each the arc leaves the metal.",
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
    oRing: (/** @type {string} */ state) => ({
      title: "O-ring",
      desc: {
        good: "A whole ring, with a sheen of grease.",
        dry: "A ring with fine cracks across it, dry.",
        cut: "A ring cut through at one place.",
        missing: "An empty groove: the ring is missing.",
      }[state] ?? "The O-ring of the torch head.",
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
    pressureGauge: (/** @type {boolean} */ flowing) => ({
      title: "Pressure gauge",
      desc: flowing ? "The needle stands lower while air flows: read it then." : "The needle with the air shut.",
    }),
    sheets: (/** @type {string} */ gauge, /** @type {[metal: string, thickness: string][]} */ rows) => ({
      title: `${gauge} in ${rows.length} metals`,
      desc: `${rows.map(([metal, thickness]) => `${metal}: ${thickness}`).join("; ")}. To one scale.`,
    }),
    slide: (/** @type {string} */ state) => ({
      title: "Starting slide",
      desc: {
        apart: "Air has pushed the electrode off the tip; the pilot burns in the gap.",
        stuck: "Air comes, but the electrode touches the tip: no gap, no pilot.",
      }[state] ?? "A spring holds the electrode on the tip.",
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
    support: (/** @type {boolean} */ held) => ({
      title: "The drop-off",
      desc: held ? "The piece that comes off rests on a support just below." : "The piece that comes off swings down by the last of the cut.",
    }),
    torchStack: (/** @type {string[]} */ parts, /** @type {string | undefined} */ marked) => ({
      title: "Torch head, taken apart",
      desc: `From the top: ${parts.join(", ")}.${marked ? ` The ${marked} is marked.` : ""}`,
    }),
    trap: (/** @type {number} */ level, /** @type {boolean} */ open) => ({
      title: "Trap and drain",
      desc: `The bowl is ${level === 0 ? "empty" : `${Math.round(level * 100)} in 100 full of water`}; the drain is ${open ? "open" : "shut"}.`,
    }),
    tries: (/** @type {string} */ text, /** @type {[speed: string, verdict: string][]} */ cuts) => ({
      title: "Your cuts against the reckoning",
      desc: `${text} ${cuts.map(([speed, verdict], i) => `Cut ${i + 1} at ${speed} times: ${verdict}.`).join(" ")}`,
    }),
    trigger: (/** @type {boolean} */ locked) => ({
      title: "Trigger and its lock",
      desc: locked ? "The guard lies over the trigger: it cannot move." : "The guard is swung away; the pressed trigger springs back.",
    }),
    unplug: (/** @type {boolean} */ waits) => (waits
      ? { title: "Unplugged, waiting", desc: "The plug is out. A clock runs for the waiting time on the machine's plate." }
      : { title: "Unplug", desc: "The plug is out of its socket." }),
    vents: (/** @type {boolean} */ blocked) => ({
      title: "Machine and its vents",
      desc: blocked ? "The machine stands against a wall: its vents are shut off." : "Air goes in at one end and out at the other. Both have room.",
    }),
    waterWay: (/** @type {string} */ tank, /** @type {string} */ trap, /** @type {string} */ drain, /** @type {number} */ level) => ({
      title: "Where the water settles",
      desc: `In compressor and tank ${tank}; in hose and trap ${trap}. Drain the trap every ${drain}; its bowl is then ${Math.round(level * 100)} in 100 full.`,
    }),
    workPlug: (/** @type {boolean} */ home) => ({
      title: "Work lead's plug",
      desc: home ? "The plug sits flush in the panel, turned home." : "The plug stands off the panel and gets hot.",
    }),
  },
};
