// @ts-check
// Every word that stands in a drawing, for one language. A drawing takes this
// as its second argument, so that another language, or other units, can be
// passed instead.

/** @typedef {typeof english} Words */

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
  spatter: "spatter",
  guide: "straightedge",
  kerf: "kerf",
  keep: "keep",
  waste: "waste",
  edgeToGuide: "guide to cut edge",
  water: "water",
  drain: "drain",
  airIn: "air in",
  airOut: "out",
};
