// Every word that a person reads stands in pwa/words, or comes from Go. The only others are:
// the troubles of what does not know the screen (calc, journal, worker, browser), which bring
// their own words as those of Go do, and index.html, which stands before any code runs.

import assert from "node:assert/strict";
import { readFile, readdir } from "node:fs/promises";
import { createRequire } from "node:module";
import { test } from "node:test";

const require = createRequire(new URL("../../cmd/dev/npm/package.json", import.meta.url));
const ts = require("typescript");
const { parseHTML } = require("linkedom");

const { say } = await import("../../pwa/words/words.js");
const { en: appWords } = await import("../../pwa/words/en.js");
const { guides: guideWords } = await import("../../pwa/words/guides.js");

const pwa = new URL("../../pwa/", import.meta.url);

/** Literals that look like words and are none, each with what it is. */
const allowed = new Map([
  ["take over", "what the page asks of its service worker, which may be an older one"],
  ["in part", "how far a repair helped, as entries have it"],
]);

/** Two plain words in a row, or a sentence of one. */
const isEnglish = (text) => /(?<![\w.[<-])[A-Za-z][a-z’']+[,;:]? \(?[a-z’']{2,}(?![\w-])/.test(text) || /^[A-Z][a-z]+[.!?]$/.test(text);

/** What one word is enough for: it is shown. */
const shown = /^(text|title|desc|label|placeholder|alt|aria-label)$/;
const shownMembers = /^(textContent|innerText|title|placeholder|ariaLabel)$/;

/** What takes a name of the code, and none that is read. */
const takesNames = /^(class|className|querySelector|querySelectorAll|closest|matches|matchMedia)$/;

/** Where troubles bring their own words, and which functions make them. */
const below = /^(calc|journal|worker|browser)\//;
const makesTroubles = /^(asTrouble|waiting)$/;

async function modules(ext) {
  const names = await readdir(pwa, { recursive: true });
  return names.map((name) => name.replaceAll("\\", "/")).filter((name) => name.endsWith(ext) && !/^(gen|words)\//.test(name));
}

/** The text of a literal, with 0 for what is put in. */
function textOf(node) {
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) return node.text;
  if (ts.isTemplateExpression(node)) return node.head.text + node.templateSpans.map((span) => `0${span.literal.text}`).join("");
  return undefined;
}

/** The names of the properties that a node is the value of, and of the functions that it is given to. */
function* givenTo(node) {
  for (let at = node; at.parent; at = at.parent) {
    const { parent } = at;
    if (ts.isPropertyAssignment(parent) && parent.initializer === at) yield ["property", parent.name.text ?? parent.name.getText()];
    if ((ts.isCallExpression(parent) || ts.isNewExpression(parent)) && parent.expression !== at) {
      yield [ts.isNewExpression(parent) ? "new" : "call", (parent.expression.name ?? parent.expression).getText()];
    }
    if (ts.isFunctionDeclaration(parent) && /\bTrouble\b/.test(ts.getJSDocReturnType(parent)?.getText() ?? "")) yield ["in", "Trouble"];
  }
}

/** Whether a text is shown as it stands. */
function isShown(node) {
  let at = node;
  const isPart = (parent) => ts.isParenthesizedExpression(parent) || (ts.isConditionalExpression(parent) && parent.condition !== at)
    || (ts.isBinaryExpression(parent) && /^(\+|\|\||\?\?|&&)$/.test(parent.operatorToken.getText()));
  while (isPart(at.parent)) at = at.parent;
  const { parent } = at;
  if (ts.isPropertyAssignment(parent) && parent.initializer === at) return shown.test(parent.name.text ?? parent.name.getText());
  return ts.isBinaryExpression(parent) && parent.right === at && ts.isPropertyAccessExpression(parent.left) && shownMembers.test(parent.left.name.text);
}

/** The English in a module, as "line: text". */
function englishIn(name, source) {
  const file = ts.createSourceFile(name, source, ts.ScriptTarget.ES2022, true);
  const found = [];
  const visit = (node) => {
    const text = textOf(node);
    if (text !== undefined && !ts.isImportDeclaration(node.parent) && !allowed.has(text)) {
      const to = [...givenTo(node)];
      const isName = to.some(([, of]) => takesNames.test(of));
      const isOfTrouble = to.some(([how, of]) => how === "new" && /Error|Exception/.test(of))
        || (below.test(name) && to.some(([how, of]) => how === "in" || (how === "property" && /^(msg|hint)$/.test(of)) || (how === "call" && makesTroubles.test(of))));
      if (!isName && !isOfTrouble && (isEnglish(text) || (isShown(node) && /[A-Za-z]{2,}/.test(text)))) {
        found.push(`${file.getLineAndCharacterOfPosition(node.getStart()).line + 1}: ${text}`);
      }
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

test("no module outside words says anything in words of its own", async () => {
  const names = await modules(".js");
  assert.ok(names.length > 100, `only ${names.length} modules were found`);
  const found = [];
  for (const name of names) found.push(...englishIn(name, await readFile(new URL(name, pwa), "utf8")).map((at) => `pwa/${name}:${at}`));
  assert.deepEqual(found, []);
});

test("no template has words of its own: they come by data-say, from words that exist", async () => {
  const names = (await modules(".html")).filter((name) => name !== "index.html");
  assert.ok(names.length > 10, `only ${names.length} files of templates were found`);
  const found = [];
  let keys = 0;
  for (const name of names) {
    const words = name.endsWith("/guide.html") ? { ...appWords, ...guideWords } : appWords;
    const { document } = parseHTML(`<!doctype html><body>${(await readFile(new URL(name, pwa), "utf8")).replace(/<\/?template/g, (tag) => tag.replace("template", "section"))}`);
    for (const element of document.querySelectorAll("*")) {
      for (const key of [element.dataset.say, element.dataset.sayLabel]) {
        if (!key) continue;
        keys += 1;
        if (typeof words[key] !== "string") found.push(`pwa/${name}: no words for ${key}`);
      }
      for (const key of ["aria-label", "placeholder", "title", "alt"]) {
        if (/[a-z]{2,}/.test(element.getAttribute(key) ?? "")) found.push(`pwa/${name}: ${key} ${element.getAttribute(key)}`);
      }
      for (const child of element.childNodes) if (child.nodeType === 3 && /[A-Za-z]{2,}/.test(child.data)) found.push(`pwa/${name}: ${child.data.trim()}`);
    }
  }
  assert.deepEqual(found, []);
  assert.ok(keys > 100, `only ${keys} keys were found`);
});

test("English is found where it stands, and only there", () => {
  const cases = [
    ["pages/a.js", 'x.textContent = "Stop";', 1],
    ["pages/a.js", 'make("p", { text: "Look again at the tip" });', 1],
    ["pages/a.js", 'throw { kind: "range", msg: "too much of it" };', 1],
    ["draw/a.js", 'picture({ title: "Tip", desc: `The tip is ${n} wide.` });', 2],
    ["draw/a.js", 'path("M 20 30 L 40 50 Q 2 3 4 5");', 0],
    ["journal/a.js", 'throw { kind: "range", msg: "too much of it" };', 0],
    ["journal/a.js", '/** @returns {Trouble} */ function full() { const hint = "Free some space."; return { kind: "disk-full", msg: "It is full.", hint }; }', 0],
    ["journal/a.js", 'show("too much of it");', 1],
    ["pages/a.js", 'const text = isShort ? "Look again" : "Read it";', 2],
    ["pages/a.js", 'make("p", { text: unit === "ga" ? say("pad.gauge") : unit });', 0],
    ["pages/a.js", 'throw new Error("no such thing here");', 0],
    ["pages/a.js", 'make("p", { class: "button apart", text: say("cut.note") });', 0],
    ["pages/a.js", 'at.closest("button, a, input");', 0],
  ];
  for (const [name, source, want] of cases) assert.equal(englishIn(name, source).length, want, source);
});

/** How many words may be read in one breath with gloves on. */
const mostWords = 18;

/** What is told apart from the work: of the crew, its phones and what keeps the entries. */
const besideTheWork = /^(join|devices|settings|origin|held|kept)\./;

/** Sentences, however they end. */
const sentencesOf = (text) => text.split(/[.!?:;](?:\s|$)/).map((one) => one.trim()).filter(Boolean);

/** Words that a welder does not say, and where. */
function jargonIn(key, text) {
  const never = /\b(?:sums?|fields?|inputs?|invalid|null|default|cache|reload)\b/i;
  const beside = /\b(?:servers?|sync|browsers?|router)\b/i;
  return [never, ...(besideTheWork.test(key) ? [] : [beside])].map((words) => words.exec(text)?.[0]).filter(Boolean);
}

test("a sentence is read in one breath, and says nothing of computing", () => {
  const found = [];
  for (const [key, text] of Object.entries({ ...appWords, ...guideWords })) {
    for (const one of sentencesOf(text)) if (one.split(/\s+/).length > mostWords) found.push(`${key}: ${one}`);
    for (const word of jargonIn(key, text)) found.push(`${key} says ${word}: ${text}`);
  }
  assert.deepEqual(found, []);
  assert.deepEqual(jargonIn("ready.more", "All sums"), ["sums"]);
  assert.deepEqual([jargonIn("cut.more", "On the server"), jargonIn("join.why", "On the server")], [["server"], []]);
});

test("what is counted is one thing or several", () => {
  const counted = /\{(\w+)\|([^|}]+)\|([^}]+)\}/g;
  const all = Object.entries({ ...appWords, ...guideWords });
  let n = 0;
  for (const [key, text] of all) {
    for (const [, name, one, many] of text.matchAll(counted)) {
      n += 1;
      assert.ok(say(key, { [name]: 1 }).includes(`1 ${one}`), `${key} of 1: ${say(key, { [name]: 1 })}`);
      for (const several of [0, 2, 11]) assert.ok(say(key, { [name]: several }).includes(`${several} ${many}`), `${key} of ${several}: ${say(key, { [name]: several })}`);
    }
  }
  assert.ok(n > 10, `only ${n} words are counted`);
  const plural = /\{(?:n|of|left|added|starts|entries)\} (?:more )?[a-z]+s\b/;
  assert.match("{n} more stops", plural);
  assert.deepEqual(all.filter(([, text]) => plural.test(text)), []);
});
