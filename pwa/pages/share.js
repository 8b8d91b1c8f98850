// @ts-check
/**
 * A picture that another app shared becomes a photo of a session. Somebody else's page may post one
 * too: so it is shown, and nothing is entered without a tap. It waits until it is kept or dropped.
 */
import { clone, make, onActions, onePress, refs } from "../parts/dom.js";
import { keepFile } from "../parts/photos.js";
import { QuickEntries } from "../parts/quick-entries.js";
import { shared } from "../parts/shared.js";
import { dayAndTime } from "../parts/times.js";
import { say } from "../words/words.js";

export class SharePage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** The first that waits, and where. @type {{cache?: Cache, request?: Request, picture?: Blob}} */ #first = {};

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  async start() {
    const root = clone("page-share");
    this.#at = refs(root);
    this.element.append(root);
    onActions(root, { keep: onePress((el) => this.#keep(String(el.dataset.id))), drop: onePress(() => this.#drop()) });
    await this.#paint();
  }

  stop() {
    URL.revokeObjectURL(this.#at.photo?.src);
  }

  // Private

  async #paint() {
    const { cache, waiting } = await shared();
    const [request] = waiting;
    const picture = request && (await (await cache?.match(request))?.blob());
    const { views } = await this.deps.journal.read(["days"]);
    if (this.deps.life.aborted) return;
    this.#first = { cache, request, picture };
    const sessions = picture ? (views.days?.items ?? []).flatMap(({ session }) => session ?? []) : [];
    const { none, which, begin, photo, drop } = this.#at;
    none.hidden = Boolean(picture);
    photo.hidden = drop.hidden = !picture;
    which.hidden = !sessions.length;
    begin.hidden = !picture || !which.hidden;
    this.stop();
    if (picture) photo.src = URL.createObjectURL(picture);
    this.#at.sessions.replaceChildren(...sessions.map(({ id, title, open, opened }) =>
      make("button", { class: `button${open ? " button--primary" : ""}`, type: "button", "data-action": "keep", "data-id": id, text: `${title || say("session.untitled")} · ${dayAndTime(opened)}` })));
  }

  /** It is an entry on the phone's disk before it is let go of here. @param {string} session */
  async #keep(session) {
    try {
      if (!this.#first.picture) return;
      await new QuickEntries(this.deps).put({ ...(await keepFile(this.deps.journal, this.#first.picture)), in: session }, say("entry.photo.done"));
      await this.#drop();
      if (!this.#first.picture) this.deps.go(`/session/${session}`);
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
  }

  async #drop() {
    const { cache, request } = this.#first;
    if (request) await cache?.delete(request);
    await this.#paint();
  }
}
