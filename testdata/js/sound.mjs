// What every drawing keeps to, whatever it is given.
import assert from "node:assert/strict";

const numeric = ["x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "rx", "ry", "width", "height", "stroke-width", "font-size"];

/** Named, described, with sound numbers, following the look, without styles. */
export function sound(svg, where) {
  assert.equal(svg.name, "svg", where);
  assert.equal(svg.attr("role"), "img", where);
  const byId = (ref) => svg.find((e) => e.attr("id") === svg.attr(ref))[0];
  assert.ok(byId("aria-labelledby").text.length > 3, `${where}: title`);
  assert.ok(byId("aria-describedby").text.length > 10, `${where}: description`);
  assert.ok(!/undefined|NaN|null/.test(byId("aria-describedby").text), `${where}: ${byId("aria-describedby").text}`);
  for (const e of svg.all()) {
    assert.equal(e.attr("style"), undefined, `${where}: style on ${e.name}`);
    for (const key of numeric) {
      const value = e.attr(key);
      if (value !== undefined) assert.ok(Number.isFinite(Number(value)), `${where}: ${key}="${value}" on ${e.name}`);
    }
    for (const key of ["r", "rx", "ry", "width", "height"]) {
      assert.ok(Number(e.attr(key) ?? 0) >= 0, `${where}: ${key}="${e.attr(key)}" on ${e.name}`);
    }
    for (const key of ["d", "transform", "viewBox"]) assert.ok(!/NaN|undefined|Infinity/.test(e.attr(key) ?? ""), `${where}: ${key}="${e.attr(key)}"`);
    for (const key of ["fill", "stroke"]) {
      assert.match(e.attr(key) ?? "none", /^(none|currentColor|url\(#[\w-]+\))$/, `${where}: ${key} of ${e.name} follows the look`);
    }
  }
}

/** Words stand inside the picture, and no two of them on one another. */
export function wordsFit(svg, where) {
  const [, , width, height] = svg.attr("viewBox").split(" ").map(Number);
  assert.equal(width, 320, `${where}: made for 320 px`);
  const boxes = [];
  for (const e of svg.find((e) => e.name === "text" && e.text !== "")) {
    // 9.4 px a character is wide for 16 px bold type.
    const [x, y, room] = [Number(e.attr("x")), Number(e.attr("y")), e.text.length * 9.4];
    const left = { start: x, middle: x - room / 2, end: x - room }[e.attr("text-anchor")];
    assert.ok(left >= -6 && left + room <= width + 1, `${where}: "${e.text}" runs from ${left} to ${left + room}`);
    assert.ok(y >= 14 && y <= height, `${where}: "${e.text}" stands at ${y} of ${height}`);
 
    // Boxes of 8.2 px a character and 13 px high are what no type is smaller than.
    const close = e.text.length * 8.2;
    const start = { start: x, middle: x - close / 2, end: x - close }[e.attr("text-anchor")];
    for (const other of boxes) {
      assert.ok(start >= other.end || other.start >= start + close || Math.abs(other.y - y) >= 13, `${where}: "${e.text}" stands on "${other.text}"`);
    }
    boxes.push({ text: e.text, y, start, end: start + close });
  }
}
