/** The `use` lines of a script as links to the files they name. */
import type { Workspace } from "../../model/workspace.ts";
import { type Range, rangeOf } from "../../syntax/span.ts";

export interface FileLink {
  readonly range: Range;
  readonly file: string;
  readonly tooltip: string;
}

/** A link for every `use` whose file exists. */
export function linksOf(workspace: Workspace, file: string): FileLink[] {
  const script = workspace.script(file);
  if (!script) return [];
  return script.uses.flatMap((use) => {
    const target = workspace.target(script, use);
    if (target.kind !== "script") return [];
    return [
      { range: rangeOf(use.at), file: target.script.file, tooltip: `${target.script.kind} “${target.script.name}”` },
    ];
  });
}
