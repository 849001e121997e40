// The changes that mutation testing makes to a source text, all put into it at once behind a switch.
import { parseSync } from "oxc-parser";

/**
 * @typedef {{ id: number, file: string, line: number, from: string, to: string }} Mutant
 * @typedef {import("oxc-parser").Node} Node
 * @typedef {{ decides?: string[], isResult?: boolean, isOperand?: boolean, isCase?: boolean, inList?: boolean }} Role of an
 *   expression: a condition, with the constants that may replace it; a result; a part of a condition; a case; in a list
 * @typedef {{ file: string, source: string, mutants: Mutant[], opens: Map<number, string>, closes: Map<number, string>, firstId: number }} Work
 */

/** Operators of two sides, with those that stand in for them: a bound on its other side, and other arithmetic. */
const BINARY = new Map(
  Object.entries({ "<": "<=", "<=": "<", ">": ">=", ">=": ">", "+": "-", "-": "+", "*": "/", "/": "*", "%": "*" }),
);
const OPPOSITE = new Map(Object.entries({ "===": "!==", "!==": "===" }));
/** Operators whose result is true or false. */
const TRUTHS = new Set(["<", "<=", ">", ">=", "===", "!==", "&&", "||"]);
const ASSIGNMENT = new Map([
  ["+=", "-="],
  ["-=", "+="],
  ["*=", "/="],
]);
/** Methods that are called instead of one another. */
const SWAPPED = new Map([
  ["some", "every"],
  ["every", "some"],
  ["min", "max"],
  ["max", "min"],
  ["floor", "ceil"],
  ["ceil", "floor"],
  ["startsWith", "endsWith"],
  ["endsWith", "startsWith"],
]);
/** Methods whose call gives way to what they are called on; those of `Math` give way to what they are called with. */
const DROPPED = new Set("filter slice sort toSorted reverse toReversed concat trim toLowerCase".split(" "));
const ROUNDED = new Set(["round", "abs"]);
const FUNCTIONS = new Set(["ArrowFunctionExpression", "FunctionDeclaration", "FunctionExpression"]);
const LOOPS = new Set(["ForStatement", "WhileStatement", "DoWhileStatement"]);
/** Parts of TypeScript that are still there when the program runs. */
const KEPT = new Set(["TSAsExpression", "TSNonNullExpression", "TSSatisfiesExpression"]);

/**
 * The mutants of a text, and the text with all of them in it: `__mutant(id)` says whether one is switched on.
 * @param {string} file
 * @param {string} source
 * @param {number} firstId
 * @returns {{ mutants: Mutant[], text: string }}
 */
export function instrument(file, source, firstId) {
  const { program, errors } = parseSync(file, source, { preserveParens: false });
  if (errors.length > 0) throw new Error(`${file}: ${errors[0]?.message}`);
  /** @type {Work} */
  const work = { file, source, mutants: [], opens: new Map(), closes: new Map(), firstId };
  visit(work, program);
  let text = "";
  for (let at = 0; at <= source.length; at++) {
    text += (work.closes.get(at) ?? "") + (work.opens.get(at) ?? "") + (source[at] ?? "");
  }
  return { mutants: work.mutants, text };
}

/** An outer node comes before its inner ones: its opening goes to the left of theirs, its closing to the right. */
function visit(/** @type {Work} */ work, /** @type {any} */ node, /** @type {Role} */ role = {}) {
  if (node.type.startsWith("TS") && !KEPT.has(node.type)) return;
  if (node.type.startsWith("Import") || (node.type.startsWith("Export") && node.source)) return;
  mutateStatement(work, node);
  const instead = replacementsOf(work.source, node, role);
  if (instead.length > 0) {
    const choices = instead.map((to) => `__mutant(${add(work, node, to)})?(${to}):`).join("");
    wrap(work, node, `(${choices}`, ")");
  }
  for (const [key, part] of Object.entries(node)) {
    for (const each of Array.isArray(part) ? part : [part]) {
      if (typeof each?.type === "string") visit(work, each, roleOf(node, key, role));
    }
  }
}

/** @returns {Role} */
function roleOf(/** @type {any} */ outer, /** @type {string} */ key, /** @type {Role} */ { inList }) {
  if (outer.type === "SwitchCase") return key === "test" ? { isCase: true } : {};
  if (outer.type === "LogicalExpression" && outer.operator !== "??") return { isOperand: true };
  if (key === "test") return { decides: LOOPS.has(outer.type) ? ["false"] : ["true", "false"] };
  if (outer.type === "ReturnStatement" || (outer.type === "ArrowFunctionExpression" && key === "body"))
    return { isResult: true };
  return { inList: inList || outer.type === "ArrayExpression" };
}

