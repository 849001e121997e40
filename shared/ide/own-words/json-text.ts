/**
 * JSON as text (RFC 8259) whose every value knows its place: a fault in a pilot's own file is then
 * shown where it stands. The language's own `JSON.parse` tells no places.
 */
import type { Position, Range } from "../../syntax/span.ts";

/** The way from the whole to a part of it: names of members, numbers of items. */
export type JsonPath = readonly (string | number)[];

export type JsonText =
  | {
      readonly kind: "value";
      readonly value: unknown;
      /** Where the part stands; the nearest part above it where there is none such. */
      rangeOf(path: JsonPath): Range;
      /** Where the name of a member stands; where it has none, the member. */
      nameRangeOf(path: JsonPath): Range;
      /** Members whose name stands twice in one object: the later one. */
      readonly repeated: readonly JsonPath[];
    }
  | { readonly kind: "fault"; readonly message: string; readonly range: Range };

interface Node {
  readonly value: unknown;
  readonly start: number;
  readonly end: number;
  readonly parts: ReadonlyMap<string | number, Part>;
}

interface Part {
  readonly node: Node;
  readonly name: { readonly start: number; readonly end: number } | null;
}

class Stop extends Error {
  readonly at: number;
  constructor(at: number, message: string) {
    super(message);
    this.at = at;
  }
}

/** Deeper than any file that a person writes, and no danger to the stack. */
const DEEPEST = 100;
const NO_PARTS: ReadonlyMap<string | number, Part> = new Map();
const SPACE = /[ \t\n\r]*/y;
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /[A-Za-z_][A-Za-z0-9_]*/y;
const WORDS: Readonly<Record<string, unknown>> = { true: true, false: false, null: null };

/** Reads a text; never throws. Places are lines and columns from 0. */
export function readJson(text: string): JsonText {
  const repeated: JsonPath[] = [];
  try {
    const root = readWhole(text, repeated);
    const partAt = (path: JsonPath): Part => {
      let part: Part = { node: root, name: null };
      for (const step of path) {
        const next = part.node.parts.get(step);
        if (!next) break;
        part = next;
      }
      return part;
    };
    return {
      kind: "value",
      value: root.value,
      repeated,
      rangeOf: (path) => rangeIn(text, partAt(path).node),
      nameRangeOf(path) {
        const { name, node } = partAt(path);
        return rangeIn(text, name ?? node);
      },
    };
  } catch (error) {
    if (!(error instanceof Stop)) throw error;
    const at = Math.min(error.at, text.length);
    return { kind: "fault", message: error.message, range: rangeIn(text, { start: at, end: at + 1 }) };
  }
}

function readWhole(text: string, repeated: JsonPath[]): Node {
  let at = text.startsWith("\uFEFF") ? 1 : 0;
  const path: (string | number)[] = [];
  const skip = () => {
    SPACE.lastIndex = at;
    SPACE.test(text);
    at = SPACE.lastIndex;
    if (text.startsWith("//", at) || text.startsWith("/*", at))
      throw new Stop(at, "JSON has no comments: take it out.");
  };
  const match = (pattern: RegExp): string => {
    pattern.lastIndex = at;
    return pattern.exec(text)?.[0] ?? "";
  };

  const readString = (): string => {
    const start = at;
    for (at++; text[at] !== '"'; at++) {
      if (at >= text.length || text[at] === "\n" || text[at] === "\r")
        throw new Stop(start, "This string has no end: close it with a quote on the same line.");
      if (text.charCodeAt(at) < 0x20) throw new Stop(at, "A string holds no control character: write \\t for a tab.");
      if (text[at] !== "\\") continue;
      at++;
      if (!/^(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/.test(text.slice(at, at + 5)))
        throw new Stop(at - 1, 'After \\ stands one of " \\ / b f n r t, or u and four hexadecimal digits.');
    }
    at++;
    return JSON.parse(text.slice(start, at)) as string;
  };

  const readMembers = (start: number): Node => {
    const parts = new Map<string | number, Part>();
    at++;
    skip();
    while (text[at] !== "}") {
      if (text[at] !== '"') throw new Stop(at, "The name of a member should stand here, in double quotes.");
      const nameStart = at;
      const name = readString();
      const nameEnd = at;
      skip();
      if (text[at] !== ":") throw new Stop(at, "A colon should follow the name of a member.");
      at++;
      path.push(name);
      if (parts.has(name)) repeated.push([...path]);
      parts.set(name, { node: readValue(), name: { start: nameStart, end: nameEnd } });
      path.pop();
      next("}", "member");
    }
    at++;
    const value = Object.fromEntries([...parts].map(([name, { node }]) => [name, node.value]));
    return { value, start, end: at, parts };
  };

  const readItems = (start: number): Node => {
    const items: Node[] = [];
    at++;
    skip();
    while (text[at] !== "]") {
      path.push(items.length);
      items.push(readValue());
      path.pop();
      next("]", "item");
    }
    at++;
    const parts = new Map(items.map((node, i) => [i, { node, name: null }] as const));
    return { value: items.map(({ value }) => value), start, end: at, parts };
  };

  /** A comma with something after it, or the end. */
  const next = (close: string, what: string): void => {
    skip();
    if (text[at] === close) return;
    if (text[at] !== ",") throw new Stop(at, `A comma and another ${what}, or “${close}”, should stand here.`);
    const comma = at;
    at++;
    skip();
    if (text[at] === close) throw new Stop(comma, `No comma stands after the last ${what}: take it out.`);
  };

  const readValue = (): Node => {
    skip();
    const start = at;
    if (path.length > DEEPEST) throw new Stop(at, `This is nested more than ${DEEPEST} deep.`);
    if (text[at] === "{") return readMembers(start);
    if (text[at] === "[") return readItems(start);
    if (text[at] === '"') {
      const value = readString();
      return { value, start, end: at, parts: NO_PARTS };
    }
    const number = match(NUMBER);
    at += number.length;
    if (number !== "") return { value: Number(number), start, end: at, parts: NO_PARTS };
    const word = match(WORD);
    if (!Object.hasOwn(WORDS, word))
      throw new Stop(
        at,
        word === "" ? "A value should stand here." : `“${word}” is no value: a text stands in double quotes.`,
      );
    at += word.length;
    return { value: WORDS[word], start, end: at, parts: NO_PARTS };
  };

  const root = readValue();
  skip();
  if (at < text.length) throw new Stop(at, "Nothing may follow the end of the value.");
  return root;
}

function rangeIn(text: string, { start, end }: { start: number; end: number }): Range {
  return { start: positionIn(text, start), end: positionIn(text, Math.min(end, text.length)) };
}

function positionIn(text: string, offset: number): Position {
  const before = text.slice(0, offset);
  const breaks = before.match(/\r\n|\n|\r/g)?.length ?? 0;
  const lineStart = Math.max(before.lastIndexOf("\n"), before.lastIndexOf("\r")) + 1;
  return { line: breaks, character: offset - lineStart };
}
