/** Where the parts of a new line begin, so that they stand below those of the lines around it. */
import type { LineNode, Tree } from "../../syntax/tree.ts";
import type { ControlValue } from "../../syntax/value.ts";
import type { CursorContext } from "../context/cursor-context.ts";

type EntryNode = LineNode & { kind: "entry" };

/** Behind a name that stands in no column. */
const GAP = 2;

/** The blanks between a name and its value. */
export type GapBehind = (name: string) => string;

/** The blanks between a name that is completed at the cursor and its value. */
export function gapsAt(cursor: CursorContext): GapBehind {
  const { tree } = cursor.script;
  const run = entriesAround(tree, cursor.line);
  const [nearest] = run;
  if (!nearest) return () => " ".repeat(GAP);
  const spacing = tree.lines[nearest.line]!.text.slice(nearest.node.head.end, nearest.node.value.start);
  if (spacing.includes("\t")) return () => spacing;
  let least = spacing.length;
  for (const { node } of run) least = Math.min(least, node.value.start - node.head.end);
  least = Math.max(1, least);
  const column = shared(run.map(({ node }) => node.value.start));
  const start = nameStart(cursor);
  return (name) => {
    const blanks = column === null ? least : column - (start + name.length);
    return " ".repeat(blanks >= Math.min(least, GAP) ? blanks : least);
  };
}

/** The same behind the kind of a control and behind its channel, by the controls around the cursor. */
export function controlGaps(kind: string, channel: string, cursor: CursorContext): readonly [string, string] {
  const lines = new Map(cursor.script.entries.map((entry) => [entry.line, entry.value]));
  const controls = entriesAround(cursor.script.tree, cursor.line).flatMap(({ line }): ControlValue[] => {
    const value = lines.get(line);
    return value?.kind === "control" ? [value] : [];
  });
  const gap = (from: number | null, to: number | null, length: number) =>
    " ".repeat(Math.max(GAP, from === null || to === null ? GAP : to - from - length));
  const ofKind = shared(controls.map(({ start }) => start));
  const ofChannel = shared(controls.map(({ channelAt }) => channelAt.start));
  const behind = shared(controls.flatMap(({ positions }) => positions.slice(0, 1).map(({ start }) => start)));
  return [gap(ofKind, ofChannel, kind.length), gap(ofChannel, behind, channel.length)];
}

/** Entries with a value between the blank lines around a line, the nearest first, the line itself left out. */
function entriesAround({ lines, sections }: Tree, at: number): { readonly line: number; readonly node: EntryNode }[] {
  const starts = new Set(sections.map(({ line }) => line));
  const isEnd = (line: number) => {
    const kind = lines[line]?.node.kind;
    return kind === undefined || kind === "blank" || kind === "conflict" || starts.has(line);
  };
  const found: { line: number; node: EntryNode }[] = [];
  const take = (line: number) => {
    const { node } = lines[line]!;
    if (node.kind === "entry" && node.value.start < node.value.end) found.push({ line, node });
  };
  for (let line = at - 1; !isEnd(line); line--) take(line);
  for (let line = at + 1; !isEnd(line); line++) take(line);
  return found;
}

/** What all of these are; null where they differ, or where there is none. */
function shared(columns: readonly number[]): number | null {
  const [first] = columns;
  return first !== undefined && columns.every((each) => each === first) ? first : null;
}

/** The column in which the name begins that stands before the cursor, or would. */
function nameStart({ text, column }: CursorContext): number {
  return column - /[A-Za-z0-9-]*$/.exec(text.slice(0, column))![0].length;
}
