/** What holds of every text that is read as a script. */
import { isDeepStrictEqual } from "node:util";
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import { readEntry } from "../../../shared/model/read-entry.ts";
import type { Script } from "../../../shared/model/script.ts";
import { print } from "../../../shared/syntax/parse.ts";
import { parseLine } from "../../../shared/syntax/parse-line.ts";
import type { Cols, Range, Span } from "../../../shared/syntax/span.ts";
import type { LineNode, Tree } from "../../../shared/syntax/tree.ts";
import type { Value } from "../../../shared/syntax/value.ts";

/** What shows that something was put into a message which has no words. */
const NO_WORDS = /\bundefined\b|\bNaN\b|\[object /;

/** Whether a message is in words, and none of them missing. */
export function isInWords(message: string, text: string): boolean {
  return message !== "" && (!NO_WORDS.test(message) || /undefined|NaN|\[object /.test(text));
}

/** The first law that a tree breaks; null where it breaks none. */
export function brokenTree(text: string, tree: Tree): string | null {
  if (print(tree) !== text) return `print gives ${JSON.stringify(print(tree))}`;
  if (tree.lines.length !== tree.ends.length) return "not every line has an end";
  for (const [i, { text: lineText, node, comment, issues }] of tree.lines.entries()) {
    if (/[\r\n]/.test(lineText)) return `line ${i} holds a line end`;
    for (const at of [
      ...colsIn(node),
      ...(comment ? [comment] : []),
      ...issues,
      ...issues.flatMap(({ repair }) => repair ?? []),
    ])
      if (!isWithin(at, lineText)) return `line ${i}: columns ${at.start}–${at.end} of ${lineText.length}`;
  }
  let last = -1;
  for (const { line, entries } of tree.sections)
    for (const each of [line, ...entries]) {
      if (each <= last) return `line ${each} stands in two sections, or before one that it is behind`;
      last = each;
    }
  return null;
}

function colsIn(node: LineNode): Cols[] {
  return Object.values(node).flatMap((each: unknown) =>
    (Array.isArray(each) ? each : [each]).filter(
      (it): it is Cols => typeof it === "object" && it !== null && "start" in it && "end" in it,
    ),
  );
}

function isWithin({ start, end }: Cols, text: string): boolean {
  return 0 <= start && start <= end && end <= text.length;
}

/** The first law that a script which was read breaks; null where it breaks none. */
export function brokenScript(script: Script, text: string, catalogue: Catalogue): string | null {
  const { tree } = script;
  for (const { message, span, fixes = [], related = [] } of script.issues) {
    if (!isInWords(message, text)) return `a message: ${message}`;
    for (const at of [span, ...related.map((each) => each.span)])
      if (!isSpanIn(at, tree)) return `an issue at ${JSON.stringify(at)}: ${message}`;
    for (const { title, edits } of fixes) {
      if (!isInWords(title, text)) return `a fix's title: ${title}`;
      for (const { range } of edits) if (!isRangeIn(range, tree)) return `a fix at ${JSON.stringify(range)}: ${title}`;
    }
  }
  for (const { span, codeSpan } of script.allowances)
    if (!isSpanIn(span, tree) || !isSpanIn(codeSpan, tree)) return `an allowance at ${JSON.stringify(span)}`;
  for (const { at } of script.uses) if (!isSpanIn(at, tree)) return `a use at ${JSON.stringify(at)}`;
  for (let i = 0; i < tree.lines.length; i++)
    for (const line of script.noteOf(i).lines)
      if (tree.lines[line]?.node.kind !== "comment") return `the note of line ${i} is line ${line}`;
  for (const entry of script.entries) {
    const lineText = tree.lines[entry.line]!.text;
    if (lineText.slice(entry.head.start, entry.head.end) !== entry.name)
      return `line ${entry.line} is not ${entry.name}`;
    for (const piece of entry.pieces)
      if (!isWithin(piece, lineText)) return `a piece in line ${entry.line}: ${JSON.stringify(piece)}`;
    if (entry.value === null) continue;
    const broken = brokenCanon(entry.section, entry.name, entry.value, entry.text, catalogue);
    if (broken) return broken;
  }
  return null;
}

export function isSpanIn({ line, start, end }: Span, { lines }: Tree): boolean {
  return line >= 0 && line < lines.length && isWithin({ start, end }, lines[line]!.text);
}

export function isRangeIn({ start, end }: Range, { lines }: Tree): boolean {
  const isIn = ({ line, character }: Range["start"]) =>
    // Behind the last line is a place as well: there a whole text ends.
    (line === lines.length && character === 0) ||
    (line >= 0 && line < lines.length && character >= 0 && character <= lines[line]!.text.length);
  return (
    isIn(start) && isIn(end) && (start.line < end.line || (start.line === end.line && start.character <= end.character))
  );
}

/** A value's canonical spelling is read as the same value, and is its own canonical spelling. */
function brokenCanon(section: string, name: string, value: Value, text: string, catalogue: Catalogue): string | null {
  const spec = catalogue.section(section.split("/")[0]!)!;
  const word =
    spec.holds === "modes" || spec.holds === "outputs"
      ? "when "
      : value.kind === "cell" && catalogue.element(name)
        ? "at "
        : "";
  const line = `  ${name} ${word}${text}`;
  const { node } = parseLine(line, "plain");
  if (node.kind !== "entry") return `“${line}” is read as ${node.kind}`;
  const again = readEntry(line, node.head, node.value, spec, catalogue);
  if (again.value === null) return `“${line}” is not understood: ${again.fault?.message}`;
  const [before, now] = [withoutPlaces(value), withoutPlaces(again.value)];
  return isDeepStrictEqual(before, now)
    ? null
    : `“${line}” is another value: ${JSON.stringify(before)}, ${JSON.stringify(now)}`;
}

const PLACES = new Set(["start", "end", "nameAt", "pulseAt", "channelAt", "controlAt", "positionAt", "dialAt"]);

/** A value without its columns, and without brackets that say nothing: “a or (b or c)” is three parts. */
function withoutPlaces(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutPlaces);
  if (typeof value !== "object" || value === null) return value;
  if ("parts" in value && "kind" in value)
    return {
      kind: value.kind,
      parts: (value.parts as { kind: string; parts: unknown }[]).flatMap(partsIn(value.kind)),
    };
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, each]) => (PLACES.has(key) ? [] : [[key, withoutPlaces(each)]])),
  );
}