/** Removes a statement, and empties a function. */
function mutateStatement(/** @type {Work} */ work, /** @type {any} */ node) {
  const plain = node.type === "ExpressionStatement" && !node.directive;
  if (plain || node.type === "ContinueStatement" || node.type === "BreakStatement") {
    wrap(work, node, `{if(!__mutant(${add(work, node, ";")}))`, "}");
  }
  if (FUNCTIONS.has(node.type) && node.body?.type === "BlockStatement" && node.body.body.length > 1) {
    const id = add(work, node.body, "{}");
    const at = node.body.start + 1;
    work.opens.set(at, `${work.opens.get(at) ?? ""}if(__mutant(${id}))return;`);
  }
}

/** What may stand instead of an expression. */
function replacementsOf(/** @type {string} */ source, /** @type {any} */ node, /** @type {Role} */ role) {
  const text = (/** @type {any} */ part) => source.slice(part.start, part.end);
  const pair = (/** @type {string} */ operator) => `(${text(node.left)}) ${operator} (${text(node.right)})`;
  if (role.isCase) return ["NaN"];
  const found = [...(role.decides ?? [])];
  if (role.isResult && TRUTHS.has(node.operator)) found.push("true", "false");
  // What is made true and false by turns, by itself or as a part, need not be turned round too.
  const settled = role.isOperand || found.length > 0;
  switch (node.type) {
    case "BinaryExpression":
      if (OPPOSITE.has(node.operator) && !settled) found.push(pair(OPPOSITE.get(node.operator) ?? ""));
      if (BINARY.has(node.operator) && !(node.operator === "+" && (isText(node.left) || isText(node.right))))
        found.push(pair(BINARY.get(node.operator) ?? ""));
      break;
    case "LogicalExpression":
      if (node.operator === "??") found.push(pair("&&"));
      else found.push(text(node.left), text(node.right));
      break;
    case "UnaryExpression":
      if ((node.operator === "!" && !settled) || node.operator === "-") found.push(text(node.argument));
      break;
    case "UpdateExpression":
      found.push(text(node).replace(/\+\+|--/, (each) => (each === "++" ? "--" : "++")));
      break;
    case "AssignmentExpression":
      if (ASSIGNMENT.has(node.operator))
        found.push(`${text(node.left)} ${ASSIGNMENT.get(node.operator)} ${text(node.right)}`);
      break;
    case "Literal":
      if (typeof node.value === "boolean") found.push(String(!node.value));
      break;
    case "ArrayExpression":
      if (node.elements.length > 0 && !role.inList) found.push("[]");
      break;
    case "ChainExpression":
      found.push(...withoutChains(source, node));
      break;
    case "CallExpression":
      found.push(...callsInstead(source, node));
      break;
  }
  return found;
}

function isText(/** @type {any} */ node) {
  return node.type === "TemplateLiteral" || typeof node.value === "string";
}

/** A chain with each `?.` in turn made certain. */
function withoutChains(/** @type {string} */ source, /** @type {any} */ chain) {
  const found = [];
  for (let at = chain.expression; at; at = at.object ?? at.callee ?? at.expression) {
    if (!at.optional) continue;
    const from = source.indexOf("?.", (at.object ?? at.callee).end);
    const after = source.slice(from + 2, chain.end);
    found.push(`${source.slice(chain.start, from)}${/^[[(]/.test(after) ? "" : "."}${after}`);
  }
  return found;
}

function callsInstead(/** @type {string} */ source, /** @type {any} */ call) {
  if (call.callee.type !== "MemberExpression" || call.callee.computed || call.optional || call.callee.optional)
    return [];
  const { object, property } = call.callee;
  const before = source.slice(call.start, property.start);
  const swapped = SWAPPED.get(property.name);
  if (swapped) return [`${before}${swapped}${source.slice(property.end, call.end)}`];
  if (DROPPED.has(property.name)) return [source.slice(object.start, object.end)];
  if (object.name === "Math" && ROUNDED.has(property.name))
    return [source.slice(call.arguments[0].start, call.arguments[0].end)];
  return [];
}

function add(/** @type {Work} */ work, /** @type {Node} */ node, /** @type {string} */ to) {
  const id = work.firstId + work.mutants.length;
  const line = work.source.slice(0, node.start).split("\n").length;
  work.mutants.push({ id, file: work.file, line, from: work.source.slice(node.start, node.end), to });
  return id;
}

function wrap(
  /** @type {Work} */ { opens, closes },
  /** @type {Node} */ { start, end },
  /** @type {string} */ open,
  /** @type {string} */ close,
) {
  opens.set(start, (opens.get(start) ?? "") + open);
  closes.set(end, close + (closes.get(end) ?? ""));
}
