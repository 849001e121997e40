/** The files of a workspace once something in them has another name. */
import type { NameEdit, Renamed } from "../../../shared/ide/names/renamed.ts";
import type { Position } from "../../../shared/syntax/span.ts";

export type Texts = Readonly<Record<string, string>>;

/** The texts with the edits made, and then the move. */
export function afterRename(texts: Texts, { edits, move }: Extract<Renamed, { kind: "renamed" }>): Texts {
  const after: Record<string, string> = { ...texts };
  const backwards = [...edits].sort(
    (a, b) => b.range.start.line - a.range.start.line || b.range.start.character - a.range.start.character,
  );
  for (const { file, range, text } of backwards) {
    const before = after[file]!;
    const mark = before.startsWith("\uFEFF") ? 1 : 0;
    const starts = [mark, ...[...before.matchAll(/\r\n|\n|\r/g)].map(({ index, 0: end }) => index + end.length)];
    const from = starts[range.start.line]! + range.start.character;
    const to = starts[range.end.line]! + range.end.character;
    after[file] = before.slice(0, from) + text + before.slice(to);
  }
  if (!move) return after;
  return Object.fromEntries(Object.entries(after).map(([file, text]) => [file === move.from ? move.to : file, text]));
}

/** Where a name in a file stands once the edits are made. */
export function placeAfter(edits: readonly NameEdit[], file: string, at: Position): Position {
  const before = edits.filter(
    (each) => each.file === file && each.range.start.line === at.line && each.range.end.character <= at.character,
  );
  const more = before.map(({ range, text }) => text.length - (range.end.character - range.start.character));
  return { line: at.line, character: more.reduce((sum, each) => sum + each, at.character) };
}
