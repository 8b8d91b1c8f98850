// @ts-check
/** Joining a crew: with the secret of a link, or a code that is typed. */
import { noAnswer } from "../journal/crew/request.js";
import { findPlace, join, settle } from "../journal/crew/join.js";
import { clone, fill, onActions, refs, showWrong } from "../parts/dom.js";
import { bareAddress } from "../parts/origin.js";
import { isTabOnIOS } from "../parts/home-screen.js";
import { say, sayTrouble } from "../words/words.js";

/** Letters and figures of a code. */
const codeLength = 10;

export class JoinPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  #secret = "";
  #busy = false;

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  /** @param {Record<string, string>} params  secret: from the link, which app.js has cleared */
  async start({ secret = "" }) {
    const root = clone("page-join");
    const at = (this.#at = refs(root));
    this.#secret = secret;
    at.codeField.hidden = at.why.hidden = secret !== "";
    at.linked.hidden = secret === "";
    const { drafts } = this.deps;
    for (const key of ["name", "code"]) {
      fill(at[key], drafts.of("join")[key] ?? "");
      at[key].addEventListener("input", () => drafts.keep("join", { name: at.name.value, code: at.code.value }));
    }
    at.ios.hidden = !isTabOnIOS();
    const bare = bareAddress();
    at.bare.hidden = !bare;
    at.bareText.textContent = bare;
    onActions(root, { join: () => this.#join() });
    const { crew } = await this.deps.journal.read([]); // first, so that nothing moves under a thumb
    if (this.deps.life.aborted) return;
    if (crew) this.#tell("in", say("join.in"));
    this.element.append(root);
    if (!crew && !secret) this.#look();
  }

  // Private

  /** A phone whose store was cleared may still be known to the server. */
  async #look() {
    const place = await findPlace().catch(() => null);
    if (!place || this.#busy || this.deps.life.aborted) return;
    this.#busy = this.#at.join.disabled = true; // no code takes it elsewhere meanwhile
    try {
      await settle(place);
      await this.#arrive("", place.crew);
    } catch (err) {
      this.#failed(/** @type {import("../calc/trouble.js").Trouble} */ (err));
    }
  }

  async #join() {
    if (this.#busy) return;
    const { at, name, code } = { at: this.#at, name: this.#at.name.value.trim(), code: readCode(this.#at.code.value) };
    at.wrong.hidden = at.nameWrong.hidden = true;
    if (!this.#secret && code.length !== codeLength) return this.#tell("wrong", say("join.code.length", { n: code.length }));
    if (!name) return this.#tell("nameWrong", say("join.name.missing"));
    this.#busy = at.join.disabled = true;
    at.status.textContent = say("join.joining");
    try {
      const { crew: before } = await this.deps.journal.read([]);
      const crew = await join(this.#secret ? { secret: this.#secret, name } : { code, name });
      this.deps.drafts.drop("join");
      await this.#arrive(before, crew);
    } catch (err) {
      this.#failed(/** @type {import("../calc/trouble.js").Trouble} */ (err));
    }
  }

  /** Shows the phones of the crew; in another one than before, once the app is loaded anew. @param {string} before @param {string} crew */
  async #arrive(before, crew) {
    const { isStarted } = this.deps.journal;
    if (crew !== before) await this.deps.journal.read([]); // which finds that the phone has moved, and has the app loaded anew once it has started: app.js
    if (crew === before || !isStarted) this.deps.go("/devices");
  }

  /** @param {import("../calc/trouble.js").Trouble} trouble */
  #failed(trouble) {
    const at = this.#at;
    this.#busy = at.join.disabled = false;
    at.status.textContent = "";
    if (trouble.kind !== noAnswer && this.#secret && trouble.field !== "name") {
      this.#secret = ""; // a link works once: from here on a code is typed
      at.linked.hidden = true;
      at.codeField.hidden = at.why.hidden = false;
    }
    const text = sayTrouble(trouble, trouble.retry ? say("join.wait", { s: trouble.retry }) : "");
    this.#tell(trouble.field === "name" ? "nameWrong" : "wrong", text || say("join.failed"));
  }

  /** @param {string} ref @param {string} text */
  #tell(ref, text) {
    this.#at[ref].textContent = text;
    this.#at[ref].hidden = false;
    showWrong(this.element);
  }
}

/** Letters and figures of a code as people type it: any case, dashes, O for 0, I and L for 1. @param {string} text */
export function readCode(text) {
  return text.toUpperCase().replace(/[^0-9A-Z]/g, "").replaceAll("O", "0").replace(/[IL]/g, "1");
}
