// @ts-check
/** All that is known of a rig or a site, in rows to be tapped and changed, what belongs together in a fold. */
import { make, wrongWords } from "../parts/dom.js";
import { spaced } from "../parts/field.js";
import { renderRows } from "../parts/rows.js";
import { say, sayIfKnown } from "../words/words.js";

/** @typedef {import("../calc/trouble.js").Trouble} Trouble */
/** @typedef {import("../parts/field.js").Field} Field */
/** What the rows tell: of which sort, the fields, the questions in their order, the truck that brings some, what is wrong. @typedef {{sort: "rig"|"site", fields: Field[], questions: string[], truck: import("../parts/rig-and-site.js").Rig|null, troubles: Trouble[]}} Known */

/** What is asked of a new one comes first, then what is known, in folds by what it belongs to. @param {import("../parts/dom.js").Refs} at @param {Known} known */
export function paintRows(at, known) {
  const { questions } = known;
  /** @type {Map<string, Field[]>} */
  const groups = new Map([["", []]]);
  const place = (/** @type {Field} */ f) => (questions.indexOf(f.declared.key) + 1) || questions.length + (f.said ? 1 : 2);
  for (const field of [...known.fields].sort((a, b) => place(a) - place(b))) {
    const { item, fine, key } = field.declared;
    if (field.element.hidden) continue;
    const group = item ?? (key === "calibration" ? key : fine ? "fine" : "");
    groups.set(group, [...(groups.get(group) ?? []), field]);
  }
  const order = [...groups.keys()].sort((a, b) => Number(a === "fine") - Number(b === "fine"));
  for (const group of order) paintGroup(at, group, groups.get(group) ?? [], known);
}

/** A fold is open where something is known of it; it says what a truck brings. @param {import("../parts/dom.js").Refs} at @param {string} group @param {Field[]} fields @param {Known} known */
function paintGroup(at, group, fields, { sort, truck, troubles }) {
  let list = at.rows;
  if (group) {
    const brought = fields.filter((f) => truck?.fields[f.declared.key]).map((f) => `${f.declared.label}: ${spaced(truck?.fields[f.declared.key] ?? "")}`);
    const before = /** @type {HTMLElement|null} */ (at.folds.querySelector(`[data-group="${group}"]`));
    const fold = before ?? make("details", { class: "fold", "data-group": group, open: brought.length > 0 || fields.some((f) => f.value) }, make("summary", { text: say(group === "fine" ? "form.fine" : /* rig | site */ `${sort}.item.${group}`) }), make("p"), make("ul", { class: "list" }));
    if (!before) at.folds.append(fold);
    list = /** @type {typeof list} */ (fold.lastElementChild);
    const note = group === "calibration" ? say("rig.calibration.how") : brought.length ? say("site.brought", { truck: truck?.fields.name ?? say("rig.unnamed"), what: brought.join(" · ") }) : "";
    /** @type {HTMLElement} */ (fold.children[1]).textContent = note;
  }
  renderRows(list, fields.map((f) => {
    const { key, label, fine } = f.declared;
    const trouble = troubles.find((t) => (t.field === key || (key === "pressure_points" && t.field === "pressure")) && t.kind !== "missing");
    const unknown = f.usual ? say("rig.usual", { value: spaced(f.usual) }) : [say("rig.unknown"), fine ? "" : sayIfKnown(`cost.${key}`)].filter(Boolean).join(". ");
    return { key, label, said: f.value || !f.usual ? f.said : "", unknown, trouble };
  }), (row) => make("li", {}, make("button", { class: "list__item", type: "button", "data-action": "row", "data-row": row.key },
    make("span", { text: row.label }), row.said ? make("b", { text: row.said }) : make("span", { class: "button__more", text: row.unknown }),
    row.trouble ? make("span", { class: "wrong" }, ...wrongWords(row.trouble)) : null)), (row) => ({ name: row.label }));
}
