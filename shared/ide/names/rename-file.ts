/** Another path for a file that a line names: the file is moved, and every line that names it follows. */
import { isScriptFile, SCRIPT_END } from "../../model/file-names.ts";
import type { FilePath } from "../../model/files.ts";
import { resolvePath } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Position } from "../../syntax/span.ts";
import { fileNameOf } from "../../text/file-name.ts";
import type { Steps } from "../../text/steps.ts";
import { useLinesAfter } from "../edits/use-lines.ts";
import { occurrenceAt } from "./occurrences.ts";
import type { Renamed } from "./renamed.ts";
import type { Occurrence } from "./thing.ts";

/** Why the file behind a path cannot be moved, in a sentence; null where it can. */
export function whyNoOtherPath({ view }: Workspace, { thing: { name } }: Occurrence): string | null {
  if (view.realPath(name) !== name)
    return `“${name}” is a link to a file elsewhere: rename it where files are listed, and its lines follow.`;
  const kind = view.read(name)?.kind;
  if (kind === "text" || kind === "unreadable") return null;
  return kind === "outside"
    ? "This file lies outside the workspace, so it is not renamed from here."
    : "There is no such file, so there is nothing to rename: correct the path, or make the file.";
}

/** The path that another name means for the file behind the path at a position: what is there has to be looked up before. */
export function pathNamedAt(workspace: Workspace, file: FilePath, at: Position, name: string): FilePath | null {
  return occurrenceAt(workspace, file, at)?.as === "path" ? pathNamed(file, name) : null;
}

function pathNamed(file: FilePath, name: string): FilePath | null {
  return /[\r\n]/.test(name) ? null : resolvePath(file, name);
}

/** The edits of all lines that name the file, and its move. */
export function* renamedFile(workspace: Workspace, file: FilePath, found: Occurrence, name: string): Steps<Renamed> {
  const from = found.thing.name;
  const to = pathNamed(file, name);
  if (to === from) return { kind: "renamed", edits: [], move: null };
  const why = to === null ? NO_PATH : whyNotTo(workspace, from, to);
  if (to === null || why !== null) return { kind: "refused", message: why ?? NO_PATH };
  const { edits, left } = yield* useLinesAfter(workspace, [{ from, to }]);
  if (left.length > 0) return { kind: "refused", message: left.join(" ") };
  return { kind: "renamed", edits, move: { from, to } };
}

const NO_PATH =
  "A file is named by its path from the folder of this script, with / between folders, as in “layers/habits.fettle”, and never by an absolute path.";

function whyNotTo({ view }: Workspace, from: FilePath, to: FilePath): string | null {
  const name = fileNameOf(to);
  if (isScriptFile(from) && !isScriptFile(to))
    return `The name of a script ends in “${SCRIPT_END}”; “${name}” does not.`;
  if (!isScriptFile(from) && isScriptFile(to)) return `Only the name of a script ends in “${SCRIPT_END}”.`;
  const there = view.read(to)?.kind;
  if (there === "outside") return `“${name}” would lie outside the workspace.`;
  return there === "text" || there === "unreadable" ? `There is a file “${name}” already: take another name.` : null;
}
