// What the timings do on a page of the app. Each returns milliseconds.
"use strict";

/** The rig and the id of this phone, for entries that are brought in from outside. */
async function whose() {
  const { views, device } = await kerfside.journal.read(["rigs"]);
  return { device, rig: views.rigs.rigs[0].id };
}

/** Takes in an export and returns how many entries it added. */
async function bring(text) {
  const { added, refused } = await kerfside.journal.importText(text);
  if (refused.length > 0) throw new Error(JSON.stringify(refused[0]));
  return added;
}

/** A job of so many cuts, tapped one by one; resolves when the last is in the views. */
async function work(rig, cuts) {
  const { journal } = kerfside;
  const inside = "the-job-of-today";
  await journal.tap({ kind: "session.opened", about: inside, body: { rig, title: "Today" } });
  for (let cut = 0; cut < cuts; cut++) {
    for (const tap of ["startArc", "stopArc"]) {
      const { written } = await journal[tap]({ rig, in: inside });
      if (!written) throw new Error(`${tap} ${cut} was not written`);
      await new Promise((resolve) => setTimeout(resolve, 400)); // a second tap sooner than 300 ms is the same tap
    }
  }
  await journal.tap({ kind: "session.closed", about: inside, body: {} });
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

/** Resolves when a frame has been drawn. */
function drawn() {
  return new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
}

/**
 * Closes the number pad on one thickness after the other, each until the plan for it stands there.
 * The pad stands there drawn, with what was typed read, as it does when a finger comes down.
 */
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
    const read = new RegExp(`\\b${3 + (i % 6)}\\smm`);
    while (!read.test(pad.querySelector("[data-ref=also]").textContent)) await drawn();
    await drawn();
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

/** How long a loop of sums takes in the page or in a worker, so often. */
async function loops(where, count) {
  const loop = (length) => {
    const began = performance.now();
    let sum = 0;
    for (let i = 0; i < length; i++) sum = (Math.imul(sum, 31) + i) | 0;
    globalThis.sum = sum; // or nobody would have to reckon it
    return performance.now() - began;
  };
  const length = 2e7;
  const times = [];
  const worker = where === "worker" ? new Worker(URL.createObjectURL(new Blob([`const loop = ${loop}; onmessage = ({ data }) => postMessage(loop(data));`]))) : null;
  for (let i = 0; i < count; i++) {
    if (worker) worker.postMessage(length);
    times.push(worker ? await new Promise((resolve) => (worker.onmessage = ({ data }) => resolve(data))) : loop(length));
  }
  worker?.terminate();
  return times;
}

/** Names a rig; returns when, by the clock of the machine. */
async function begins(rig) {
  const at = Date.now();
  await kerfside.journal.tap({ kind: "rig.set", about: rig, body: { name: rig } });
  return at;
}

/** When a rig that another phone names shows here. */
function sees(rig) {
  const { journal } = kerfside;
  return new Promise((resolve) => {
    const look = async () => {
      const { views } = await journal.read(["rigs"]);
      if (views.rigs?.rigs.some(({ id }) => id === rig)) resolve(Date.now());
    };
    journal.addEventListener("views", look);
    look();
  });
}
