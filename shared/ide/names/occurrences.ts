/** Every place in a script or a dialect at which something that has a name is said or used. */
import { dialectOf } from "../../dialect/dialects.ts";
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Position } from "../../syntax/span.ts";
import { namesOfDialect } from "./dialect-names.ts";
import { namesOfScript } from "./script-names.ts";
import type { Occurrence } from "./thing.ts";

/** By script, and so by content: the same text of a file is the same script. */
const known = new WeakMap<Script, readonly Occurrence[]>();

const NONE: readonly Occurrence[] = [];

/** The names in a file, in order of place; none where it is no script. */
export function occurrencesIn(workspace: Workspace, file: FilePath): readonly Occurrence[] {
  const script = workspace.script(file);
  if (!script || script.tree.newer) return NONE;
  let found = known.get(script);
  if (!found) {
    const dialect = dialectOf(workspace, file);
    found = dialect ? namesOfDialect(script, dialect, workspace.catalogue) : namesOfScript(script, workspace.catalogue);
    known.set(script, found);
  }
  return found;
}

/** The name at a position; of two that touch there, the later one. Null where nothing there has a name. */
export function occurrenceAt(workspace: Workspace, file: FilePath, { line, character }: Position): Occurrence | null {
  const at = occurrencesIn(workspace, file).filter(
    (each) => each.line === line && each.start <= character && each.end >= character,
  );
  return at.findLast((each) => each.start < each.end || each.as !== "word") ?? null;
}
