/**
 * JSON (RFC 8259) with the place of every value, so that an error in a pilot's own file is reported
 * at its place. `JSON.parse` gives no places.
 */
import { createScanner, getLocation, type Node, type ParseError, parseTree, printParseErrorCode } from "jsonc-parser";
import type { Position, Range } from "../../syntax/span.ts";

/** The path from the root to a value: names of members, indices of items. */
export type JsonPath = readonly (string | number)[];

export type JsonText =
  | {
      readonly kind: "value";
      readonly value: unknown;
      /** The range of the value at a path; if there is none, that of its nearest ancestor. */
      rangeOf(path: JsonPath): Range;
      /** The range of a member's name; for a value without a name, the value's own. */
      nameRangeOf(path: JsonPath): Range;
      /** The later of two members with the same name in one object. */
      readonly repeated: readonly JsonPath[];
    }
  | { readonly kind: "fault"; readonly message: string; readonly range: Range };

type NodeSpan = Pick<Node, "offset" | "length">;

/** Deeper than any file that a person writes, and safe for the stack. */
const DEEPEST = 100;

/** Reads a text; never throws. Places are lines and columns from 0. */
export function readJson(text: string): JsonText {
  const rangeIn = rangesIn(text);
  // A byte order mark is not part of the JSON; a space instead of it keeps all places.
  const json = text.replace(/^\uFEFF/, " ");
  const fault = (message: string, offset: number, length = 1): JsonText => {
    const end = Math.min(offset + Math.max(1, length), text.length);
    return { kind: "fault", message, range: rangeIn({ offset, length: end - offset }) };
  };
  const deep = tooDeep(json);
  if (deep !== null) return fault(`This is nested more than ${DEEPEST} deep: make it flatter.`, deep);
  const errors: ParseError[] = [];
  const root = parseTree(json, errors, { disallowComments: true });
  const [first] = errors;
  if (first || !root) return fault(...(first ? faultOf(json, first) : misplaced(json, 0, 0)));
  return {
    kind: "value",
    value: JSON.parse(json),
    repeated: repeatedIn(root, []),
    rangeOf: (path) => rangeIn(partAt(root, path).node),
    nameRangeOf(path) {
      const { name, node } = partAt(root, path);
      return rangeIn(name ?? node);
    },
  };
}

/** The offset at which the nesting exceeds the limit, or null. Checked before parsing, since the parser recurses as deep as the text. */
function tooDeep(json: string): number | null {
  const scanner = createScanner(json);
  let depth = 0;
  while (scanner.getPosition() < json.length) {
    scanner.scan();
    const token = json[scanner.getTokenOffset()];
    if (token === "{" || token === "[") depth++;
    if (token === "}" || token === "]") depth--;
    if (depth > DEEPEST) return scanner.getTokenOffset();
  }
  return null;
}

/** Of two members with the same name, the later one counts, as for `JSON.parse`. */
function partAt(root: Node, path: JsonPath): { readonly node: NodeSpan; readonly name: NodeSpan | null } {
  let part: { readonly node: Node; readonly name: Node | null } = { node: root, name: null };
  for (const step of path) {
    const { type, children = [] } = part.node;
    const [name, node] =
      type === "array" ? [null, children[Number(step)]] : (membersOf(part.node).get(String(step))?.children ?? []);
    if (!node) break;
    part = { node, name: name ?? null };
  }
  return part;
}

const known = new WeakMap<Node, ReadonlyMap<string, Node>>();

/** The members of an object by name; of two with the same name the later one. */
function membersOf(object: Node): ReadonlyMap<string, Node> {
  let members = known.get(object);
  if (!members) {
    members = new Map((object.children ?? []).map((member) => [String(member.children?.[0]?.value), member]));
    known.set(object, members);
  }
  return members;
}

function repeatedIn({ type, children = [] }: Node, path: JsonPath): JsonPath[] {
  if (type === "array") return children.flatMap((item, at) => repeatedIn(item, [...path, at]));
  const seen = new Set<string>();
  return children.flatMap(({ children: [name, value] = [] }) => {
    if (!name || !value) return [];
    const own = [...path, name.value as string];
    const again = seen.has(name.value) ? [own] : [];
    seen.add(name.value);
    return [...again, ...repeatedIn(value, own)];
  });
}

type JsonFault = readonly [message: string, offset: number, length?: number];

function faultOf(json: string, { error, offset, length }: ParseError): JsonFault {
  switch (printParseErrorCode(error)) {
    case "InvalidCommentToken":
    case "UnexpectedEndOfComment":
      return ["JSON has no comments: remove it.", offset, length];
    case "UnexpectedEndOfString":
      return ["This string has no end: close it with a quote on the same line.", offset, length];
    case "InvalidCharacter":
    case "InvalidEscapeCharacter":
    case "InvalidUnicode":
      return faultInString(json, offset);
    case "UnexpectedEndOfNumber":
      return ["This number breaks off: a digit should follow its point or its “e”.", offset, length];
    default:
      return misplaced(json, offset, length);
  }
}

/** The parser reports the whole string: the error is at the first character that is not allowed in one. */
function faultInString(json: string, start: number): JsonFault {
  const sound = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*/y;
  sound.lastIndex = start;
  const at = start + (sound.exec(json)?.[0].length ?? 0);
  return json[at] === "\\"
    ? ['After \\ stands one of " \\ / b f n r t, or u and four hexadecimal digits.', at]
    : ["A string holds no control character: write \\t for a tab.", at];
}

/** The message for an unexpected token, chosen by what precedes it. */
function misplaced(json: string, offset: number, length: number): JsonFault {
  const { path, previousNode } = getLocation(json, offset);
  const before = json.slice(0, offset).trimEnd();
  const last = before.at(-1) ?? "";
  const [what, close] = typeof path.at(-1) === "number" ? ["item", "]"] : ["member", "}"];
  if (last === "," && json[offset] === close)
    return [`The last ${what} has no comma after it: remove the comma.`, before.length - 1];
  if (last === "{" || (last === "," && what === "member"))
    return ["The name of a member should stand here, in double quotes.", offset, length];
  if (["", ":", "[", ","].includes(last)) {
    const [word] = /^[A-Za-z_]\w*/.exec(json.slice(offset)) ?? [];
    if (word) return [`“${word}” is no value: a text stands in double quotes.`, offset, word.length];
    return ["A value should stand here.", offset, length];
  }
  if (previousNode?.type === "property" && previousNode.offset < offset)
    return ["A colon should follow the name of a member.", offset, length];
  if (path.length === 0) return ["Nothing may follow the end of the value.", offset, length];
  return [`A comma and another ${what}, or “${close}”, should stand here.`, offset, length];
}

/** The ranges of parts of a text. A file may have ten thousand faults: where its lines begin is looked for once. */
function rangesIn(text: string): (span: NodeSpan) => Range {
  let starts: readonly number[] | null = null;
  const positionAt = (offset: number): Position => {
    starts ??= [0, ...[...text.matchAll(/\r\n|\n|\r/g)].map((end) => end.index + end[0].length)];
    let [low, high] = [0, starts.length - 1];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (starts[middle]! <= offset) low = middle;
      else high = middle - 1;
    }
    return { line: low, character: offset - starts[low]! };
  };
  return ({ offset, length }) => ({ start: positionAt(offset), end: positionAt(offset + length) });
}
