// A draft is one module's own: no other reads or writes it under the same name. What one screen is to know of
// another goes through today.js, and nothing but those, drafts and the settings is stored past the journal.

import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { test } from "node:test";

const ts = createRequire(new URL("../../cmd/dev/npm/package.json", import.meta.url))("typescript");

const pwa = new URL("../../pwa/", import.meta.url);
const modules = Object.fromEntries(readdirSync(pwa, { recursive: true }).filter((name) => name.endsWith(".js") && !name.startsWith("gen/"))
  .map((name) => [name, readFileSync(new URL(name, pwa), "utf8")]));

/** All nodes of a module. */
function nodesOf(text) {
  const nodes = [];
  const walk = (node) => (nodes.push(node), ts.forEachChild(node, walk));
  walk(ts.createSourceFile("module.js", text, ts.ScriptTarget.Latest, true, ts.ScriptKind.JS));
  return nodes;
}

/** The last part of a dotted name. */
const lastOf = (node) => (ts.isPropertyAccessExpression(node) ? node.name.text : ts.isIdentifier(node) ? node.text : "");

/** What is called by some name of a method on something of some name, as in deps.drafts.of("gate"): the arguments. */
function callsOf(nodes, on, methods) {
  return nodes.filter((n) => ts.isCallExpression(n) && ts.isPropertyAccessExpression(n.expression) && methods.includes(n.expression.name.text) && lastOf(n.expression.expression).replace("#", "") === on).map((n) => n.arguments);
}

/** What is put into a name: into a variable or argument, else into a field or property. Null is what only a run can tell. */
function putInto(node, nodes) {
  const name = lastOf(node);
  const isOf = (n) => n.name?.text === name;
  if (!ts.isPropertyAccessExpression(node)) return nodes.filter((n) => (ts.isVariableDeclaration(n) || ts.isParameter(n) || ts.isBindingElement(n)) && isOf(n)).map((n) => (ts.isVariableDeclaration(n) ? n.initializer : null));
  return nodes.flatMap((n) => {
    if ((ts.isPropertyDeclaration(n) || ts.isPropertyAssignment(n)) && isOf(n)) return [n.initializer];
    return ts.isBinaryExpression(n) && n.operatorToken.kind === ts.SyntaxKind.EqualsToken && ts.isPropertyAccessExpression(n.left) && lastOf(n.left) === name ? [n.right] : [];
  });
}

/** The texts that an expression can be, "*" for what only a run can tell; "" is a field that was not set yet. */
function textsOf(node, nodes) {
  if (node && ts.isStringLiteralLike(node)) return [node.text].filter(Boolean);
  if (node && ts.isTemplateExpression(node)) {
    const spans = node.templateSpans.map(({ expression, literal }) => textsOf(expression, nodes).map((text) => text + literal.text));
    return spans.reduce((all, span) => all.flatMap((text) => span.map((more) => text + more)), [node.head.text]);
  }
  const put = node && lastOf(node) ? putInto(node, nodes) : [];
  return put.length > 0 ? [...new Set(put.flatMap((value) => textsOf(value, nodes)))] : ["*"];
}

/** Names of drafts by module: "gate", "guide.*". */
function draftsOf(text) {
  const nodes = nodesOf(text);
  return [...new Set(callsOf(nodes, "drafts", ["of", "keep", "drop"]).flatMap(([name]) => {
    const texts = textsOf(name, nodes);
    assert.ok(texts.length > 0 && texts.every((text) => text[0] !== "*"), `${name.getText()} cannot be read here: say the name of a draft in the module that keeps it`);
    return texts;
  }))];
}

/** Whether two names, with "*" for anything, can be the same. */
function meet(a, b) {
  const [headA, headB] = [a, b].map((name) => name.split("*")[0]);
  if (!a.includes("*") && !b.includes("*")) return a === b;
  return (a.includes("*") && headB.startsWith(headA)) || (b.includes("*") && headA.startsWith(headB));
}

/** Pairs of modules that keep a draft under the same name. */
function clashes(all) {
  const kept = Object.entries(all).flatMap(([module, text]) => draftsOf(text).map((name) => ({ module, name })));
  return kept.flatMap((one, i) => kept.slice(i + 1).filter((other) => other.module !== one.module && meet(one.name, other.name)).map((other) => `${one.module} ${one.name}, ${other.module} ${other.name}`));
}

test("each draft has one module that it is of", () => {
  assert.deepEqual(clashes(modules), []);
});

test("no draft has the name under which a fact of today is stored", () => {
  const nodes = nodesOf(modules["today.js"]);
  const facts = nodes.filter((n) => ts.isCallExpression(n) && ["#told", "#tell"].includes(lastOf(n.expression))).map((n) => n.arguments[0].text);
  assert.ok(new Set(facts).size > 5, "they are found");
  const drafts = Object.values(modules).flatMap(draftsOf);
  assert.deepEqual(drafts.filter((name) => facts.some((fact) => meet(name, fact))), []);
});

test("drafts, today and settings alone store past the journal", () => {
  const found = Object.entries(modules).filter(([, text]) => callsOf(nodesOf(text), "localState", ["get", "set", "remove", "names"]).length > 0).map(([module]) => module);
  assert.deepEqual(found.sort(), ["parts/drafts.js", "parts/settings.js", "today.js"]);
});

test("a name that two modules use is found, however it is said", () => {
  const gate = `const name = "gate"; class A { keep() { this.deps.drafts.keep(name, {}); } }`;
  const sum = "class B { get name() { return 1; } of() { return this.#drafts.of(`sum.${this.name}`); } }";
  for (const other of [`({ drafts }) => drafts.drop("gate")`, `class C { #key = ""; start(id) { this.#key = "gate"; this.deps.drafts.of(this.#key); } }`, "(drafts, sort) => drafts.of(`${sort.words}e`); const s = { words: \"gat\" };", "(drafts, x) => drafts.of(`ga${x}`)"]) {
    assert.equal(clashes({ a: gate, b: sum, c: other }).length, 1, other);
  }
  assert.deepEqual(clashes({ b: sum, c: `(drafts) => drafts.of("sum.travel-pace")` }), ["b sum.*, c sum.travel-pace"]);
  assert.deepEqual(clashes({ a: gate, b: sum, c: `(drafts) => drafts.of("gates")` }), []);
  for (const hidden of ["(drafts, key) => drafts.of(key)", "(drafts, x) => drafts.of(`${x}.gate`)", "drafts.of(nameOf(1))"]) assert.throws(() => draftsOf(hidden), /cannot be read/);
});
