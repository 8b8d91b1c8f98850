// What modules ask of a browser: TypeScript says whose member a name is, the data since when it is there.

import ts from "typescript";
import { RegExpParser, visitRegExpAST } from "@eslint-community/regexpp";
import { below, data, known } from "./support.mjs";

/** @typedef {{feature: string, file: string, line: number}} Use */

/** All uses in the files of a tsconfig.json and in more files. @param {string} config @param {string[]} [more] @returns {Use[]} */
export function usesOfProject(config, more = []) {
  const { options, fileNames } = ts.getParsedCommandLineOfConfigFile(config, {}, { ...ts.sys, onUnRecoverableConfigFileDiagnostic() {} });
  return usesIn([...fileNames, ...more], { ...options, lib: options.lib.map((lib) => lib.replace("es2023", "esnext")) });
}

/** @param {string[]} files @param {import("typescript").CompilerOptions} options @returns {Use[]} */
export function usesIn(files, options) {
  const program = ts.createProgram(files, options);
  const checker = program.getTypeChecker();
  /** @type {Use[]} */ const uses = [];
  for (const source of program.getSourceFiles()) {
    if (source.isDeclarationFile || !files.some((file) => file.endsWith(source.fileName))) continue;
    const look = (/** @type {import("typescript").Node} */ node) => {
      for (const feature of featuresOf(node, checker)) {
        uses.push({ feature, file: source.fileName, line: source.getLineAndCharacterOfPosition(node.getStart()).line + 1 });
      }
      ts.forEachChild(node, look);
    };
    look(source);
  }
  return uses;
}

/** @param {import("typescript").Node} node @param {import("typescript").TypeChecker} checker @returns {(string|null)[]} */
function featuresOf(node, checker) {
  if (ts.isPropertyAccessExpression(node)) return isAskedFor(node) ? [] : [memberOf(node.expression, node.name.text, checker)].filter(Boolean);
  if (ts.isIdentifier(node)) return isAskedFor(node) ? [] : [globalOf(node, checker)].filter(Boolean);
  if (ts.isRegularExpressionLiteral(node)) return inPattern(node.text.slice(1, node.text.lastIndexOf("/")), node.text.slice(node.text.lastIndexOf("/") + 1));
  if (ts.isNewExpression(node) || ts.isCallExpression(node)) return [...options(node, checker), ...builtPattern(node)];
  return [];
}

/** Whether it is used only where it is there: a.b?.c, typeof a, and what a condition asks for. @param {import("typescript").Node} node */
function isAskedFor(node) {
  const { parent } = node;
  return Boolean(ts.isTypeOfExpression(parent) || (/** @type {any} */ (parent).expression === node && /** @type {any} */ (parent).questionDotToken));
}

/** @param {import("typescript").Expression} owner @param {string} name @param {import("typescript").TypeChecker} checker */
function memberOf(owner, name, checker) {
  const type = checker.getApparentType(checker.getNonNullableType(checker.getTypeAtLocation(owner)));
  if (type.flags & ts.TypeFlags.Any) return ts.isCallExpression(owner.parent.parent) && owner.parent.parent.expression === owner.parent ? (methodsByName.get(name) ?? null) : null;
  const types = type.isUnionOrIntersection() ? type.types : [type];
  const own = types.flatMap((t) => checker.getPropertyOfType(t, name)?.declarations ?? []);
  if (!own.some(isOfBrowser)) return null;
  for (const of of types.flatMap((t) => namesOf(t, checker))) {
    const found = known("api", of, name) ?? known("javascript", "builtins", of, name) ?? known("javascript", "builtins", "Intl", of, name);
    if (found) return found;
  }
  if (ts.isIdentifier(owner)) {
    const found = known("api", owner.text, `${name}_static`) ?? known("javascript", "builtins", owner.text, name) ?? known("webassembly", "api", owner.text, name);
    if (found) return found;
  }
  return membersByName.get(name) ?? null;
}

/** A type and all that it extends. @param {import("typescript").Type} type @param {import("typescript").TypeChecker} checker @returns {string[]} */
function namesOf(type, checker) {
  const name = type.symbol?.name.replace(/^Readonly(?=Array|Map|Set)/, "").replace(/Constructor$/, "") ?? "";
  const target = /** @type {any} */ (type).target ?? type;
  const bases = target.isClassOrInterface?.() ? checker.getBaseTypes(target) : [];
  return [name, ...bases.flatMap((base) => namesOf(base, checker)), ...(name === "Window" || name === "globalThis" ? [""] : [])];
}

