// Cut knows the job of its session from the tap on that opened it, and an arc the row that it is of.
import assert from "node:assert/strict";
import { test } from "node:test";
import { withPhone } from "./phone.mjs";

const jobOf = async (tab) => (await tab.read(["now"])).views.now.session?.job;

test("a session has its job as soon as it is opened, or given one", withPhone(async (phone) => {
  const tab = phone.tab();
  await tab.tap({ kind: "session.opened", about: "s-1", body: { rig: "rig-1", job: "job-1" } });
  assert.equal(await jobOf(tab), "job-1");
  await tab.tap({ kind: "session.set", about: "s-1", body: { job: "job-2" } });
  assert.equal(await jobOf(tab), "job-2");
  await tab.tap({ kind: "session.set", about: "s-0", body: { job: "job-3" } });
  await tab.tap({ kind: "session.set", about: "s-1", body: { title: "Gate" } });
  assert.equal(await jobOf(tab), "job-2");
}));

test("an arc is stored with its row, and without one where there is none", withPhone(async (phone) => {
  const tab = phone.tab();
  const bodies = async () => (await phone.all("event")).sort((a, b) => a.l - b.l).map(({ raw }) => JSON.parse(raw)).filter(({ kind }) => kind === "arc.started").map(({ body }) => body);
  await tab.startArc({ rig: "rig-1", in: "s-1", cut: "k1" });
  phone.wall += 5000;
  await tab.stopArc({ rig: "rig-1" });
  phone.wall += 5000;
  await tab.startArc({ rig: "rig-1", in: "s-1" });
  assert.deepEqual(await bodies(), [{ rig: "rig-1", cut: "k1" }, { rig: "rig-1" }]);
}));
