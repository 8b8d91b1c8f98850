// @ts-check
/**
 * Pace: rehearse the travel speed before striking, with a beat between chalk
 * marks to hear and a line to follow, and judge a timed pass afterwards. The
 * sums are those of travel-pace; the speed comes from the plan, the time from
 * the last arc.
 */
import { CutPlan } from "./cut-plan.js";
import { SumPage } from "./sum.js";
import { make, setText } from "../parts/dom.js";
import { say } from "../words/words.js";

export class PacePage extends SumPage {
  name = "travel-pace";
  /** @type {ReturnType<typeof setTimeout>|undefined} */ #timer;
  #button = make("button", { class: "button button--primary button--arc", type: "button" });
  #line = make("div", { class: "pace__line" });
  #plan = new CutPlan(this.deps);

  async start() {
    this.#plan.text("speed");
    await this.#plan.learn();
    this.#fill();
    await super.start({ name: this.name });
    this.#button.addEventListener("click", () => (this.#timer ? this.#rest() : this.#beat()));
    const { standing } = this.deps.today.begun.results ?? {};
    this.element.prepend(make("section", { class: "stack" }, make("p", { text: say("pace.how") }), ...(standing ? [make("p", { class: "note", text: standing })] : []), make("div", { class: "pace", "aria-hidden": "true" }, this.#line), this.#button));
    this.#rest();
  }

  stop() {
    this.#rest();
    super.stop();
  }

  // Private

  /** Takes over the plan's speed where none was typed, and the last arc's time once. */
  #fill() {
    const { today } = this.deps;
    const speed = this.#plan.text("speed");
    const seconds = today.takeArc();
    this.typed = { ...(speed ? { speed } : {}), ...this.typed, ...(seconds && this.typed.length ? { time: `${seconds}s` } : {}) };
  }

  /** One beat: a click, and the line on its way to the next mark. */
  #beat() {
    const seconds = /** @type {import("../calc/calls.js").Answer<"travel-pace">|null} */ (this.answer)?.results.beat.value;
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
