// @ts-check
// The electrode's nose cut through the middle, face up, to scale: the copper
// hatched, the insert in it, the pit burnt into the insert, the limit dashed.
import { HEAVY, LINE, THIN, group, label, line, number, path, picture, rect } from "./svg.js";
import { hatch, measure } from "./marks.js";
import { english } from "../words/drawings.js";

const [CX, TOP, LABELS] = [76, 42, 160];
const LARGEST = 36; // pixels a millimetre when the depths are small
const INSERT_WIDTH = 1.6; // millimetres, a usual insert; for the picture only
const NOSE_WIDTH = 3.6;

/**
 * Depths in millimetres from the face.
 * @param {{pit?: number, insert?: number, limit?: number, offset?: string}} params
 * @param {import("../words/drawings.js").Words} [words]
 */
export function electrode(params = {}, words = english) {
  const pit = Math.max(0, number(params.pit, 0));
  const insert = number(params.insert, 0); // 0: not known, drawn open below
  const limit = number(params.limit, 0);
  const off = params.offset === "yes";
  const deepest = Math.max(pit, insert, limit, 1);
  const scale = Math.min(LARGEST, 150 / deepest);
  const [half, nose] = [INSERT_WIDTH / 2 * LARGEST, NOSE_WIDTH / 2 * LARGEST];
  const copper = hatch(10);
  const bottom = TOP + deepest * scale + 40;
  const pitX = CX + (off ? half * 0.55 : 0);
  const pitDepth = pit * scale;
  const marks = [];
  if (pit > 0) {
    marks.push(measure(pitX, TOP, pitX, TOP + pitDepth),
      ...note(TOP + Math.min(pitDepth / 2, 30), pitX, `${words.pit} ${words.length(pit, "kerf")}`));
  }
  if (limit > 0) {
    marks.push(line(CX - half - 22, TOP + limit * scale, LABELS - 6, TOP + limit * scale, { "stroke-dasharray": "8 6" }),
      label(LABELS, TOP + limit * scale + 5, `${words.limit} ${words.length(limit, "kerf")}`));
  }
  return picture({
    width: 320, height: bottom + 12, ...words.alt.electrode({ pit: words.length(pit, "kerf"), insert: insert > 0 && words.length(insert, "kerf"), limit: limit > 0 && words.length(limit, "kerf"), off }),
  }, copper.defs,
  path(`M ${CX - nose} ${bottom} L ${CX - nose} ${TOP + 16} Q ${CX - nose} ${TOP} ${CX - nose + 16} ${TOP} L ${CX + nose - 16} ${TOP} Q ${CX + nose} ${TOP} ${CX + nose} ${TOP + 16} L ${CX + nose} ${bottom}`, { fill: copper.fill }),
  rect(CX - half, TOP, 2 * half, insert > 0 ? insert * scale : bottom - TOP, { class: "draw-paper", "stroke-width": LINE }),
  group({ class: "draw-mark" }, path(pitShape(pitX, pitDepth, half), { class: "draw-paper", "stroke-width": HEAVY })),
  ...marks,
  label(CX, TOP - 14, off ? words.offCentre : "", "middle"),
  ...(insert > 0 ? insertNote(half, insert * scale, limit * scale, `${words.insert} ${words.length(insert, "kerf")}`) : []));
}

/**
 * The insert's depth beside it, kept clear of the limit's words.
 * @param {number} half @param {number} depth @param {number} limit @param {string} words
 */
function insertNote(half, depth, limit, words) {
  const down = Math.abs(depth - limit) < 20 ? Math.max(0, limit - depth) + 22 : 0;
  return [line(CX + half, TOP + depth, LABELS - 6, TOP + depth + down, { "stroke-width": THIN }),
    label(LABELS, TOP + depth + down + 5, words)];
}

/** @param {number} y @param {number} x @param {string} words */
function note(y, x, words) {
  return [line(x, y, LABELS - 6, y, { "stroke-width": THIN }), label(LABELS, y + 5, words)];
}

/**
 * A dish, open at the face, a little narrower than the insert.
 * @param {number} x @param {number} depth @param {number} half
 */
function pitShape(x, depth, half) {
  if (depth <= 0) return "";
  const r = half * 0.78;
  return `M ${x - r} ${TOP} C ${x - r} ${TOP + depth * 1.02} ${x - r * 0.5} ${TOP + depth} ${x} ${TOP + depth} C ${x + r * 0.5} ${TOP + depth} ${x + r} ${TOP + depth * 1.02} ${x + r} ${TOP}`;
}
