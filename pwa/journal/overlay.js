// @ts-check
/**
 * What this phone has entered of rigs, sites, parts, drained traps and settled faults since the fold
 * was last at its end, so that the next tap knows of it whether the worker has come to it or not.
 * Kept in meta and laid over the views; the fold's own word replaces it (fold-loop.js).
 */

/**
 * @typedef {import("./meta.js").Meta} Meta
 * @typedef {import("./shapes.js").Entry} Entry
 * @typedef {import("./shapes.js").Overlay} Since
 * @typedef {import("./shapes.js").ReadModelBase["views"]} Views
 */

/** @type {Since} */
export const emptyOverlay = { things: [], fitted: [], pulled: [], readings: [], drains: [], settled: [] };

/** Of these each item is one entry. */
const listed = /** @type {const} */ (["fitted", "pulled", "readings", "drains", "settled"]);

/** Notes what an entry changes. @param {Meta} meta @param {Entry} entry @param {number} at ms since 1970 */
export function noteInOverlay(meta, { kind, id = "", about = "", body }, at) {
  const { since } = meta;
  switch (kind) {
    case "rig.set":
    case "site.set":
      noteThing(since, kind === "rig.set" ? "rigs" : "sites", about, body, id);
      break;
    case "part.fitted":
      since.fitted.push({ id, rig: body.rig ?? "", slot: body.slot ?? "", part: about, at });
      break;
    case "part.pulled":
      since.pulled.push({ id, part: about });
      break;
    case "part.reading":
      since.readings = [...since.readings.filter((r) => r.part !== about), { id, part: about, body, at }];
      break;
    case "trap.drained":
      since.drains = [...since.drains.filter((d) => d.rig !== body.rig), { id, rig: body.rig ?? "", at }];
      break;
    case "fault.mended":
      since.settled.push({ id, fault: about });
      break;
    case "void":
      if (body.on) forget(since, body.of);
  }
}

/**
 * The views with it.
 * @param {Views} views
 * @param {Since} since
 * @returns {Views}
 */
export function withOverlay({ now, rigs, ...others }, since) {
  const views = /** @type {Views} */ ({ ...others });
  if (rigs !== undefined) views.rigs = withThings(rigs, since);
  if (now !== undefined) views.now = withParts(now, since);
  return views;
}

/** @param {Since} since @param {"rigs"|"sites"} list @param {string} id @param {Record<string, unknown>} fields @param {string} by */
function noteThing(since, list, id, fields, by) {
  let thing = since.things.find((t) => t.id === id && t.list === list);
  if (!thing) since.things.push((thing = { id, list, fields: {}, by: {} }));
  Object.assign(thing.fields, fields);
  for (const key of Object.keys(fields)) thing.by[key] = by;
}

/** An entry was taken back: what the view says stands. @param {Since} since @param {string|undefined} id */
function forget(since, id) {
  for (const key of listed) since[key] = /** @type {any} */ (since[key].filter((noted) => noted.id !== id));
}

/** @param {NonNullable<Views["rigs"]>|null} view @param {Since} since @returns {Views["rigs"]} */
function withThings(view, { things }) {
  if (things.length === 0) return view;
  const lists = { rigs: [...(view?.rigs ?? [])], sites: [...(view?.sites ?? [])] };
  for (const { id, list, fields, by } of things) {
    const all = lists[list];
    const known = all.findIndex((t) => t.id === id || t.same?.includes(id));
    const { fields: before = {}, by: of = {}, also = [], ...rest } = all[known] ?? { id };
    const set = /** @type {Record<string, string>} */ (Object.fromEntries(Object.entries({ ...before, ...fields }).filter(([, value]) => value !== null)));
    all.splice(known < 0 ? all.length : known, known < 0 ? 0 : 1, { ...rest, fields: set, by: { ...of, ...by }, also });
    all.sort((a, b) => (a.id < b.id ? -1 : 1)); // as the fold has them
  }
  return { ...(view ?? { partial: true }), ...lists };
}

/** @param {NonNullable<Views["now"]>|null} now @param {Since} since @returns {Views["now"]} */
function withParts(now, since) {
  if (listed.every((key) => since[key].length === 0)) return now;
  const { fitted, pulled, readings, drains, settled } = since;
  const rigs = (now?.rigs ?? []).map((r) => ({ ...r, parts: [...r.parts] }));
  const rigOf = (/** @type {string} */ id) => {
    let rig = rigs.find((r) => r.rig === id);
    if (!rig) rigs.push((rig = { rig: id, parts: [] }));
    return rig;
  };
  for (const { rig, part, slot, at } of fitted) {
    const { parts } = rigOf(rig);
    if (!parts.some((p) => p.part === part)) parts.push({ part, slot, at, ms: 0, starts: 0, reading: null, check: [] });
  }
  for (const rig of rigs) {
    rig.parts = rig.parts.filter((p) => !pulled.some(({ part }) => part === p.part))
      .map((p) => ({ ...p, ...readingOf(readings.find(({ part }) => part === p.part)) }));
  }
  for (const { rig, at } of drains) {
    const of = rigOf(rig);
    if (!((of.drain?.at ?? 0) > at)) of.drain = { every: of.drain?.every, ms: 0, at, due: of.drain?.every };
  }
  const faults = (now?.faults ?? []).filter((f) => !settled.some(({ fault }) => fault === f.id));
  return { ...now, rigs, faults };
}

/** @param {Since["readings"][number]|undefined} noted */
function readingOf(noted) {
  return noted ? { reading: noted.body, readAt: noted.at } : {};
}
