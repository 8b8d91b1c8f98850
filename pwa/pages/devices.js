// @ts-check
/** The crew's phones: an owner sees, names, invites and takes off; a member sees itself and can leave. */
import { qr } from "../draw/qr.js";
import { request } from "../journal/crew/request.js";
import { leave } from "../journal/crew/join.js";
import { bringUp, clone, make, onActions, refs } from "../parts/dom.js";
import { renderRows } from "../parts/rows.js";
import { dayAndTime } from "../parts/times.js";
import { say, sayTrouble } from "../words/words.js";

/** @typedef {{id: string, name: string, role: "owner"|"member", since: number, seen: number, revoked: number, over?: number}} Device */

/** While an invitation is shown, the list is asked for this often, ms. */
const look = 5000;

export class DevicesPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {ReturnType<typeof setInterval>|undefined} */ #timer;
  /** @type {{id: string, expires: number}|null} */ #invite = null;
  #me = "";
  #role = "";
  /** The device whose removal waits for its second tap. */
  #doomed = "";
  /** The device that is to be forgotten, and what goes with it; left once that has begun. @type {{id: string, entries: number, pictures: number, left?: number}|null} */
  #forgotten = null;
  /** @type {Device[]} */ #devices = [];

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  async start() {
    const root = clone("page-devices");
    this.#at = refs(root);
    this.element.append(root);
    onActions(root, {
      again: () => this.#load(),
      invite: (el) => this.#try(() => this.#makeInvite(String(el.dataset.role))),
      withdraw: () => this.#try(() => this.#withdraw()),
      rename: (el) => this.#try(() => this.#rename(String(el.dataset.id))),
      role: (el) => this.#try(() => this.#change(String(el.dataset.id), { role: el.dataset.role })),
      doom: (el) => this.#doom(String(el.dataset.id)),
      spare: () => this.#doom(""),
      weigh: (el) => this.#try(() => this.#weigh(String(el.dataset.id))),
      forget: () => this.#try(() => this.#forget()),
      revoke: (el) => this.#try(() => this.#revoke(String(el.dataset.id))),
    });
    const { crew } = await this.deps.journal.read([]);
    if (crew) return this.#load();
    this.#at.where.textContent = say("devices.none");
    this.#at.join.hidden = false;
  }

  stop() {
    clearInterval(this.#timer);
  }

  // Private

  /** Does something at the server, says what went wrong. @param {() => Promise<unknown>} work @param {boolean} [tapped]  else nothing moves for it */
  async #try(work, tapped = true) {
    this.#at.wrong.hidden = true;
    try {
      await work();
    } catch (err) {
      const trouble = /** @type {import("../calc/trouble.js").Trouble} */ (err);
      const off = trouble.kind === "revoked" || trouble.kind === "no-token";
      this.#at.wrong.textContent = off ? say("devices.off") : sayTrouble(trouble);
      this.#at.wrong.hidden = false;
      if (tapped) bringUp(this.#at.wrong);
      this.#at.again.hidden = this.#devices.length > 0;
      if (!off) return;
      this.#at.join.hidden = false;
      this.#paintLeave();
    }
  }

  #load() {
    return this.#try(async () => {
      const { me, crew, devices } = await request("GET", "/api/devices");
      this.#me = me;
      this.#devices = devices;
      this.#role = devices.find((/** @type {Device} */ one) => one.id === me)?.role ?? "member";
      this.#at.where.textContent = say(`devices.in.${this.#role}`, { crew: crew.name || say("devices.its") });
      this.#at.again.hidden = true;
      this.#at.inviting.hidden = this.#role !== "owner";
      this.#paint();
    }, false);
  }

  #paint() {
    const here = this.#devices.filter(({ revoked }) => !revoked);
    const off = this.#devices.filter(({ revoked }) => revoked);
    this.#at.listing.hidden = false;
    renderRows(this.#at.list, [...here, ...off], (one) => (one.revoked ? this.#taken(one) : this.#card(one)), (one) => ({ name: one.name, at: one.since }));
  }

  /** @param {Device} device */
  #card({ id, name, role, seen, over }) {
    const mine = id === this.#me;
    const owner = this.#role === "owner";
    const button = buttonOf(id, name);
    const buttons = this.#doomed === id
      ? [button("spare", say(mine ? "devices.stay" : "devices.spare")), button("revoke", say(mine ? "devices.leave.now" : "devices.revoke.now"), { class: "button button--stop" })]
      : [button("rename", say("devices.rename")), owner && (role === "owner" ? button("role", say("devices.to.member"), { "data-role": "member" }) : button("role", say("devices.to.owner"), { "data-role": "owner" }))];
    const last = this.#doomed === id
      ? make("p", { class: "caution" }, make("span", { text: say(mine ? "devices.leave.why" : "devices.revoke.why", { name }) }))
      : button("doom", say(mine ? "devices.leave" : "devices.revoke"), { class: "button apart" });
    return make("li", { class: "card", "data-device": id },
      make("b", { text: name }),
      make("span", { text: [mine && say("devices.this"), say(`devices.role.${role}`), !mine && (seen ? say("devices.seen", { time: dayAndTime(seen) }) : say("devices.unseen")), over && say("devices.over", { time: dayAndTime(over) })].filter(Boolean).join(" · ") }),
      this.#doomed === id && last, make("div", { class: "pair" }, ...buttons), this.#doomed !== id && last);
  }

  /** A phone that was taken off: what it wrote can go too. @param {Device} device */
  #taken({ id, name, revoked }) {
    const button = buttonOf(id, name);
    const doomed = this.#forgotten?.id === id ? this.#forgotten : null;
    const more = !doomed ? [this.#role === "owner" && button("weigh", say("devices.forget"), { class: "button apart" })]
      : doomed.left !== undefined ? [make("span", { role: "status", text: say("devices.forget.left", { left: doomed.left }) })]
        : [make("p", { class: "caution" }, make("span", { text: say("devices.forget.why", { name, entries: doomed.entries, pictures: doomed.pictures }) })),
          make("div", { class: "pair" }, button("spare", say("devices.spare")), button("forget", say("devices.forget.now"), { class: "button button--stop" }))];
    return make("li", { class: "card", "data-device": id }, make("b", { text: name }), make("span", { text: say("devices.was", { time: dayAndTime(revoked) }) }), ...more);
  }

  /** Revoked, or unknown to the server: what is left is to go on without the crew. */
  #paintLeave() {
    this.#at.listing.hidden = false;
    this.#at.list.replaceChildren(make("li", { class: "card" }, make("span", { text: say("devices.off.leave") }),
      make("button", { class: "button", type: "button", text: say("devices.off.go"), onclick: () => leave() })));
  }

  /** @param {string} id */
  #doom(id) {
    this.#doomed = id;
    this.#forgotten = null;
    this.#ask(id);
  }

  /** Shows the question about a device, all of it. @param {string} id */
  #ask(id) {
    this.#paint();
    const card = [...this.#at.list.children].find((one) => one instanceof HTMLElement && one.dataset.device === id);
    if (card) bringUp(card);
  }

  /** @param {string} role */
  async #makeInvite(role) {
    const { id, link, code, expires, qr: rows } = await request("POST", "/api/invites", { role });
    if (this.deps.life.aborted) return;
    const at = this.#at;
    this.#invite = { id, expires };
    at.qr.replaceChildren(qr(rows, { title: say("devices.qr"), desc: say("devices.qr.desc", { link: link.split("#")[0], code }) }));
    at.scan.textContent = say("devices.scan", { address: link.split("#")[0] });
    at.code.textContent = code;
    at.invite.hidden = false;
    clearInterval(this.#timer);
    this.#timer = setInterval(() => this.#watch(), look);
    this.#left();
    bringUp(at.invite);
  }

  /** Who comes in by the invitation appears in the list. */
  async #watch() {
    const before = this.#devices.length;
    if (!this.#doomed) await this.#load();
    if (this.#devices.length > before) this.#hideInvite();
    else this.#left();
  }

  #left() {
    const ms = (this.#invite?.expires ?? 0) - this.deps.journal.now();
    if (ms <= 0) this.#hideInvite();
    else this.#at.left.textContent = say("devices.left", { min: Math.ceil(ms / 60_000) });
  }

  #hideInvite() {
    clearInterval(this.#timer);
    this.#invite = null;
    this.#at.invite.hidden = true;
  }

  async #withdraw() {
    if (this.#invite) await request("DELETE", `/api/invites/${encodeURIComponent(this.#invite.id)}`);
    this.#hideInvite();
  }

  /** @param {string} id */
  async #rename(id) {
    const name = await this.deps.textPrompt.ask({ label: say("join.name"), value: this.#devices.find((one) => one.id === id)?.name, key: `device.${id}` });
    if (name) await this.#change(id, { name });
  }

  /** @param {string} id @param {Record<string, string|undefined>} change */
  async #change(id, change) {
    await request("PATCH", `/api/devices/${encodeURIComponent(id)}`, change);
    await this.#load();
  }

  /** @param {string} id */
  async #revoke(id) {
    this.#doomed = "";
    await request("DELETE", `/api/devices/${encodeURIComponent(id)}`);
    if (id === this.#me) await leave();
    else await this.#load();
  }

  /** Asks what would go with a phone. @param {string} id */
  async #weigh(id) {
    const { entries, pictures } = await request("GET", written(id));
    if (this.deps.life.aborted) return;
    this.#doomed = "";
    this.#forgotten = { id, entries, pictures };
    this.#ask(id);
  }

  /** Takes out what it wrote, part by part. Broken off, it can be gone on with. */
  async #forget() {
    const doomed = this.#forgotten;
    if (!doomed) return;
    try {
      doomed.left = doomed.entries;
      do {
        this.#paint();
        ({ left: doomed.left } = await request("DELETE", written(doomed.id)));
        if (this.deps.life.aborted) return;
      } while (doomed.left);
    } finally {
      this.#forgotten = null;
      if (!this.deps.life.aborted) this.#paint();
    }
    this.deps.journal.syncNow();
    this.deps.toasts.show(say("devices.forget.done"));
    await this.#load();
  }
}

/** A maker of buttons about a device. @param {string} id @param {string} name */
function buttonOf(id, name) {
  return (/** @type {string} */ action, /** @type {string} */ text, more = {}) => make("button", { class: "button", type: "button", "data-action": action, "data-id": id, "aria-label": `${text}: ${name}`, text, ...more });
}

/** The address of what a device wrote. @param {string} id @returns {`/api/devices/${string}/entries`} */
const written = (id) => `/api/devices/${encodeURIComponent(id)}/entries`;
