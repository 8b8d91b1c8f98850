// @ts-check
/**
 * What the fault finder is told besides signs and checks: what the journal, the guides and the plan of
 * the day know.
 */
import { keptOf, rigIdInUse, rigsOf, siteInUse, sitesOf } from "../parts/rig-and-site.js";
import { sameDay } from "../parts/job.js";
import { say, sayKnown } from "../words/words.js";

/** @typedef {import("../types/server.js").Assets["gen/faults.json"]} Faults */

/**
 * The inputs of fault-rank that nobody has to enter.
 * @param {import("../journal/shapes.js").ReadModelBase["views"]} views
 * @param {Pick<import("../app.js").Deps, "today"|"journal"|"settings">} deps
 * @param {Faults} faults
 * @param {boolean} otherMetal  the bad cut was in another metal than the plan's, so that what the plan knows does not count
 */
export function contextOf(views, { today, journal, settings }, faults, otherMetal) {
  const { rig: pickedRig, site: pickedSite } = settings.values;
  const id = rigIdInUse(views, pickedRig);
  const site = siteInUse(sitesOf(views.rigs), pickedSite);
  const { parts = [], drain } = views.now?.rigs?.find((r) => r.rig === id) ?? {};
  const part = (/** @type {string} */ slot) => parts.find((p) => p.slot === slot);
  const seconds = (/** @type {number} */ ms) => `${Math.round(ms / 1000)}s`;
  const { air, power, duty } = otherMetal ? {} : today.verdicts;
  return {
    ...keptOf(rigsOf(views.rigs).find((r) => r.id === id), site),
    ...(part("tip") ? { tip_minutes: seconds(part("tip")?.ms ?? 0) } : {}),
    ...(part("electrode") ? { electrode_minutes: seconds(part("electrode")?.ms ?? 0) } : {}),
    ...(drain ? { drain_minutes: seconds(drain.ms ?? 0) } : {}),
    ...(air ? { air, power, duty } : {}),
    past_plan: otherMetal ? "unknown" : today.metal.past,
    found: Object.entries(views.now?.found ?? {}).filter(([cause]) => faults.causes.some((c) => c.key === cause)).map(([cause, n]) => `${cause}:${n}`).join(","),
    ...stepsOf(views, parts, faults, journal),
  };
}

/**
 * Guide steps that were answered in this session, or today outside one, where the fault finder looks; what
 * was said of a part that has come out since does not count.
 * @param {import("../journal/shapes.js").ReadModelBase["views"]} views @param {import("../journal/shapes.js").ShownPart[]} parts  those in the torch @param {Faults} faults
 * @param {Pick<import("../app.js").Deps["journal"], "now">} journal
 */
function stepsOf({ guides, now }, parts, faults, journal) {
  const asked = new Set([...faults.causes, ...faults.checks].flatMap((/** @type {{guide: string, step: string, same?: string[]}} */ of) => [`${of.guide}#${of.step}`, ...(of.same ?? [])]));
  const here = now?.session?.id ?? "";
  const said = { passed: /** @type {string[]} */ ([]), worn: /** @type {string[]} */ ([]), failed: /** @type {string[]} */ ([]) };
  for (const { guide, in: session, steps, fails } of guides?.progress ?? []) {
    if ((session ?? "") !== here) continue;
    for (const [step, a] of Object.entries(/** @type {Record<string, Omit<import("../types/journal.js").StepAnswer, "body"> & {body?: any}>} */ (steps))) {
      const { slot, part } = a.body ?? {};
      const fitted = slot && parts.find((p) => p.slot === slot);
      const isPast = slot && (part ? part !== fitted?.part : fitted?.at > a.at);
      if (isPast || (!here && journal.now() - a.at > sameDay) || !asked.has(`${guide}#${step}`)) continue;
      if (a.result === "good" || a.result === "done") said.passed.push(`${guide}#${step}`);
      else if (a.result === "worn") said.worn.push(`${guide}#${step}`);
      else if (a.result !== "not-done" && fails.includes(a.id)) said.failed.push(`${guide}#${step}`);
    }
  }
  return { passed: said.passed.join(","), worn: said.worn.join(","), failed: said.failed.join(",") };
}

/** The metal that the plan of the day is for, in words. @param {Pick<import("../app.js").Deps, "today">} deps */
export function plannedIn({ today }) {
  const { metal, thickness } = today.metal;
  return { metal: metal && sayKnown(`metal.${metal}`).toLowerCase(), thickness };
}

/** In words, what was reckoned with. @param {Record<string, any>} known @param {{metal: string, thickness: string}} planned */
export function describeContext(known, planned) {
  const said = ["tip_minutes", "electrode_minutes", "drain_minutes"].filter((key) => known[key])
    .map((key) => say(/* tip_minutes | electrode_minutes | drain_minutes */ `fix.known.${key}`, { min: Math.round(parseInt(known[key]) / 60) }));
  for (const key of ["air", "power", "duty"]) if (known[key] && known[key] !== "unknown") said.push(`${say(`check.${key}`)}: ${say(`verdict.${known[key]}`)}`);
  if (known.past_plan === "yes") said.push(say("fix.known.past", planned));
  for (const key of ["failed", "worn", "passed"]) if (known[key]) said.push(say(/* failed | worn | passed */ `fix.known.${key}`, { n: known[key].split(",").length }));
  return said.length ? say("fix.known", { what: said.join("; ") }) : "";
}
