// A cut list is kept row by row: what one phone enters touches no other row.
import assert from "node:assert/strict";
import { test } from "node:test";
import { changesOf, keptJob, piecesOf, plannedOf, rowWords } from "../../pwa/parts/kept-jobs.js";

/** Keeps what changed over what was kept, as the fold does. */
function kept(fields, ...changes) {
  const all = Object.assign({}, fields, ...changes);
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== null));
}

/** A job with rows of these thicknesses, entered one after the other. */
function jobOf(...sizes) {
  return sizes.reduce((fields, thickness) => {
    const { rows } = keptJob("j", fields);
    return kept(fields, changesOf(rows, [...rows, { thickness }]));
  }, {});
}

const sizesOf = (fields) => keptJob("j", fields).rows.map(({ thickness }) => thickness).join(" ");

test("rows stand in the order in which they were entered", () => assert.equal(sizesOf(jobOf("3mm", "5mm", "6mm", "8mm")), "3mm 5mm 6mm 8mm"));

test("a change of one row writes that row alone", () => {
  const fields = jobOf("3mm", "5mm", "6mm");
  const { rows } = keptJob("j", fields);
  const change = changesOf(rows, rows.map((row, i) => (i === 1 ? { ...row, length: "400mm" } : row)));
  assert.deepEqual(Object.keys(change), [`cut.${rows[1]._key}`]);
  assert.deepEqual(change[`cut.${rows[1]._key}`], { length: "400mm", thickness: "5mm", at: rows[1]._at });
});

test("nothing changed writes nothing", () => {
  const { rows } = keptJob("j", jobOf("3mm", "5mm"));
  assert.deepEqual(changesOf(rows, structuredClone(rows)), {});
});

test("a row that is moved is written alone, and stands where it was put", () => {
  const fields = jobOf("1mm", "2mm", "3mm", "4mm", "5mm");
  for (let from = 0; from < 5; from++) {
    for (let to = 0; to < 5; to++) {
      const { rows } = keptJob("j", fields);
      const wanted = rows.toSpliced(from, 1).toSpliced(to, 0, rows[from]);
      const change = changesOf(rows, wanted);
      assert.ok(Object.keys(change).length <= 1, `${from} to ${to} writes ${Object.keys(change).length} rows`);
      assert.equal(sizesOf(kept(fields, change)), wanted.map(({ thickness }) => thickness).join(" "), `${from} to ${to}`);
    }
  }
});

test("a row put between two others comes to stand there", () => {
  const fields = jobOf("1mm", "2mm");
  const { rows } = keptJob("j", fields);
  assert.equal(sizesOf(kept(fields, changesOf(rows, [rows[0], { thickness: "9mm" }, rows[1]]))), "1mm 9mm 2mm");
});

test("two phones that enter rows at once keep all of them, in one order whichever comes first", () => {
  const fields = jobOf("1mm", "2mm");
  const { rows } = keptJob("j", fields);
  const a = changesOf(rows, [...rows, { thickness: "3mm" }]);
  const b = changesOf(rows, [...rows.slice(0, 1), { ...rows[1], length: "1m" }, { thickness: "4mm" }]);
  assert.equal(sizesOf(kept(fields, a, b)), sizesOf(kept(fields, b, a)));
  assert.deepEqual(sizesOf(kept(fields, a, b)).split(" ").sort(), ["1mm", "2mm", "3mm", "4mm"]);
});

test("a row that is taken out is null, and comes back as it was", () => {
  const fields = jobOf("1mm", "2mm", "3mm");
  const { rows } = keptJob("j", fields);
  const out = changesOf(rows, rows.toSpliced(1, 1));
  assert.deepEqual(out, { [`cut.${rows[1]._key}`]: null });
  const left = keptJob("j", kept(fields, out)).rows;
  assert.equal(sizesOf(kept(fields, out, changesOf(left, rows))), "1mm 2mm 3mm");
});

test("what another phone wrote may be anything", () => {
  const { rows, fields } = keptJob("j", { name: 7, "cut.a": { thickness: { odd: 1 }, at: "x", count: 3 }, "cut.b": "text", "cut.c": null, "cut.d": { metal: "stainless", at: 2 } });
  assert.deepEqual(rows, [{ count: "3", _key: "a", _at: 0 }, { metal: "stainless", _key: "d", _at: 2 }]);
  assert.deepEqual(fields, { name: "7" });
  assert.deepEqual(rows.map(rowWords), ["3 × · mild steel", "stainless"]);
});

test("a row has as many pieces as were asked for, one where nothing was", () => {
  assert.deepEqual(["", "1", "4", "-3", "many"].map((count) => piecesOf({ count })), [1, 1, 4, 1, 1]);
});

test("a session keeps of its plan whole seconds by the keys of its rows, without what is not known", () => {
  const job = keptJob("j", { "cut.a": { count: "3", at: 1 }, "cut.b": { at: 2 } });
  const s = (value) => ({ value });
  assert.deepEqual(plannedOf({ work: { value: 1392.2, low: 1107.4, high: 2392 }, rows: [{ arc: { ...s(83.4), low: 48 }, starts: s(3), elapsed: { ...s(983.4), high: 1663 } }] }, job), {
    elapsed: 1392, low: 1107, high: 2392, cuts: { a: { n: 3, arc: 83, arcLow: 48, starts: 3, elapsed: 983, high: 1663 }, b: { n: 1 } },
  });
});
