/** The `use` lines of a script, and the lines that name files of its board, as links to those files. */
import { boardFilesIn } from "../../model/board-files.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type Range, rangeOf, spanAt } from "../../syntax/span.ts";

export interface FileLink {
  readonly range: Range;
  readonly file: string;
  readonly tooltip: string;
}

/** A link for every `use`, and for every file of the board, whose file exists. */
export function linksOf(workspace: Workspace, file: string): FileLink[] {
  const script = workspace.script(file);
  if (!script) return [];
  return [...useLinks(workspace, script), ...boardLinks(workspace, script)];
}

function useLinks(workspace: Workspace, script: Script): FileLink[] {
  return script.uses.flatMap((use) => {
    const target = workspace.target(script, use);
    if (target.kind !== "script") return [];
    return [
      { range: rangeOf(use.at), file: target.script.file, tooltip: `${target.script.kind} “${target.script.name}”` },
    ];
  });
}

function boardLinks({ view }: Workspace, script: Script): FileLink[] {
  return boardFilesIn(script).flatMap(({ entry, what, file }) => {
    const real = file === null ? null : view.realPath(file);
    if (real === null || view.read(real)?.kind !== "text") return [];
    const range = rangeOf(spanAt(entry.line, entry.value!));
    return [{ range, file: real, tooltip: what === "dialect" ? "the board's dialect" : "the board's saved text" }];
  });
}
