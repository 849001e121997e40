/** The `use` lines of a file, for the rules about them. */
import { inOneCircle } from "../../model/circles.ts";
import { oncePer } from "../../model/memo.ts";
import type { Script, Use } from "../../model/script.ts";
import type { UseTarget } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";

/** A `use` line whose path can be read, and what it leads to. */
export interface UsedFile {
  readonly use: Use;
  readonly path: string;
  readonly target: UseTarget;
  /** The script that is used, where it is of a kind that may be used here. */
  readonly fitting: Script | null;
  /** Whether the fitting script uses, directly or through others, the file in which the line stands. */
  readonly leadsBack: boolean;
}

const filesIn = oncePer((_: Workspace) => new Map<Script, readonly UsedFile[]>());

const NO_FILES: readonly UsedFile[] = [];

/** The targets of a file's `use` lines; computed once, as several rules need them. */
export function usedFiles(script: Script, workspace: Workspace): readonly UsedFile[] {
  if (script.uses.length === 0) return NO_FILES;
  const known = filesIn(workspace, undefined);
  let files = known.get(script);
  if (!files) {
    const byPath = new Map<string, UsedFile>();
    files = script.uses.flatMap((use) => {
      if (use.path === null) return [];
      let file = byPath.get(use.path);
      if (!file) {
        file = usedFile(script, use, use.path, workspace);
        byPath.set(use.path, file);
      }
      return { ...file, use };
    });
    known.set(script, files);
  }
  return files;
}

function usedFile(script: Script, use: Use, path: string, workspace: Workspace): UsedFile {
  const target = workspace.target(script, use);
  const fitting = target.kind === "script" && mayUse(script, target.script) ? target.script : null;
  return { use, path, target, fitting, leadsBack: fitting !== null && inOneCircle(workspace, script, fitting) };
}

/** True if a file of one kind may use one of another: none may use a craft, and a handset only handsets. */
export function mayUse(user: Pick<Script, "kind">, used: Pick<Script, "kind">): boolean {
  return used.kind === "handset" || (used.kind === "layer" && user.kind !== "handset");
}

/** Whether a single path was meant and only written in another form: other capitals, `\` for `/`, without its ending, or with accents put together otherwise. */
export function isPathForm(path: string, meant: readonly string[]): boolean {
  const plain = (each: string) =>
    each
      .replaceAll("\\", "/")
      .replace(/^\.\//, "")
      .replace(/\.fettle$/i, "")
      .normalize()
      .toLowerCase();
  return meant.length === 1 && plain(path) === plain(meant[0]!);
}
