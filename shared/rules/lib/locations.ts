/** Locations that rules point at. */
import type { Craft, Setting, Source } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Cols, Span } from "../../syntax/span.ts";
import type { Location, Report } from "../engine/rule.ts";

/** The location of a span in a file. */
export function locationOf(file: string, span: Span): Location {
  return { source: { file, line: span.line }, start: span.start, end: span.end };
}

/** The location of known columns of a line. */
export function locationAt(source: Source, cols: Cols): Location {
  return { source, start: cols.start, end: cols.end };
}

/** The location of a line's first name: of an entry, a section or a header; else the whole line. */
export function headLocation(workspace: Workspace, source: Source): Location {
  const line = workspace.script(source.file)?.tree.lines[source.line];
  const node = line?.node;
  if (node?.kind === "entry") return locationAt(source, node.head);
  if (node?.kind === "section") return locationAt(source, node.name);
  if (node?.kind === "header")
    return locationAt(source, { start: node.word.start, end: node.name?.end ?? node.word.end });
  return { source, start: 0, end: line?.text.length ?? 0 };
}

/** The location of an entry's value; of its name if it has none. */
export function valueLocation(workspace: Workspace, source: Source): Location {
  const node = workspace.script(source.file)?.tree.lines[source.line]?.node;
  return node?.kind === "entry" && node.value.end > node.value.start
    ? locationAt(source, node.value)
    : headLocation(workspace, source);
}

/** Settings that a finding depends on besides the one it points at: shown with it, and their notes may accept it. */
export function restingOn(settings: readonly Setting[], workspace: Workspace): Pick<Report, "related" | "alsoOf"> {
  return {
    related: settings.map(({ name, text, source }) => ({
      message: `${name} ${text}`,
      at: valueLocation(workspace, source),
    })),
    alsoOf: settings.map(({ source }) => source),
  };
}

/** The line to report for a section of a craft: its last heading, or the craft's header. */
export function sectionLocation(craft: Craft, workspace: Workspace, section: string): Location {
  const source = craft.sections.get(section) ?? { file: craft.file, line: craft.script.tree.header ?? 0 };
  return headLocation(workspace, source);
}

/** The line below a comment, in whose note it stands and which can accept what is found in it; none below a blank line. */
export function linesBelowComment({ tree, file }: Script, line: number): Source[] {
  if (tree.lines[line]?.node.kind !== "comment") return [];
  let below = line;
  while (tree.lines[below]?.node.kind === "comment") below++;
  const kind = tree.lines[below]?.node.kind;
  return kind === undefined || kind === "blank" ? [] : [{ file, line: below }];
}
