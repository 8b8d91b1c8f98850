// @ts-check
/**
 * Ready: may I cut this, what to set for today's metal, and on to the cut.
 * It paints the last plan at once, if that is what is asked now, and reckons anew as soon as the sums run.
 */
import { afterPaint, caution, clone, make, onActions, onePress, refs, setText, wrongWords } from "../parts/dom.js";
import { spaced } from "../parts/field.js";
import { Form } from "../parts/form.js";
import { reading, wordsOf } from "../parts/answer.js";
import { canJudge, exampleRig, keptOf, noSite, readOf, rigInUse, rigsOf, siteInUse, sitesOf } from "../parts/rig-and-site.js";
import { isTabOnIOS } from "../parts/home-screen.js";
import { jobHolds, sameDay } from "../parts/job.js";
import { lookOf, onNews } from "../parts/look.js";
import { settled } from "../parts/settled.js";
import { stopsHere } from "../parts/stops.js";
import { clockTime, dayAndTime } from "../parts/times.js";
import { isAbort } from "../calc/calls.js";
import { newId } from "../journal/id.js";
import { say } from "../words/words.js";

/** @typedef {import("../today.js").Told} Told */
/** What the plan told; a pressure that is no quantity is a text. @typedef {{results: Omit<Told, "pressure"> & {pressure?: import("../types/calc.js").Value|(string & {also?: undefined})}, cautions: string[]}} Plan */
/** site: for which it judged. @typedef {import("../today.js").Day & {site?: string}} Judged */

/** Today's fields, in the order of asking; all others are folded away. */
const first = ["metal", "thickness", "alloy"];

export class ReadyPage {
  /** @type {import("../parts/dom.js").Refs} */ #at = {};
  /** @type {Form|null} */ #form = null;
  /** @type {import("../parts/rig-and-site.js").Rig[]} */ #rigs = [];
  /** @type {import("../parts/rig-and-site.js").Rig[]} */ #sites = [];
  /** @type {import("../journal/shapes.js").ShownNow|null|undefined} */ #now = null;
  /** @type {AbortController|null} */ #sum = null;
  /** @type {any} */ #answer = null;
  /** The verdict of the day that stands there, of site-check. @type {Judged|null} */ #day = null;
  /** What was asked for the answer. */ #answered = "";
  /** Keys of the form, as of the last answer until it is made. @type {string[]} */ #keys = [];
  /** Key of the sum that is under way or whose answer stands. */ #reckoned = "";
  /** The sum for what stands on the pad. @type {{key: string, answer: Promise<any>}|null} */ #ahead = null;

  /** @param {HTMLElement} element @param {import("../app.js").Deps} deps */
  constructor(element, deps) {
    this.element = element;
    this.deps = deps;
  }

