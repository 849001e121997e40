/** Parses the formula of a curve. */
import { type Fault, isFault } from "../../syntax/read-context.ts";
import { type Scanner, scanner } from "../../syntax/scanner.ts";
import type { Formula } from "./formula-tree.ts";

/** Deeper formulas are refused: no board needs one, and each level takes a call. */
const DEEPEST = 60;

const CALLS = { abs: 1, sign: 1, min: 2, max: 2 } as const;

/**
 * Parses `10 * ({s} * stick + {e} * stick ^ 5)`: numbers, `stick`, slots, `+ - * / ^ ( )`, `abs`, `sign`, `min`,
 * `max`. `^` binds first, and rightwards: `2 ^ 3 ^ 2` is 2 ^ 9; `-2 ^ 2` is −4. `from`: the column at which the text
 * stands. A fault says what is expected where.
 */
export function parseFormula(text: string, from: number): Formula | Fault {
  const scan = scanner(text, 0, text.length);
  const read = parseSum(scan, 0);
  const problem = isFault(read) ? read : scan.done() ? null : expected(scan, "An operator, or the end of the formula,");
  if (problem) return { ...problem, start: problem.start + from, end: problem.end + from };
  return moved(read as Formula, from);
}

type Read = Formula | Fault;

function expected(scan: Scanner, what: string): Fault {
  const at = scan.done() ? { start: Math.max(0, scan.lastEnd() - 1), end: scan.lastEnd() } : scan.rest();
  const found = scan.done() ? "the line ends here" : `“${scan.rest().text}” stands here`;
  return { kind: "fault", code: "syntax", start: at.start, end: at.end, message: `${what} is expected; ${found}.` };
}

function parseSum(scan: Scanner, depth: number): Read {
  return parseTwo(scan, "+-", () => parseTwo(scan, "*/", () => parseSigned(scan, depth)));
}

function parseTwo(scan: Scanner, operators: string, part: () => Read): Read {
  let a = part();
  while (!isFault(a)) {
    const mark = scan.mark(operators);
    if (!mark) return a;
    const b = part();
    if (isFault(b)) return b;
    a = { kind: "two", operator: mark.text as "+" | "-" | "*" | "/", a, b, start: a.start, end: b.end };
  }
  return a;
}

/** A minus sign binds less than `^`, as in written mathematics. */
function parseSigned(scan: Scanner, depth: number): Read {
  if (depth > DEEPEST) return expected(scan, `A formula of at most ${DEEPEST} levels`);
  const minus = scan.mark("-");
  if (!minus) return parsePower(scan, depth);
  const of = parseSigned(scan, depth + 1);
  return isFault(of) ? of : { kind: "negative", of, start: minus.start, end: of.end };
}

function parsePower(scan: Scanner, depth: number): Read {
  const a = parseAtom(scan, depth);
  if (isFault(a) || !scan.mark("^")) return a;
  const b = parseSigned(scan, depth + 1);
  return isFault(b) ? b : { kind: "two", operator: "^", a, b, start: a.start, end: b.end };
}

function parseAtom(scan: Scanner, depth: number): Read {
  const digits = scan.match(/(?:\d+(?:\.\d+)?|\.\d+)(?![\w.])/y);
  if (digits) return { kind: "number", number: Number(digits.text), start: digits.start, end: digits.end };
  const slot = scan.match(/\{[a-z][a-z0-9-]*\}/y);
  if (slot) return { kind: "slot", slot: slot.text.slice(1, -1), start: slot.start, end: slot.end };
  const open = scan.mark("(");
  if (open) {
    const inside = parseSum(scan, depth + 1);
    if (isFault(inside)) return inside;
    const close = scan.mark(")");
    return close ? { ...inside, start: open.start, end: close.end } : expected(scan, "“)”");
  }
  const word = scan.match(/(stick|abs|sign|min|max)(?![\w-])/y);
  if (!word) return expected(scan, "A number, a slot, “stick”, “(”, or abs, sign, min or max");
  if (word.text === "stick") return { kind: "stick", start: word.start, end: word.end };
  return parseCall(scan, word.text as keyof typeof CALLS, word.start, depth);
}

function parseCall(scan: Scanner, name: keyof typeof CALLS, start: number, depth: number): Read {
  if (!scan.mark("(")) return expected(scan, `“(” behind “${name}”`);
  const of: Formula[] = [];
  do {
    const part = parseSum(scan, depth + 1);
    if (isFault(part)) return part;
    of.push(part);
  } while (scan.mark(","));
  const close = scan.mark(")");
  if (!close) return expected(scan, "“)”");
  if (of.length !== CALLS[name])
    return {
      kind: "fault",
      code: "syntax",
      start,
      end: close.end,
      message: `“${name}” takes ${CALLS[name] === 1 ? "one value" : "two values with a comma between"}.`,
    };
  return { kind: "call", name, of, start, end: close.end };
}

/** The formula with all its columns moved to where it stands in the line. */
function moved(formula: Formula, by: number): Formula {
  const at = { start: formula.start + by, end: formula.end + by };
  switch (formula.kind) {
    case "negative":
      return { ...formula, ...at, of: moved(formula.of, by) };
    case "two":
      return { ...formula, ...at, a: moved(formula.a, by), b: moved(formula.b, by) };
    case "call":
      return { ...formula, ...at, of: formula.of.map((part) => moved(part, by)) };
    default:
      return { ...formula, ...at };
  }
}
