// @ts-check
/** The gate: a few taps before any plan. The verdict is kept and logged. */
import { SumPage } from "./sum.js";
import { onActions, make, caution } from "../parts/dom.js";
import { say } from "../words/words.js";

export class GatePage extends SumPage {
  async start() {
    await super.start({ name: "may-i-cut" });
    const log = make("button", { class: "button button--primary", type: "button", text: say("gate.keep"), "data-action": "keep" });
    this.element.append(make("div", { class: "stack" }, caution(say("gate.never")), log));
    onActions(this.element, { keep: () => this.#keep() });
  }

  get draft() {
    return "gate";
  }

  // Private

  async #keep() {
    const verdict = this.answer?.results?.verdict;
    if (!verdict) {
      this.deps.toasts.show(say("gate.unfinished"), { bad: true });
      return;
    }
    this.deps.drafts.keep("gate.answer", { verdict, at: String(Date.now()) });
    const { views } = await this.deps.journal.paint(["now"]);
    const session = views.now?.session?.id;
    try {
      await this.deps.journal.tap({ kind: "note.added", ...(session ? { in: session } : {}), body: { text: say("gate.note", { verdict: say(`gate.${verdict}`), what: Object.values(this.deps.drafts.of("gate")).join(", ") }) } });
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {any} */ (trouble));
    }
    this.deps.go("/ready");
  }
}
