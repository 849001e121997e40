/** Go to definition: from a word to the lines that define it. */
import { boardFilesIn } from "../../model/board-files.ts";
import type { Craft, Source } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type Position, type Range, rangeOf, spanAt } from "../../syntax/span.ts";
import { type CursorContext, coversColumn, craftFor, cursorContextAt, entryAt } from "../context/cursor-context.ts";
import { effectiveEntryIn } from "../context/effective-entry.ts";
import type { Definition } from "./definition-target.ts";
import { dialectDefinitionsAt } from "./dialect-definition.ts";

/**
 * The definitions of the word at a position: of a control or one of its positions, of a mode, the start of
 * a used file, and for an entry's name every line that its effective value comes from.
 */
export function definitionsAt(workspace: Workspace, file: string, at: Position): Definition[] {
  const cursor = cursorContextAt(workspace, file, at);
  if (!cursor) return [];
  const { node, script, line, column, entry, piece } = cursor;
  if (script.kind === "dialect") return dialectDefinitionsAt(workspace, script, at);
  if (node.kind === "use") {
    const use = script.uses.find((each) => each.line === line);
    const target = use && workspace.target(script, use);
    if (target?.kind !== "script") return [];
    const header = target.script.tree.header ?? 0;
    return [{ from: rangeOf(use!.at), ...wholeLine(workspace, { file: target.script.file, line: header }) }];
  }
  if (!entry || node.kind !== "entry") return [];
  const craft = craftFor(workspace, file);
  if (coversColumn(node.head, column)) {
    const sources = craft ? (effectiveEntryIn(craft, entry)?.sources ?? []).map(({ source }) => source) : [];
    return definitions(workspace, cursor, node.head, sources);
  }
  if (entry.section === "board") return boardFileAt(workspace, cursor);
  if (!piece) return [];
  const word = cursor.text.slice(piece.start, piece.end);
  if (piece.kind === "position") return positionAt(workspace, cursor, craft, piece.of ?? entry.name, word);
  const sources =
    piece.kind === "control"
      ? controlSources(workspace, file, craft, word)
      : piece.kind === "mode"
        ? (craft?.modes.get(word)?.lines ?? []).map(({ source }) => source)
        : [];
  return definitions(workspace, cursor, piece, sources);
}

/** The start of the file that a line `dialect` or `text` of the section `board` names. */
function boardFileAt({ view }: Workspace, { script, line, column }: CursorContext): Definition[] {
  const named = boardFilesIn(script).find(({ entry }) => entry.line === line && coversColumn(entry.value!, column));
  const file = named?.file ? view.realPath(named.file) : null;
  if (!named || file === null || view.read(file)?.kind !== "text") return [];
  const start = { line: 0, character: 0 };
  return [{ from: rangeOf(spanAt(line, named.entry.value!)), file, range: { start, end: start } }];
}

function controlSources(workspace: Workspace, file: string, craft: Craft | null, name: string): Source[] {
  const known = craft?.controls.get(name)?.source;
  if (known) return [known];
  const own = workspace.script(file)?.entries.findLast((each) => each.kind === "control" && each.name === name);
  return own ? [{ file, line: own.line }] : [];
}

function positionAt(
  workspace: Workspace,
  cursor: CursorContext,
  craft: Craft | null,
  control: string,
  name: string,
): Definition[] {
  return controlSources(workspace, cursor.script.file, craft, control).flatMap((source) => {
    const value = scriptEntry(workspace, source)?.value;
    const position = value?.kind === "control" ? value.positions.find((each) => each.name === name) : undefined;
    if (!position || !cursor.piece) return [];
    return [
      {
        from: rangeOf(spanAt(cursor.line, cursor.piece)),
        file: source.file,
        range: rangeOf(spanAt(source.line, position)),
      },
    ];
  });
}

function scriptEntry(workspace: Workspace, source: Source) {
  const script = workspace.script(source.file);
  return script && entryAt(script, source.line);
}

function definitions(
  workspace: Workspace,
  cursor: CursorContext,
  at: { start: number; end: number },
  sources: readonly Source[],
): Definition[] {
  const from = rangeOf(spanAt(cursor.line, at));
  const seen = new Set<string>();
  return sources.flatMap((source) => {
    const key = `${source.file}:${source.line}`;
    if (seen.has(key)) return [];
    seen.add(key);
    return [{ from, ...wholeLine(workspace, source) }];
  });
}

function wholeLine(workspace: Workspace, { file, line }: Source): { file: string; range: Range } {
  const text = workspace.script(file)?.tree.lines[line]?.text ?? "";
  return {
    file,
    range: rangeOf(spanAt(line, { start: text.length - text.trimStart().length, end: text.trimEnd().length })),
  };
}
