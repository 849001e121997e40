/** The dialects of a workspace, and the one that a craft names. */
import { boardFilesIn } from "../model/board-files.ts";
import type { Craft } from "../model/craft.ts";
import type { FilePath } from "../model/files.ts";
import type { Script } from "../model/script.ts";
import { settingOf } from "../model/setting-lookup.ts";
import { resolvePath } from "../model/uses.ts";
import type { Workspace } from "../model/workspace.ts";
import type { Dialect } from "./dialect.ts";
import { readDialect } from "./read-dialect.ts";

/** By script: the same text of a file is the same script. Dialects are seldom edited, so no collection suffers. */
const known = new WeakMap<Script, Dialect>();

/** The dialect of a file; null where the file is none, or cannot be read. */
export function dialectOf(workspace: Workspace, file: FilePath): Dialect | null {
  const script = workspace.script(file);
  if (script?.kind !== "dialect") return null;
  let dialect = known.get(script);
  if (!dialect) {
    dialect = readDialect(file, script.tree, workspace.catalogue);
    known.set(script, dialect);
  }
  return dialect;
}

/** Every dialect of the workspace, in order of path. */
export function dialectsIn(workspace: Workspace): readonly Dialect[] {
  return workspace.view.list().flatMap((file) => dialectOf(workspace, file) ?? []);
}

/** The file that a craft's `board.dialect` or `board.text` leads to, from the file whose line says it; null without. */
export function boardFileOf(craft: Craft, name: "dialect" | "text"): FilePath | null {
  const setting = settingOf(craft, `board.${name}`);
  return setting?.value?.kind === "text" ? resolvePath(setting.source.file, setting.value.text) : null;
}

/** The dialect that a craft names; null where it names none, or one that cannot be read. */
export function dialectNamedBy(workspace: Workspace, craft: Craft): Dialect | null {
  const file = boardFileOf(craft, "dialect");
  return file === null ? null : dialectOf(workspace, file);
}

/** The scripts that name a dialect as that of their board, in order of path. */
export function scriptsNaming(workspace: Workspace, file: FilePath): readonly Script[] {
  return workspace.view.list().flatMap((each) => {
    const script = workspace.script(each);
    return script && boardFilesIn(script).some((named) => named.what === "dialect" && named.file === file)
      ? [script]
      : [];
  });
}

/** The dialects whose `known-by` stands in a board's text; of several the pilot is asked. */
export function dialectsFitting(dialects: readonly Dialect[], boardText: string): readonly Dialect[] {
  return dialects.filter(({ text }) => text.knownBy.some((each) => boardText.includes(each)));
}
