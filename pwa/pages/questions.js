// @ts-check
/**
 * What a new rig and a new site are asked, in the order of the rating plate and of the torch's parts sheet. A
 * question is the key of a field or, of a site, one of the ways: where power, cord and air come from. Those are
 * no fields; they say which fields are asked next, and whose they are.
 */

/** @typedef {Record<string, string>} Values */
/** @typedef {{values: Values, ways: Values, truck: Values|null}} Known  what was entered, which ways, and what the truck has */

/** Ways that say whose something is, with its fields. @type {Record<string, string[]>} */
export const lent = { cord: ["cord_length", "size"], air: ["free_air", "hose_length"] };

/** What the rating plate states, by where it stands there. @type {Record<string, string>} */
const marks = { plate_volts: "volts", max_current: "amps", duty_points: "duty", input_max: "draws", input_effective: "warms" };

/** Where a figure stands on the rating plate; "" for one that does not. @param {string} key */
export function markOf(key) {
  return marks[key.replace(/_2$/, "")] ?? "";
}

/** @param {Known} known */
export function rigQuestions({ values }) {
  return ["plate_volts", "max_current", "duty_points", ...(values.plate_volts_2 ? ["max_current_2", "duty_points_2"] : []), "pressure", "air_need", "tips"];
}

/** @param {Known} known */
export function siteQuestions({ ways, truck }) {
  const power = { socket: ["volts", "breaker"], generator: ["generator", "volts"] }[ways.power] ?? [];
  const asked = (/** @type {string} */ way) => (ways[way] === "here" || (ways[way] === "truck" && !truckHas(truck, way)) ? lent[way] : []);
  return ["power", ...power, "cord", ...asked("cord"), "air", ...asked("air")];
}

/** Whether the truck has what a way is about. @param {Values|null} truck @param {string} way */
export function truckHas(truck, way) {
  return lent[way].some((key) => truck?.[key]);
}

/** The answers to a way. @param {string} way @param {Values|null} truck */
export function waysOf(way, truck) {
  if (way === "power") return ["socket", "generator", "unknown"];
  return [...(truck ? ["truck"] : []), "here", ...(way === "cord" ? ["none"] : []), "unknown"];
}

/** Two voltages that one machine often takes. */
export const twoVolts = [["120V", "230V"], ["120V", "240V"]];
