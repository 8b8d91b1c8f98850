// @ts-check
/** This phone: units, look, hand, times, numbers to call, and where the entries are kept. */
import { bridge } from "../calc/bridge.js";
import { withLocalMeta } from "../journal/crew/local.js";
import { Photos } from "../journal/photo/photos.js";
import { showRejected } from "./rejected.js";
import { bareAddress } from "../parts/origin.js";
import { storageLevel } from "../parts/sync-badge.js";
import { clone, make, onActions, refs, setText } from "../parts/dom.js";
import { drainMinutes, rigIdInUse, rigInUse, rigsOf } from "../parts/rig-and-site.js";
import { dayAndTime } from "../parts/times.js";
import { exportJournal } from "../parts/export.js";
import { isTabOnIOS } from "../parts/home-screen.js";
import { say, sayTrouble, sentence } from "../words/words.js";

export class SettingsPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  /** @param {Record<string, string>} params */
  async start({ hash }) {
    const root = clone("page-settings");
    this.#at = refs(root);
    this.element.append(root);
    onActions(root, {
      pick: (el) => this.#pick(String(el.dataset.key), String(el.dataset.word)),
      drain: () => this.#drain(),
      watch: () => this.#watch(),
      emergency: () => this.#emergency(),
      sync: () => this.#sync(),
      export: (el) => this.#export(el.dataset.crew),
      repair: () => this.#repair(),
    });
    this.#at.import.addEventListener("change", () => this.#import());
    this.deps.journal.addEventListener("sync", (event) => this.#kept(/** @type {CustomEvent} */ (event).detail), { signal: this.deps.life });
    this.#paint();
    const bare = bareAddress();
    this.#at.bare.hidden = !bare;
    this.#at.home.hidden = !isTabOnIOS();
    this.#at.bareText.textContent = bare;
    this.deps.journal.addEventListener("views", () => this.#paintDrain(), { signal: this.deps.life });
    this.#at.drain.textContent = say("settings.drain", { min: drainMinutes(null) }); // a button has a name from the first
    await this.#paintDrain();
    const { sync, crew } = await this.deps.journal.read([]);
    this.#at.crew.textContent = say(crew ? "settings.crew.in" : "devices.none");
    this.#at.crewLink.href = crew ? "/devices" : "/join";
    setText(this.#at.crewLink, say(crew ? "title.devices" : "title.join"));
    this.#others(crew);
    this.#kept(sync);
    const persisted = await navigator.storage?.persisted?.();
    this.#at.persist.textContent = say(persisted ? "settings.persist.yes" : "settings.persist.no");
    if (hash && !this.deps.life.aborted) document.getElementById(hash)?.scrollIntoView();
  }

  // Private

  #paint() {
    const v = this.deps.settings.values;
    const choices = (/** @type {string} */ key, /** @type {string[]} */ words) => words.map((w) => make("button", {
      class: "button", type: "button", text: say(/* units | look | hand */ `settings.${key}.${w}`), "data-action": "pick", "data-key": key, "data-word": w,
      "aria-pressed": String(/** @type {Record<string, unknown>} */ (v)[key] === w),
    }));
    this.#at.units.replaceChildren(...choices("units", ["metric", "us"]));
    this.#at.look.replaceChildren(...choices("look", ["system", "sun", "night"]));
    this.#at.hand.replaceChildren(...choices("hand", ["left", "right"]));
    this.#at.watch.textContent = say("settings.watch", { min: v.watchMinutes });
    this.#at.emergency.textContent = v.emergency || say("settings.calls.none");
  }

  async #paintDrain() {
    const { views } = await this.deps.journal.read(["rigs"]);
    this.#at.drain.textContent = say("settings.drain", { min: drainMinutes(rigInUse(rigsOf(views.rigs), this.deps.settings.values.rig)) });
  }

  /** Starts a sync; one that stopped for a person goes on. */
  #sync() {
    const { journal } = this.deps;
    return journal.state.stopped ? journal.resumeSync() : journal.syncNow();
  }

  /** @param {string} key @param {string} word */
  #pick(key, word) {
    this.deps.settings.set(/** @type {Partial<import("../parts/settings.js").Values>} */ ({ [key]: word }));
    this.#paint();
  }

  /** Asks for whole minutes. @param {string} label @param {number} value @param {string[]} chips @param {number} low @param {number} high @returns {Promise<number|null>} */
  async #minutes(label, value, chips, low, high) {
    const text = await this.deps.pad.ask({ label, value: String(value), chips });
    if (text === null) return null;
    const n = Math.round(Number(text));
    if (n >= low && n <= high) return n;
    this.deps.toasts.show(say("settings.minutes.wrong", { text, low, high }), { bad: true });
    return null;
  }

  /** The interval belongs to the rig, whose trap it is, so it is the crew's and not this phone's. */
  async #drain() {
    const { views } = await this.deps.journal.read(["rigs"]);
    const id = rigIdInUse({ rigs: views.rigs }, this.deps.settings.values.rig); // no fold may have told which there are
    const rig = rigsOf(views.rigs).find((r) => r.id === id) ?? null;
    if (!id) {
      this.deps.toasts.show(say("cut.norig"), { bad: true });
      return;
    }
    const min = await this.#minutes(say("settings.drain.ask"), drainMinutes(rig), ["20", "25", "30"], 20, 30);
    if (min === null) return;
    try {
      await this.deps.journal.tap({ kind: "rig.set", about: id, body: { drainEvery: min * 60_000 } });
      await this.#paintDrain();
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
  }

  async #watch() {
    const min = await this.#minutes(say("settings.watch.ask"), this.deps.settings.values.watchMinutes, ["30", "60", "90", "120"], 30, 480);
    if (min === null) return;
    this.deps.settings.set({ watchMinutes: min });
    this.#paint();
  }

  async #emergency() {
    const text = await this.deps.textPrompt.ask({ label: say("settings.calls.ask"), value: this.deps.settings.values.emergency, key: "emergency" });
    if (text === null) return;
    this.deps.settings.set({ emergency: text });
    this.#paint();
  }

  /** @param {import("../journal/journal.js").SyncState} state */
  async #kept(state) {
    const pictures = await new Photos(this.deps.journal.db).held().catch(() => ({ n: 0, why: "" }));
    if (state !== this.deps.journal.state) return; // a newer one is shown
    const where = state.coming > 0 && storageLevel(state) !== "phone" ? say("kept.long.coming", { n: state.coming }) : say(/* phone | server | backup */ `kept.long.${storageLevel(state)}`);
    this.#at.kept.dataset.kept = storageLevel(state);
    const waiting = state.unsent ? say("kept.long.waiting", { n: state.unsent, time: dayAndTime(state.since) }) : "";
    const heard = state.heard ? say("kept.long.heard", { time: dayAndTime(state.heard) }) : say(state.crew ? "kept.long.never" : "kept.long.alone");
    const disk = storageLevel(state) === "server" && state.sameDisk ? say("kept.long.disk") : "";
    this.#at.kept.textContent = [where, disk, waiting, pictures.n ? say("kept.long.pictures", { n: pictures.n }) : "", pictures.why && sentence(pictures.why), heard].filter(Boolean).join(" ");
    await showRejected(this.#at.held, this.deps.journal).catch(() => {}); // the store says so itself
    const trouble = state.stopped ?? state.lastError;
    this.#at.stopped.hidden = !trouble;
    this.#at.stopped.textContent = trouble ? sayTrouble(trouble) : "";
  }

  /** The journals of crews that this phone was in. @param {string} crew */
  async #others(crew) {
    const crews = await withLocalMeta(undefined, (meta) => meta.crews);
    this.#at.others.replaceChildren(...crews.filter((one) => one !== crew).map((one) => make("button", {
      class: "button", type: "button", "data-action": "export", "data-crew": one, text: say("settings.others", { crew: one.slice(0, 4) }),
    })));
  }

  /** @param {string} [crew] another one than that of now */
  async #export(crew) {
    try {
      await exportJournal(this.deps, crew);
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
  }

  async #import() {
    const file = this.#at.import.files?.[0];
    if (!file) return;
    try {
      const { added, known, refused } = await this.deps.journal.importText(await file.text());
      this.deps.toasts.show(say("settings.imported", { added, known, refused: refused.length }), { bad: refused.length > 0 });
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
    this.#at.import.value = "";
  }

  /** Fetches the app anew. The journal is not touched. */
  async #repair() {
    try {
      const answer = await fetch("/api/status", { cache: "no-store" });
      if (!answer.ok) throw new Error();
    } catch {
      this.deps.toasts.show(say("settings.repair.offline"), { bad: true });
      return;
    }
    for (const registration of await navigator.serviceWorker.getRegistrations()) await registration.unregister();
    for (const name of await caches.keys()) await caches.delete(name);
    await bridge.leave();
    location.reload();
  }
}
