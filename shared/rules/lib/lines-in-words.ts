/** Lines of scripts, in words. */
import type { Craft, Source } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";

/** “line 12”, and of which file where it is not the craft's own: “line 12 of “Habits””. Counted from 1. */
export function lineInWords({ file, line }: Source, craft: Craft, workspace: Workspace): string {
  const words = `line ${line + 1}`;
  return file === craft.file ? words : `${words} of “${workspace.script(file)?.name ?? file}”`;
}
