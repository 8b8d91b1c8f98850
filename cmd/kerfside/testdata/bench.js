// What the timings do on a page of the app. Each returns milliseconds.
"use strict";

/** Writes sessions of fifty entries each, as months of work would leave them. */
async function fill(entries) {
  const { journal } = kerfside;
  const rig = "rig-of-the-timings";
  const day = 24 * 3600 * 1000;
  await journal.tap({ kind: "rig.set", about: rig, body: { name: "Timings" } });
  const id = (session, i) => `timing${String(session).padStart(8, "0")}${String(i).padStart(8, "0")}`;
  for (let session = 0; session * 50 < entries; session++) {
    const at = Date.now() - 300 * day + session * 3600 * 1000;
    const inside = id(session, 0);
    const batch = [{ id: id(session, 1), kind: "session.opened", about: inside, at, body: { rig, title: `Job ${session}` } }];
    for (let cut = 0; cut < 24; cut++) {
      const start = id(session, 2 + 2 * cut);
      batch.push({ id: start, kind: "arc.started", in: inside, at: at + cut * 60_000, body: { rig } });
      batch.push({ id: id(session, 3 + 2 * cut), kind: "arc.stopped", in: inside, at: at + cut * 60_000 + 20_000, body: { of: start } });
    }
    batch.push({ id: id(session, 60), kind: "session.closed", about: inside, at: at + 25 * 60_000, body: {} });
    await journal.tap(batch);
  }
  return (await journal.stateHash()).events;
}

/** Taps notes one after the other, each until it is on the disk. */
async function taps(count) {
  const times = [];
  for (let i = 0; i < count; i++) {
    const began = performance.now();
    await kerfside.journal.tap({ kind: "note.added", body: { text: `note ${i}` } });
    times.push(performance.now() - began);
  }
  return times;
}

/** Closes the number pad on one thickness after the other, each until the plan for it stands there. */
async function plans(count) {
  const times = [];
  const plan = document.querySelector("[data-ref=told]");
  for (let i = 0; i < count; i++) {
    const field = [...document.querySelectorAll("button")].find((one) => /^Thickness/.test(one.textContent));
    field.click();
    const pad = document.querySelector("dialog:modal");
    const key = [...pad.querySelectorAll("[data-ref=keys] button")].find((one) => one.textContent === String(3 + (i % 6)));
    key.click();
    pad.querySelector("[data-unit=mm]").click();
    const changed = new Promise((resolve) => {
      const watcher = new MutationObserver(() => (watcher.disconnect(), resolve(performance.now())));
      watcher.observe(plan, { childList: true, subtree: true, characterData: true });
    });
    const began = performance.now();
    pad.querySelector("[data-action=done]").click();
    times.push((await changed) - began);
  }
  return times;
}

/** Ranks with every sign of a fault answered, a third of them seen, through the worker and back. */
async function ranks(count, faults) {
  const times = [];
  for (let i = 0; i < count; i++) {
    const seen = faults.filter((_, at) => (at + i) % 3 === 0).join(",");
    const absent = faults.filter((_, at) => (at + i) % 3 !== 0).join(",");
    const began = performance.now();
    await kerfside.call("fault-rank", { signs: seen, absent, tip_minutes: "30min", electrode_minutes: "30min", drain_minutes: "10min" });
    times.push(performance.now() - began);
  }
  return times;
}
