// @ts-check
/**
 * A field that holds rows, each a small form of its own: they stand in words, and one at a time is open, its common
 * values a tap each. The next is a copy of the last. Its value is the rows as JSON; a row keeps a key, by which it is
 * the same wherever it is moved to, and whatever else came with it.
 */
import { bringUp, clone, emit, make, onActions, refs, setText, wrongWords } from "./dom.js";
import { spaced } from "./field.js";
import { renderRows } from "./rows.js";
import { newId } from "../journal/id.js";
import { filled, plain, say } from "../words/words.js";

/** @typedef {import("./field.js").Declared} Declared */
/** @typedef {Record<string, any>} Row */
/** @typedef {import("../calc/trouble.js").Trouble} Trouble */
/** @typedef {Pick<import("./form.js").Form, "element"|"wrong"|"values"|"fields">} RowForm */
/** @typedef {(fields: Declared[], deps: import("./field.js").FieldDeps, options: {values: Record<string, string>, changed: (values: Record<string, string>) => void}) => RowForm} MakeForm */

/** So many rows stand in full, more are folded up once none is open: what is reckoned of them stands below. */
const few = 3;

export class ListField {
  /** @type {Row[]} */ #rows = [];
  /** The key of the row that is open, "" for none. */ #open = "";
  /** @type {{form: RowForm, item: HTMLElement, at: import("./dom.js").Refs}|null} */ #panel = null;
  /** @type {Trouble[]} */ #troubles = [];
  /** @type {import("./dom.js").Refs} */ #at;

  /** @param {Declared} declared @param {import("./field.js").FieldDeps} deps @param {MakeForm} makeForm */
  constructor(declared, deps, makeForm) {
    this.declared = declared;
    this.deps = deps;
    this.makeForm = makeForm;
    this.element = clone("part-list");
    this.element.dataset.key = declared.key;
    this.#at = refs(this.element);
    this.#at.label.textContent = declared.label + (declared.optional ? say("field.optional") : "");
    this.#at.help.textContent = declared.help ?? "";
    onActions(this.element, {
      open: (el) => this.#show(String(el.dataset.row)), add: () => this.#add(), done: () => this.#show(""),
      up: (el) => this.#move(-1, el), down: (el) => this.#move(1, el), remove: () => this.#remove(),
    });
    this.#paint();
  }

  get value() {
    return this.#rows.length ? JSON.stringify(this.#rows) : "";
  }

  get effective() {
    return this.value || (this.declared.default ?? "");
  }

  get said() {
    return this.#rows.map((row) => rowSaid(this.declared, row)).join("; ");
  }

  /** Puts stored rows in; the one that is open stays as it is entered here. @param {string} text */
  fill(text) {
    const open = this.#rows.find(({ _key }) => _key === this.#open);
    const rows = rowsOf(text).map((row) => (row._key === this.#open && open ? open : row));
    this.#rows = open && !rows.includes(open) ? [...rows, open] : rows;
    this.#paint();
  }

  /** @param {{msg: string, hint?: string}|null|undefined} problem @param {Trouble[]} [rows]  what is wrong with rows, as cuts.2.thickness */
  wrong(problem, rows = []) {
    this.#at.wrong.hidden = !problem;
    this.#at.wrong.replaceChildren(...wrongWords(problem));
    this.#troubles = rows;
    this.#paint();
  }

  // Private

  /** @param {Row[]} rows */
  #set(rows) {
    this.#rows = rows;
    this.#troubles = []; // of what stood there
    this.#paint();
    emit(this.element, "field:change", { key: this.declared.key, value: this.value });
  }

  get #index() {
    return this.#rows.findIndex(({ _key }) => _key === this.#open);
  }

