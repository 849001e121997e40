/** Texts held in memory as a workspace in which rules know all that they may know. */
import { memoryFiles } from "../../shared/model/files.ts";
import type { RuleLevels } from "../../shared/model/rule-levels.ts";
import type { Core, Workspace } from "../../shared/model/workspace.ts";
import { withHabits } from "../../shared/rules/lib/fleet-habits.ts";

export function memoryWorkspace(core: Core, texts: Readonly<Record<string, string>>, levels?: RuleLevels): Workspace {
  const view = memoryFiles(texts);
  return core.at(
    withHabits(view, core, () => view.list()),
    levels,
  );
}
