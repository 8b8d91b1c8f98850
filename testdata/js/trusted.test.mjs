import assert from "node:assert/strict";
import { test } from "node:test";

globalThis.location = { href: "http://localhost:8480/cut", origin: "http://localhost:8480" };
const { guideHTML, scriptURL } = await import("../../pwa/browser/trusted.js");

test("only our own worker and service worker may become scripts", () => {
  assert.equal(scriptURL("/a/0123abcd/worker/worker.js"), "http://localhost:8480/a/0123abcd/worker/worker.js");
  assert.equal(scriptURL("/sw.js"), "http://localhost:8480/sw.js");
  for (const bad of ["/a/0123/app.js", "/sw.js/x", "//elsewhere.example/sw.js", "data:text/javascript,1", "blob:http://localhost:8480/1", "http://localhost:8481/sw.js"]) {
    assert.throws(() => scriptURL(bad), TypeError, bad);
  }
});

test("the HTML of a guide passes as it is", () => {
  const html = '<p>Take the <strong>power</strong> off.<br>\nA &lt; B</p><ul><li><a href="/guide/bring-up#area" title="next">Area</a></li></ul>' +
    '<table><thead><tr><th align="left">A</th></tr></thead></table><h2 id="cup">Cup</h2><ol start="3"></ol><hr />';
  assert.equal(guideHTML(html), html);
});

test("anything that could run is refused", () => {
  for (const bad of [
    "<script>1</script>",
    "<img src=x onerror=1>",
    '<p onclick="x">',
    '<a href="javascript:alert(1)">',
    "<a href=javascript:1>",
    '<a href="/x" onclick="x">',
    "<svg><a>",
    "<iframe src=/>",
    "<p/onclick=x>",
    "<!-- --><script>",
    "<style>",
    '<p title="a>b" onclick=x>',
    "<P ONCLICK=x>",
    "<script",
  ]) {
    assert.throws(() => guideHTML(bad), TypeError, bad);
  }
});