function partsIn(kind: unknown): (part: { kind: string; parts: unknown }) => unknown {
  return (part) => {
    const plain = withoutPlaces(part);
    return part.kind === kind ? (plain as typeof part).parts : [plain];
  };
}

/** The first thing in which two readings of one text differ; null where they are alike. */
export function difference(kept: Script, anew: Script): string | null {
  // What a line means is kept with it once somebody has asked.
  const tree = ({ tree }: Script) => ({ ...tree, lines: tree.lines.map(({ meaning: _, ...line }) => line) });
  if (!isDeepStrictEqual(tree(kept), tree(anew)))
    return `tree: ${JSON.stringify(tree(kept))} and, anew, ${JSON.stringify(tree(anew))}`;
  const pieces = ({ entries }: Script) => entries.map((entry) => entry.pieces);
  if (!isDeepStrictEqual(pieces(kept), pieces(anew))) return "the pieces of an entry";
  for (const key of ["entries", "drops", "kept", "uses", "sections", "issues", "allowances", "kind", "name"] as const)
    if (!isDeepStrictEqual(kept[key], anew[key]))
      return `${key}: ${JSON.stringify(kept[key])} and, anew, ${JSON.stringify(anew[key])}`;
  const notes = (script: Script) => script.tree.lines.map((_, line) => script.noteOf(line));
  return isDeepStrictEqual(notes(kept), notes(anew)) ? null : "a note";
}