  /** @param {string} key */
  #show(key) {
    const was = this.#open;
    this.#open = key;
    this.#panel = null;
    this.#paint();
    if (key) this.#bringUp();
    else this.#leave(was);
  }

  /** The keys go to the row that was open, or to what it is folded into; that comes into view, with the next if there is room. @param {string} was */
  #leave(was) {
    const to = this.#at.sum.hidden ? /** @type {HTMLElement|null} */ (this.element.querySelector(`[data-row="${was}"]`)) : this.#at.sum;
    to?.focus({ preventScroll: true });
    for (const el of [this.#at.add, to]) if (el) bringUp(el);
    emit(this.element, "list:left", {});
  }

  /** The open row comes into view, and the keys go to it: what they were on is gone. */
  #bringUp() {
    if (!this.#panel) return;
    this.#panel.at.said.focus({ preventScroll: true });
    bringUp(this.#panel.item);
  }

  /** The next row is the last one again, but for its own words. */
  #add() {
    const texts = (this.declared.rows?.fields ?? []).filter(({ kind }) => kind === "text").map(({ key }) => key);
    const last = Object.entries(this.#rows[this.#index < 0 ? this.#rows.length - 1 : this.#index] ?? {}).filter(([key]) => key[0] !== "_" && !texts.includes(key));
    const row = { ...Object.fromEntries(last), _key: newKey() };
    this.#open = row._key;
    this.#panel = null;
    this.#set([...this.#rows, row]);
    this.#bringUp();
  }

  #remove() {
    const i = this.#index;
    const gone = this.#rows[i];
    this.#open = "";
    this.#panel = null;
    const others = () => this.#rows.filter(({ _key }) => _key !== gone._key); // it may have come back from elsewhere
    this.#set(others());
    this.#at.add.focus({ preventScroll: true });
    this.deps.toasts?.show(say("list.removed", { what: rowSaid(this.declared, gone) }), { undo: () => this.#set([...others().slice(0, i), gone, ...others().slice(i)]) });
  }

  /** @param {1|-1} by @param {HTMLElement} button  which moves along */
  #move(by, button) {
    const i = this.#index, to = i + by;
    if (to < 0 || to >= this.#rows.length) return;
    const rows = [...this.#rows];
    [rows[i], rows[to]] = [rows[to], rows[i]];
    this.#set(rows);
    button.focus();
  }

  #paint() {
    const { rows: of } = this.declared;
    const one = (of?.name ?? "").toLowerCase();
    this.#at.help.hidden = this.#rows.length > 0 || !this.declared.help;
    setText(this.#at.add, say(this.#open || this.#rows.length ? "list.next" : "list.add", { one }));
    this.#at.add.disabled = this.#rows.length >= (of?.most ?? Infinity);
    this.#at.add.classList.toggle("button--primary", this.#rows.length === 0); // there is nothing else to do
    this.#at.done.hidden = !this.#open;
    const folded = this.#rows.length > few && !this.#open && this.#troubles.length === 0;
    if (folded === this.#at.sum.hidden) this.#at.fold.open = !folded; // once: then it is as somebody left it
    this.#at.sum.hidden = !folded;
    setText(this.#at.sum, say("list.sum", { n: this.#rows.length, one, what: this.#kinds() }));
    this.#at.acts.classList.toggle("dock", this.#open !== ""); // what comes next stays at the thumb
    renderRows(this.#at.rows, this.#rows.map((row, i) => ({ row, i, trouble: this.#troubleOf(i) })), ({ row, i, trouble }) => (row._key === this.#open ? this.#item(row, i) : make("li", {}, make("button", { class: "list__item", type: "button", "data-action": "open", "data-row": row._key },
      make("b", { text: say("list.row", { n: i + 1, said: rowSaid(this.declared, row) }) }), trouble ? make("span", { class: "wrong" }, ...wrongWords(trouble)) : null))), ({ i }) => ({ name: `${of?.name} ${i + 1}` }));
  }

  /** What sorts there are: metals, as a row has them in words. */
  #kinds() {
    const { fields = [], bare = [] } = this.declared.rows ?? {};
    const first = fields.find(({ key, kind }) => key === bare[0] && kind === "choice");
    return [...new Set(this.#rows.map((row) => first?.choices?.find(({ word }) => word === (row[first.key] ?? first.default))?.label))].filter(Boolean).join(", ");
  }

  /** @param {number} i */
  #troubleOf(i) {
    return this.#troubles.find(({ field }) => field?.split(".")[1] === String(i + 1));
  }

  /** The open row. @param {Row} row @param {number} i */
  #item(row, i) {
    const { key, rows } = this.declared;
    if (!this.#panel) {
      const form = this.makeForm((rows?.fields ?? []).map((f) => ({ ...f, open: true, fine: f.fine || !(rows?.bare?.includes(f.key) || f.chips?.length) })), { ...this.deps, read: (cell, text) => this.deps.read(`${key}.${cell}`, text) }, {
        values: Object.fromEntries(Object.entries(row).filter(([name]) => name[0] !== "_").map(([name, value]) => [name, plain(value)])),
        changed: (values) => this.#set(this.#rows.map((other) => (other._key === row._key ? { ...Object.fromEntries(Object.entries(other).filter(([name]) => !form.fields.has(name))), ...values } : other))),
      });
      form.element.addEventListener("field:change", (event) => event.stopPropagation()); // told as one of the list
      const item = clone("part-list-row");
      this.#panel = { form, item, at: refs(item) };
      this.#panel.at.form.append(form.element);
      if (!rows?.ordered) this.#panel.at.moves.remove();
      setText(this.#panel.at.remove, say("list.remove", { one: (rows?.name ?? "").toLowerCase() }));
    }
    const { form, item, at } = this.#panel;
    setText(at.said, say("list.row", { n: i + 1, said: rowSaid(this.declared, row) }));
    const name = `${rows?.name} ${i + 1}: `; // it is known which row this is
    const own = this.#troubles.filter(({ field }) => field?.split(".")[1] === String(i + 1)).map((one) => ({ ...one, field: one.field?.split(".").slice(2).join("."), msg: one.msg.startsWith(name) ? one.msg.slice(name.length) : one.msg }));
    const rest = form.wrong(own[0] ? { ...own[0], also: own.slice(1) } : null).find(({ kind }) => kind !== "missing");
    at.wrong.hidden = !rest;
    at.wrong.replaceChildren(...wrongWords(rest));
    return item;
  }
}

/** @returns {string} */
export function newKey() {
  return newId().replace(/[^a-z\d]/gi, "").slice(0, 6);
}

/** @param {string} text @returns {Row[]} */
function rowsOf(text) {
  try {
    const rows = JSON.parse(text || "[]");
    return Array.isArray(rows) ? rows.filter((row) => row && typeof row === "object").map((row) => ({ ...row, _key: plain(row._key) || newKey() })) : [];
  } catch {
    return [];
  }
}

/** A row in the words that its list declares: parts between dots, those with nothing in them left out. @param {Declared} declared @param {Row} row */
export function rowSaid({ rows }, row) {
  /** @type {Record<string, string>} */
  const said = {};
  /** @type {Record<string, string>} */
  const held = {};
  const usual = new Set();
  const told = new Set(); // a usual count alone tells nothing
  for (const { key, kind, choices = [], default: one = "", only } of rows?.fields ?? []) {
    held[key] = plain(row[key]) || one;
    if (held[key] === one) usual.add(key);
    const text = only && !only.words.includes(held[only.key] ?? "") ? "" : held[key];
    said[key] = kind === "choice" ? (choices.find(({ word }) => word === text)?.label ?? text).toLowerCase() : kind === "yes-no" && text ? say(/* yes | no */ text).toLowerCase() : spaced(text);
    if (text && text !== "0" && (plain(row[key]) || kind === "choice")) told.add(key);
  }
  const shown = (rows?.shown ?? "").replace(/\{(\w+)\?\}/g, (_, key) => (usual.has(key) ? "" : `{${key}}`));
  const parts = shown.split(" · ").filter((part) => [...part.matchAll(/\{(\w+)/g)].some(([, key]) => told.has(key)));
  return parts.map((part) => filled(part, said).replace(/ {2,}/g, " ").trim()).join(" · ");
}
