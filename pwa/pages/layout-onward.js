// @ts-check
/** What follows from a layout: its templates as a file, and its cuts in today's plan or a job's list. */
import { handOver } from "../parts/download.js";
import { changesOf, keptJob } from "../parts/kept-jobs.js";
import { noSite, rigInUse, rigsOf, siteInUse, sitesOf } from "../parts/rig-and-site.js";
import { newId } from "../journal/id.js";
import { say } from "../words/words.js";

/** Stands for a job that there is not yet. */
const newJob = "new";

/** Of the jobs that are not done, the newest are offered. */
const mostJobs = 8;

export class LayoutOnward {
  /**
   * @param {import("../app.js").Deps} deps @param {import("../types/calc.js").Description} declared
   * @param {import("../calc/calls.js").Answer} answer @param {Record<string, string>} values  that it answers
   */
  constructor(deps, declared, answer, values) {
    this.deps = deps;
    this.declared = declared;
    this.values = values;
    this.templates = answer.templates ?? [];
    this.cuts = answer.cuts ?? [];
  }

  /** Hands over the file that is picked. */
  async print() {
    const { units } = this.deps.settings.values;
    const papers = units === "us" ? ["letter", "a4"] : ["a4", "letter"];
    const files = this.templates.flatMap(({ key, title }) => ["dxf", "svg"].map((as) => ({ word: `${as} ${key}`, label: `${title}: ${as.toUpperCase()}` })));
    const word = await this.deps.chooser.ask({ label: say("layout.which"), options: [...papers.map((paper) => ({ word: `pdf  ${paper}`, label: say(/* a4 | letter */ `layout.${paper}`), more: say("layout.true") })), ...files] });
    if (!word) return;
    const [as, template, paper] = word.split(" ");
    const { views } = await this.deps.journal.read(["rigs"]);
    const rig = rigInUse(rigsOf(views.rigs), this.deps.settings.values.rig);
    const date = new Date().toLocaleDateString("en", { day: "numeric", month: "long", year: "numeric" });
    await this.#try(async () => {
      const file = await this.deps.call("templates", { calculator: this.declared.name, input: { ...this.values, units }, as, template, paper, name: rig?.fields.name ?? "", date });
      if (await handOver(file.name, file.data, file.type)) this.deps.toasts.show(say("layout.saved", { name: file.name }));
    });
  }

  /** Takes a cut into today's plan, or all of them into a job. */
  async cut() {
    const { views } = await this.deps.journal.read(["jobs"]);
    const word = await this.deps.chooser.ask({ label: say("layout.where"), options: [
      ...this.cuts.map(({ name, fields }, n) => ({ word: String(n), label: say("layout.plan", { name }), more: [fields.thickness, fields.length].filter(Boolean).join(" · ") })),
      { word: newJob, label: say("layout.newjob") },
      ...(views.jobs?.jobs ?? []).filter(({ name, done, pieces }) => name && (done < pieces || pieces === 0)).slice(0, mostJobs).map(({ id, name }) => ({ word: id, label: say("layout.job", { name }) })),
    ] });
    if (!word) return;
    await this.#try(() => word in this.cuts ? this.#plan(this.cuts[Number(word)].fields) : this.#addTo(word));
  }

  // Private

  /** @param {Record<string, string>} fields */
  async #plan(fields) {
    const all = await this.deps.asset("gen/calculators.json");
    const asked = all.find(({ name }) => name === "cut-plan")?.fields ?? [];
    const taken = Object.entries(fields).filter(([key]) => asked.some((f) => f.key === key));
    this.deps.today.plan = { ...this.deps.today.plan, ...Object.fromEntries(taken) };
    this.deps.go("/ready");
  }

  /** @param {string} job */
  async #addTo(job) {
    const isNew = job === newJob;
    const id = isNew ? newId() : job;
    const { rows } = isNew ? keptJob(id) : keptJob(id, (await this.deps.call("journal-job", { id })).fields);
    const { metal } = this.deps.today.plan;
    const added = this.cuts.map(({ name, fields }) => ({ name, ...(metal && { metal }), ...fields }));
    await this.deps.journal.tap({ kind: "job.set", about: id, body: { ...(isNew && await this.#about()), ...changesOf(rows, [...rows, ...added]) } });
    this.deps.go(`/job/${id}`);
  }

  /** Of a new job: its name, and the rig and the site in use. */
  async #about() {
    const { views } = await this.deps.journal.read(["rigs"]);
    const { rig, site } = this.deps.settings.values;
    return { name: this.declared.title, rig: rigInUse(rigsOf(views.rigs), rig)?.id ?? "", site: siteInUse(sitesOf(views.rigs), site)?.id ?? noSite };
  }

  /** @param {() => Promise<unknown>} act */
  async #try(act) {
    try {
      await act();
    } catch (trouble) {
      this.deps.toasts.problem(/** @type {import("../calc/trouble.js").Trouble} */ (trouble));
    }
  }
}