  async start() {
    const root = clone("page-ready");
    this.#at = refs(root);
    onActions(root, {
      rig: () => this.#pickRig(),
      site: () => this.#pickSite(),
      example: onePress(() => this.#addExample()),
      begin: () => this.#begin(),
    });
    setText(this.#at.begin, say("ready.begin"));
    this.#at.home.hidden = !isTabOnIOS();
    const { life } = this.deps;
    this.deps.journal.addEventListener("views", () => this.#readRigs(), { signal: life });
    this.deps.journal.addEventListener("change", () => this.#readRigs(), { signal: life }); // a stop that is taken back
    this.deps.settings.addEventListener("change", () => this.#plan(), { signal: life });
    const answer = this.deps.today.answer;
    const last = answer?.asked.endsWith(`"${this.deps.settings.values.units}"]`) ? answer : null; // its texts are in the units of then
    this.#show(last);
    if (last?.day) this.#showDay(last.day); // else it would tell to set what was short
    this.#answered = last?.asked ?? "";
    this.#keys = last?.keys ?? [];
    const declared = this.deps.asset("gen/cut-plan.json");
    declared.catch(() => {}); // told below
    this.#showSeen(root);
    await this.#readRigs().finally(() => life.aborted || this.#open(root)); // filled first, so that nothing moves under a thumb
    this.#makeForm(await declared);
    await afterPaint();
    this.deps.journal.addEventListener("views", () => this.#readGuides(), { signal: life });
    await this.#readGuides();
    const readDue = () => this.deps.call("journal-report", lookOf(this.deps, "due")).then(({ says }) => setText(this.#at.upkeep, says[0]), () => {}); // it waits for the sums, and nobody for it
    onNews(this.deps, readDue);
    readDue();
  }

  stop() {
    this.#sum?.abort();
  }

  // Private

  /** Shows the last plan as of its time, which takes no tap until it is known that it still stands. @param {HTMLElement} root */
  #showSeen(root) {
    const seen = this.#answer && this.#answered && this.deps.journal.seen("ready");
    if (!seen) return;
    const { metal, thickness } = Object.fromEntries(JSON.parse(this.#answered)[1] ?? []); // the form may hold others by now
    if (!thickness) return;
    this.#at.planner.hidden = false;
    this.#at.rig.textContent = say("seen.ready", { time: clockTime(seen.at), thickness, metal: (metal || "mild-steel").replaceAll("-", " ") });
    this.#at.gateState.textContent = say("seen.gate"); // of a stop nothing is known yet
    this.#at.gateWord.textContent = "?";
    root.inert = true;
    this.element.append(root);
  }

  /** Takes taps. @param {HTMLElement} root */
  #open(root) {
    root.inert = false;
    if (root.parentNode !== this.element) this.element.append(root);
  }

  get #rig() {
    return rigInUse(this.#rigs, this.deps.settings.values.rig);
  }

  get #site() {
    return siteInUse(this.#sites, this.deps.settings.values.site);
  }

  /** What stands of may-i-cut: stops by name, else the answer for this job. */
  #paintGate() {
    const { gate, session } = this.#now ?? {};
    const rig = session?.rig || this.#rig?.id || "";
    const stops = stopsHere(gate, { rig, session: session?.id, rigs: this.#rigs });
    const asked = gate?.asked.find((a) => (a.rig === rig || !a.rig) && (!a.in || a.in === session?.id) && this.deps.journal.now() - a.at < jobHolds);
    const lifted = asked?.verdict === "stop" && stops.length === 0;
    const at = this.#at;
    at.gateWord.textContent = say(stops.length ? "gate.stop" : asked && !lifted ? /* stop | conditions | go */ `gate.${asked.verdict}` : "gate.open");
    at.gateState.textContent = stops.length ? stops.map((s) => s.says).join(" · ") : lifted ? say("ready.gate.lifted") : asked ? say("ready.gate.at", { time: dayAndTime(asked.at) }) : say("ready.gate.ask");
    at.gate.classList.toggle("button--stop", stops.length > 0);
  }

  /** Says when somebody last went through what is gone through each day, so far as this phone or this session knows. */
  async #readGuides() {
    const { views } = await this.deps.journal.read(["guides"]);
    const session = this.#now?.session?.id;
    const lastOf = (/** @type {string[]} */ guides) => Math.max(0, ...(views.guides?.progress ?? []).filter((p) => guides.includes(p.guide) && (p.in || session) === session).flatMap((p) => Object.values(p.steps).map((a) => a.at)));
    for (const [ref, last] of Object.entries({ bringup: lastOf(["bring-up"]), quick: lastOf(["quick-look", "torch-inspection"]) })) {
      this.#at[ref].textContent = this.deps.journal.now() - last < sameDay ? say("ready.looked", { time: clockTime(last) }) : say("ready.unlooked");
    }
  }

  async #readRigs() {
    const { views, arc } = await this.deps.journal.read(["rigs", "now"]);
    if (this.deps.life.aborted) return;
    this.#rigs = rigsOf(views.rigs);
    this.#sites = sitesOf(views.rigs);
    this.#now = views.now;
    this.#paintGate();
    const rig = this.#rig;
    const maybe = Boolean(this.deps.settings.values.rig) && /** @type {boolean} */ (!views.rigs || views.rigs.partial); // no fold has told yet
    this.#at.rigless.hidden = Boolean(rig) || maybe;
    this.#at.planner.hidden = this.#at.dock.hidden = this.#at.calibration.hidden = !rig;
    this.#at.rig.textContent = rig?.fields.name ?? "";
    this.#at.tried.textContent = say((rig?.fields.calibration ?? "1") === "1" ? "ready.untried" : "ready.tried");
    const open = Boolean(views.now?.session) || Object.keys(arc).length > 0;
    setText(this.#at.begin, say(open ? "ready.goon" : "ready.begin"));
    this.#plan();
    if (this.#answer) this.deps.journal.keepSeen("ready", {});
  }

  /** @param {import("../types/calc.js").Description} plan  the calculator's declaration */
  #makeForm(plan) {
    if (this.deps.life.aborted) return;
    const asked = plan.fields.filter((f) => !f.owner);
    const fields = [...first.flatMap((key) => asked.filter((f) => f.key === key)), ...asked.filter((f) => !first.includes(f.key))]
      .map((f) => ({ ...f, fine: !first.includes(f.key), help: first.includes(f.key) ? "" : f.help, empty: first.includes(f.key) ? f.label : "" }));
    this.#keys = fields.map((f) => f.key);
    const form = this.#form = new Form(fields, {
      pad: this.deps.pad, chooser: this.deps.chooser, units: () => this.deps.settings.values.units,
      read: async (key, text) => {
        const value = await this.deps.call("read-value", { calculator: "cut-plan", field: key, text, units: this.deps.settings.values.units });
        this.#reckonAhead(key, text);
        return value;
      },
    }, {
      values: this.deps.today.plan,
      changed: (values) => {
        this.#plan(); // first, so that the worker reckons while this is written
        this.deps.today.plan = values;
      },
    });
    this.#at.form.replaceChildren(form.element);
    this.#at.fine.replaceChildren(form.fold);
    if (this.#answered === this.#asked) afterPaint().then(() => this.#plan()); // it stands there already: the sums start after it is seen
    else this.#plan();
  }

  /** What is asked now: of the form or, until that is made, of what was entered last, which /plan keeps with the rig's fields. */
  get #asked() {
    const values = Object.entries(this.#form?.values ?? this.deps.today.plan).filter(([key]) => this.#keys.includes(key));
    return JSON.stringify([keptOf(this.#rig, this.#site), values.sort(), this.deps.settings.values.units]);
  }

  /**
   * Has the plan reckoned, with the verdict of the day where rig and site tell enough: one sum, which is
   * not asked again while nothing that goes into it has changed. No figure stands beside what it was not
   * reckoned for, but for the moment that sums take which run.
   */
  async #plan() {
    if (this.deps.life.aborted) return;
    const form = this.#rig && this.#form?.values.thickness ? this.#form : null;
    const asked = this.#asked;
    const { judges, key, begin } = this.#sumOf(form?.asked ?? {});
    this.#offerChips();
    this.#at.day.hidden = !this.#rig;
    this.#at.site.textContent = this.#site?.fields.name ?? say("ready.nosite");
    if (form && key === this.#reckoned) return;
    this.#sum?.abort();
    this.#reckoned = form ? key : "";
    const waits = !form || !this.deps.sumsRun();
    if (waits && !(asked === this.#answered && this.#day?.verdict === "fails" && this.#day.site === this.#site?.id)) {
      if (this.#day) this.#show(this.#answer);
      else this.#showDay(null);
    }
    if (waits && asked !== this.#answered) this.#show(null);
    if (!form) return;
    const { signal } = (this.#sum = new AbortController());
    try {
      const ahead = this.#ahead?.key === key ? this.#ahead.answer : null;
      this.#ahead = null;
      const answer = await (ahead ?? begin(signal));
      if (this.#at.plan.hidden) await settled(this.#at.below); // which it pushes down
      if (signal.aborted) return;
      const plan = judges ? answer.parts?.["cut-plan"] : answer;
      form.wrong(null);
      this.#show(plan);
      this.#showDay(judges ? { ...answer.results, site: this.#site?.id } : null);
      this.#answered = asked;
      this.deps.today.answer = { ...plan, asked, keys: this.#keys, day: this.#day?.verdict === "fails" ? this.#day : null };
      this.#keepPast(plan.results.grade !== "clean");
    } catch (err) {
      if (signal.aborted || isAbort(err)) return;
      this.#reckoned = "";
      const trouble = /** @type {import("../calc/trouble.js").Trouble} */ (err);
      const { kind, field } = trouble;
      if (kind === "refused" && field === "thickness") this.#keepPast(true);
      const rest = form.wrong(trouble);
      this.#show(null, rest[0] ?? (kind === "missing" ? trouble : undefined)); // what a field says is said once
    }
  }

  /** Usual thicknesses, one tap each while none is entered. */
  #offerChips() {
    const { chips } = this.#at;
    const field = this.#form?.fields.get("thickness");
    const offered = field && !field.value ? field.chips : [];
    chips.hidden = offered.length === 0;
    if (chips.dataset.of === offered.join()) return; // none is replaced under the finger
    chips.dataset.of = offered.join();
    chips.replaceChildren(...offered.map((text) => make("button", { class: "chip", type: "button", text: spaced(text), onclick: () => field?.set(text) })));
  }

  /**
   * The sum for so much entered today: whether it judges the site, a key that tells it from others, and how
   * it is begun.
   * @param {Record<string, string>} entered
   */
  #sumOf(entered) {
    const parts = this.#now?.rigs?.find((r) => r.rig === this.#rig?.id)?.parts ?? [];
    const judges = canJudge(this.#rig, this.#site);
    const values = { ...keptOf(this.#rig, this.#site), ...(judges ? readOf(parts) : {}), ...entered };
    const { units } = this.deps.settings.values;
    return {
      judges, key: JSON.stringify([judges, units, Object.entries(values).sort()]),
      begin: (/** @type {AbortSignal} */ signal) => this.deps.calculate(judges ? "site-check" : "cut-plan", values, { units, signal }),
    };
  }

  /** Has the sums reckon with what still stands on the pad, so that its plan is there as the pad closes. @param {string} field @param {string} text */
  #reckonAhead(field, text) {
    if (this.deps.life.aborted || !this.#rig || !this.#form || !this.deps.sumsRun()) return;
    const { key, begin } = this.#sumOf({ ...this.#form.asked, [field]: text });
    if (key === this.#ahead?.key || key === this.#reckoned) return;
    const answer = begin(this.deps.life);
    answer.catch(() => {}); // told if it is entered
    this.#ahead = { key, answer };
  }

  /** Whether the metal is past what the plan cuts clean; the fault finder asks. @param {boolean} past */
  #keepPast(past) {
    const { metal, thickness } = /** @type {Form} */ (this.#form).values;
    this.deps.today.metal = { past: past ? "yes" : "no", metal: metal || "mild-steel", thickness };
  }

  /**
   * The verdict of the day in one line with its one remedy, and all of it folded under that: the plan on this
   * site's air and power. Where that is short, what holds here stands in the plan's place.
   * @param {(Judged & Record<string, unknown>)|null} results  of site-check
   */
  #showDay(results) {
    const at = this.#at;
    this.#day = results;
    at.day.hidden = at.planner.hidden;
    at.judged.hidden = !results;
    const { grade = "", verdict = "" } = results ?? this.#answer?.results ?? {};
    Object.assign(at.verdict.dataset, { verdict, grade });
    if (!results) {
      setText(at.verdict, say("ready.unjudged", { grade: grade && `${say(`grade.${grade}`)}. ` })); // an answer kept from an older app has no grade
      setText(at.remedy, this.#site ? say("ready.thin") : say("ready.nosite"));
      return;
    }
    const ways = [...results.remedies.map((r) => r.do), ...results.unknowns.map((n) => say("ready.find", n))];
    this.deps.today.verdicts = { air: results.air, power: results.power, duty: results.duty };
    setText(at.verdict, verdict === "fails" ? say("ready.short", { what: results.say.split(":")[0] }) : say("ready.verdict", { grade: say(`grade.${grade}`), verdict: say(`verdict.${verdict}`) }));
    setText(at.remedy, ways[0] ?? "");
    setText(at.because, results.say);
    at.verdicts.replaceChildren(...["air", "power", "duty", "parts"].map((group) => make("li", {}, sign(results[group]), make("b", { text: say(`check.${group}`) }), make("span", { text: say(`verdict.${results[group]}`) }))));
    at.from.hidden = !results.from;
    at.from.textContent = results.from ?? "";
    at.remedies.replaceChildren(...lines(ways.slice(1)));
    if (verdict !== "fails") return;
    setText(at.set, say(results.here.length ? "ready.holds" : "ready.nothing"));
    at.set.classList.remove("unseen"); // these are not the plan's figures
    at.whole.hidden = true;
    at.here.replaceChildren(...lines(results.here.map((/** @type {{say: string}} */ h) => say("ready.does", h))));
    const { current, tip, pressure, speed } = results.here.find((h) => h.for === "this") ?? {};
    at.moves.replaceChildren();
    at.settings.replaceChildren(...(current ? [reading(say("ready.current"), current.text, tip ? say("ready.tip", { tip }) : ""), reading(say("ready.pressure"), pressure?.text ?? wordsOf(this.#answer.results.pressure), say("ready.flows")), reading(say("ready.start"), wordsOf(this.#answer.results.start)), reading(say("ready.speed"), speed?.text ?? "", speed?.also)] : []));
  }

  async #pickSite() {
    if (this.#sites.length === 0) {
      this.deps.go("/site/new");
      return;
    }
    const word = await this.deps.chooser.ask({
      label: say("ready.whichsite"), value: this.#site?.id ?? noSite,
      options: [...this.#sites.map((s) => ({ word: s.id, label: s.fields.name ?? say("site.unnamed") })), { word: noSite, label: say("ready.noplace") }, { word: "new", label: say("ready.addsite") }],
    });
    if (word === "new") this.deps.go("/site/new");
    else if (word) {
      this.deps.settings.set({ site: word });
      this.#plan();
    }
  }

  /** @param {Plan|null} answer @param {import("../calc/trouble.js").Trouble} [problem] */
  #show(answer, problem) {
    const told = answer?.results ? answer : null;
    const at = this.#at;
    this.#answer = told;
    at.plan.hidden = !told && !problem;
    at.told.hidden = !told;
    at.careful.hidden = !told;
    at.whole.hidden = false;
    at.here.replaceChildren();
    at.set.className = "unseen";
    setText(at.set, say("ready.set"));
    at.wrong.hidden = !problem;
    at.wrong.replaceChildren(...wrongWords(problem));
    this.#showDay(null);
    if (!told) {
      this.#answered = ""; // nor does what was wrong stand beside another input
      at.moves.replaceChildren();
      return;
    }
    const { cautions, results: r } = told;
    at.settings.replaceChildren(
      reading(say("ready.current"), r.current?.text ?? "", [r.tip ? say("ready.tip", { tip: wordsOf(r.tip) }) : "", r.plate ?? ""].filter(Boolean).join(" · ")),
      reading(say("ready.pressure"), wordsOf(r.pressure), say("ready.flows")),
      reading(say("ready.start"), wordsOf(r.start), r.lean && r.start === "pierce" ? say("ready.lean", { angle: wordsOf(r.lean) }) : ""),
      reading(say("ready.speed"), wordsOf(r.speed_range ?? r.speed), r.pace ? say("ready.about", { pace: r.pace.text }) : ""));
    at.moves.replaceChildren(
      reading(say("ready.mean"), wordsOf(r.speed), [r.speed?.also, r.standing].filter(Boolean).join(". ")),
      reading(say("ready.standoff"), wordsOf(r.standoff), r.standoff?.also));
    setText(at.firstCaution, say("ready.cautions", { first: /^.*?\.(?= [A-Z]|$)/.exec(cautions[0] ?? "")?.[0] ?? "", n: cautions.length }));
    at.cautions.replaceChildren(...cautions.map((text) => caution(text)));
  }

  async #pickRig() {
    const options = this.#rigs.map((r) => ({ word: r.id, label: r.fields.name ?? say("rig.unnamed") }));
    const word = await this.deps.chooser.ask({
      label: say("ready.whichrig"), value: this.#rig?.id,
      options: [...options, { word: "edit", label: say("rig.edit") }, { word: "new", label: say("ready.newrig") }],
    });
    if (word === "new") this.deps.go("/rig/new");
    else if (word === "edit") this.deps.go(`/rig/${this.#rig?.id}`);
    else if (word) {
      this.deps.settings.set({ rig: word });
      this.#readRigs();
    }
  }

  async #addExample() {
    const id = newId();
    try {
      await this.deps.journal.tap({ kind: "rig.set", about: id, body: exampleRig });
      this.deps.settings.set({ rig: id });
      await this.#readRigs();
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
  }

  /** Hands the plan on to the session screen; what the sums have not reckoned yet goes without figures. */
  #begin() {
    const fields = this.#form?.asked ?? this.deps.today.plan;
    const stands = this.#answered === this.#asked;
    const day = stands ? this.#day : null;
    const { current, pressure, speed, verdict, binding, arc_on, arc_rest } = day ?? {};
    const holds = current && { current, pressure, speed }; // where the site is short of the plan
    const results = verdict === "fails" ? holds : stands ? this.#answer?.results : undefined;
    this.deps.today.begun = fields.thickness ? { fields, results, ...(verdict && binding ? { day: { verdict, binding, arc_on, arc_rest } } : {}) } : null; // an earlier one is not this session's
    this.deps.go("/cut");
  }
}

/** @param {string[]} texts */
function lines(texts) {
  return texts.map((text) => make("li", { class: "remedy", text }));
}

/** A verdict's own shape, so that it does not hang on colour. @param {unknown} verdict */
function sign(verdict) {
  const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  const use = document.createElementNS("http://www.w3.org/2000/svg", "use");
  use.setAttribute("href", `#sign-${verdict}`);
  svg.setAttribute("aria-hidden", "true");
  svg.append(use);
  return svg;
}
