// Hazards answered for one job are not answers for the next.
import assert from "node:assert/strict";
import { test } from "node:test";
import { forThisJob, jobHolds, jobOf, ofThisJob } from "../../pwa/parts/job.js";

const declared = [{ key: "wet", hazard: true }, { key: "near", hazard: true }, { key: "watch" }];
const given = { wet: "no", near: "clear", watch: "2h" };
const open = (id) => ({ now: { session: { id } }, book: null });
const between = (...ids) => ({ now: { session: null }, book: { sessions: ids.map((id) => ({ id })) } });

test("a draft holds its hazards within its job alone", () => {
  const jobs = [open("s1"), open("s2"), between("s1"), between("s2", "s1"), between(), { now: null, book: null }].map(jobOf);
  for (const made of jobs) {
    for (const read of jobs) {
      const held = ofThisJob(forThisJob(given, {}, made), declared, read);
      assert.deepEqual(held, made === read ? given : { watch: "2h" }, `${made}, ${read}`);
    }
  }
  assert.equal(new Set(jobs).size, 5, "only the two that know of no session are one job");
});

test("a draft of no job holds no hazard", () => {
  assert.deepEqual(ofThisJob(given, declared, jobOf(open("s1"))), { watch: "2h" });
});

test("half a day ends it, counted from the first answer", (t) => {
  t.mock.timers.enable({ apis: ["Date"], now: 1_760_731_116_544 });
  const first = forThisJob({ wet: "no" }, {}, "s1");
  t.mock.timers.tick(jobHolds - 1);
  const second = forThisJob(given, first, "s1");
  assert.deepEqual(ofThisJob(second, declared, "s1"), given);
  t.mock.timers.tick(1);
  assert.deepEqual(ofThisJob(second, declared, "s1"), { watch: "2h" });
});

test("a clock that was set back by a day holds no answer longer", (t) => {
  t.mock.timers.enable({ apis: ["Date"], now: 1_760_731_116_544 });
  const draft = forThisJob(given, {}, "s1");
  t.mock.timers.setTime(Date.now() - 60_000);
  assert.deepEqual(ofThisJob(draft, declared, "s1"), given);
  t.mock.timers.setTime(Date.now() - jobHolds);
  assert.deepEqual(ofThisJob(draft, declared, "s1"), { watch: "2h" });
});