/** Of each name the oldest member, for what TypeScript has in a type of its own. @type {Map<string, string>} */
const membersByName = new Map();
/** The same of the language's own objects, for what has any type. @type {Map<string, string>} */
const methodsByName = new Map();

/** @param {(name: string) => number} newness */
export function learnNames(newness) {
  const owners = [...Object.entries(data.api).map(([k]) => ["api", k]), ...Object.keys(data.javascript.builtins).map((k) => ["javascript", "builtins", k])];
  for (const path of owners) {
    const owner = path.reduce((at, step) => at[step], data);
    for (const key of Object.keys(owner)) {
      const feature = known(...path, key);
      if (!feature) continue;
      const name = key.replace(/_static$/, "");
      for (const names of path[0] === "api" ? [membersByName] : [membersByName, methodsByName]) {
        const before = names.get(name);
        if (!before || newness(feature) < newness(before)) names.set(name, feature);
      }
    }
  }
}

/** @param {import("typescript").Declaration} declaration */
const isOfBrowser = (declaration) => /\/lib\.[\w.]+\.d\.ts$/.test(declaration.getSourceFile().fileName);

/** A name that nothing of ours declares. @param {import("typescript").Identifier} node @param {import("typescript").TypeChecker} checker */
function globalOf(node, checker) {
  const { parent } = node;
  if (ts.isPropertyAccessExpression(parent) && parent.name === node) return null;
  if (ts.isJSDoc(parent) || ts.isTypeNode(parent) || ts.isPropertyAssignment(parent) && parent.name === node) return null;
  const symbol = checker.getSymbolAtLocation(node);
  if (!symbol?.declarations?.length || !(symbol.flags & ts.SymbolFlags.Value) || !symbol.declarations.every(isOfBrowser)) return null;
  if (symbol.flags & (ts.SymbolFlags.Property | ts.SymbolFlags.Method)) return null;
  return known("api", node.text) ?? known("api", "Window", node.text) ?? known("javascript", "builtins", node.text);
}

/** Members of what is handed over: fetch(a, {priority}). @param {import("typescript").NewExpression|import("typescript").CallExpression} node @param {import("typescript").TypeChecker} checker */
function options(node, checker) {
  const callee = node.expression;
  const feature = ts.isNewExpression(node)
    ? ts.isIdentifier(callee) && (known("api", callee.text, callee.text) ?? known("javascript", "builtins", callee.text, callee.text))
    : ts.isPropertyAccessExpression(callee) ? memberOf(callee.expression, callee.name.text, checker) : ts.isIdentifier(callee) && globalOf(callee, checker);
  if (!feature) return [];
  const found = ts.isNewExpression(node) ? [feature] : [];
  const parts = below(feature);
  for (const argument of node.arguments ?? []) {
    if (!ts.isObjectLiteralExpression(argument)) continue;
    for (const { name } of argument.properties) {
      const part = name && parts.find((p) => p === `options_${name.getText()}_parameter` || p === `init_${name.getText()}_parameter`);
      if (part) found.push(`${feature}.${part}`);
    }
  }
  return found;
}

/** An expression that is built from a text. @param {import("typescript").NewExpression|import("typescript").CallExpression} node */
function builtPattern(node) {
  const [pattern, flags] = node.arguments ?? [];
  if (!ts.isIdentifier(node.expression) || node.expression.text !== "RegExp" || !pattern) return [];
  return ts.isStringLiteralLike(pattern) ? inPattern(pattern.text, flags && ts.isStringLiteralLike(flags) ? flags.text : "") : /\(\?<[=!]/.test(pattern.getText()) ? [lookBehind] : [];
}

const lookBehind = "javascript.regular_expressions.lookbehind_assertion";

/** What a regular expression needs. @param {string} pattern @param {string} flags */
export function inPattern(pattern, flags) {
  const parser = new RegExpParser();
  /** @type {string[]} */ const found = [];
  const has = (name) => found.push(`javascript.regular_expressions.${name}`);
  visitRegExpAST(parser.parsePattern(pattern, undefined, undefined, { unicode: flags.includes("u"), unicodeSets: flags.includes("v") }), {
    onAssertionEnter: (node) => node.kind === "lookbehind" && has("lookbehind_assertion"),
    onCapturingGroupEnter: (node) => node.name && has("named_capturing_group"),
    onCharacterSetEnter: (node) => node.kind === "property" && has("unicode_character_class_escape"),
    onModifiersEnter: () => has("modifier"),
  });
  for (const [flag, name] of Object.entries({ d: "hasIndices", s: "dotAll", v: "unicodeSets", y: "sticky" })) if (flags.includes(flag)) found.push(`javascript.builtins.RegExp.${name}`);
  return found;
}
