// @ts-check
/**
 * Pace: rehearse the travel speed before striking, with a beat between chalk
 * marks to hear and a line to follow, and judge a timed pass afterwards. The
 * sums are those of travel-pace; the speed comes from the plan, the time from
 * the last arc. How the cut was only the eye knows: one tap says it, and keeps
 * it with the speed of the pass.
 */
import { CutPlan } from "./cut-plan.js";
import { SumPage } from "./sum.js";
import { make, onePress, setText } from "../parts/dom.js";
import { QuickEntries, verdicts } from "../parts/quick-entries.js";
import { rigIdInUse } from "../parts/rig-and-site.js";
import { say, sayKnown } from "../words/words.js";

export class PacePage extends SumPage {
  name = "travel-pace";
  /** @type {ReturnType<typeof setTimeout>|undefined} */ #timer;
  #button = make("button", { class: "button button--primary button--arc", type: "button" });
  #line = make("div", { class: "pace__line" });
  #plan = new CutPlan(this.deps);

  #entries = new QuickEntries(this.deps);
  #how = make("section", { class: "stack" }, make("p", { text: say("pace.tried") }), make("div", { class: "grid" },
    ...verdicts.map((word) => make("button", { class: "button", type: "button", text: sayKnown(`verdict.${word}`), onclick: onePress(() => this.#keep(word)) }))));

  async start() {
    const speed = this.#plan.text("speed"); // asks for it, too
    await this.#plan.learn();
    this.handed = speed ? { speed: this.#plan.text("speed") } : {};
    const seconds = this.deps.today.takeArc();
    if (seconds) this.typed = { ...this.typed, time: `${seconds}s` };
    this.#how.hidden = true;
    this.element.append(this.#how);
    await super.start({ name: this.name });
    this.#button.addEventListener("click", () => (this.#timer ? this.#rest() : this.#beat()));
    const { standing } = this.deps.today.begun.results ?? {};
    this.element.prepend(make("section", { class: "stack" }, make("p", { text: say("pace.how") }), ...(standing ? [make("p", { class: "note", text: standing })] : []), make("div", { class: "pace", "aria-hidden": "true" }, this.#line), this.#button));
    this.#rest();
  }

  told() {
    this.#how.hidden = !this.#answer?.results.passed;
  }

  stop() {
    this.#rest();
    super.stop();
  }

  // Private

  get #answer() {
    return /** @type {import("../calc/calls.js").Answer<"travel-pace">|null} */ (this.answer);
  }

  /** Keeps what was tried: the plan, the speed of this pass, and how the cut was. @param {string} verdict */
  async #keep(verdict) {
    const { views } = await this.deps.journal.read(["now", "rigs"]);
    const speed = this.#answer?.results.passed?.value;
    if (speed === undefined) return;
    const at = { session: views.now?.session?.id ?? "", rig: rigIdInUse(views, this.deps.settings.values.rig), parts: [] };
    await this.#entries.tried(at, this.deps.today.begun, { verdict, speed }).catch((trouble) => this.deps.toasts.problem(trouble));
  }

  /** One beat: a click, and the line on its way to the next mark. */
  #beat() {
    const seconds = this.#answer?.results.beat?.value;
    if (!seconds) {
      this.deps.toasts.show(say("pace.nospeed"), { bad: true });
      return;
    }
    this.deps.alarm.arm();
    this.deps.alarm.tick();
    setText(this.#button, say("pace.stop"));
    this.#line.animate([{ transform: "translateX(0)" }, { transform: "translateX(100%)" }], { duration: seconds * 1000, fill: "forwards" });
    this.#timer = setTimeout(() => this.#beat(), seconds * 1000);
  }

  #rest() {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    for (const a of this.#line.getAnimations()) a.cancel();
    setText(this.#button, say("pace.start"));
  }
}
