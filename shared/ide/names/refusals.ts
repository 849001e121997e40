/** Why a name cannot be changed: it is taken, it stands where nothing is written, or a craft would become another one. */
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { fileNameOf } from "../../text/file-name.ts";
import type { Steps } from "../../text/steps.ts";
import { whyNotWritable } from "../edits/script-edits.ts";
import { doubtfulLineWith } from "./doubtful-lines.ts";
import { namedIn, type Shared } from "./sharing.ts";
import { slotGroups } from "./slot-groups.ts";
import type { Place, Thing } from "./thing.ts";

/** A place as a pilot finds it: the name in the header, and the file. */
export function placeInWords({ file, name }: Script, line: number): string {
  return `line ${line + 1} of “${name}” (${fileNameOf(file)})`;
}

/** Why a place cannot be written to; null where it can. */
export function whyNotWritten(workspace: Workspace, { file, line }: Pick<Place, "file" | "line">): string | null {
  const script = workspace.script(file);
  if (!script) return `${file} cannot be read, so nothing is written to it.`;
  return whyNotWritable(workspace, script, line);
}

/** The same for many places, of which the first that cannot be written to counts. */
export function* whyNotAllWritten(workspace: Workspace, places: readonly Place[]): Steps<string | null> {
  const whole = new Set<FilePath>();
  for (const place of places) {
    if (whole.has(place.file)) continue;
    const why = whyNotWritten(workspace, place);
    if (why !== null) return why;
    // Without a merge in it a file is written to anywhere or nowhere.
    if (!workspace.script(place.file)!.tree.lines.some(({ node }) => node.kind === "conflict")) whole.add(place.file);
    yield;
  }
  return null;
}

/** Who has the new name already, in a sentence; null where nobody that would meet it has. */
export function* whyTaken(
  workspace: Workspace,
  file: FilePath,
  what: Thing,
  name: string,
  { places, wholes }: Shared,
): Steps<string | null> {
  const other = { ...what, name };
  if (what.kind === "slot") return whySlotTaken(workspace.script(file)!, what, name, workspace);
  // A file of that name would take over what is kept for the name anywhere.
  const isHeader = places.some(({ thing, does }) => thing.kind === "file" && does === "defines");
  const files = isHeader
    ? workspace.view.list()
    : [...places.map((place) => place.file), ...wholes.flatMap((whole) => whole.files)];
  const own = workspace.script(file)!.kind;
  for (const each of new Set(files)) {
    const script = workspace.script(each);
    if (!script) continue;
    const at = what.kind === "file" ? lineOfHeader(script, own, name) : namedIn(workspace, each, other)[0]?.line;
    if (at !== undefined)
      return `The name “${name}” is taken: it stands on ${placeInWords(script, at)}${ofWhat(what)}. Take another one.`;
    yield;
  }
  return null;
}

function ofWhat({ kind, of }: Thing): string {
  return kind === "position" ? `, for ${of}` : kind === "part" ? `, in “${of}”` : "";
}

function lineOfHeader({ kind, tree }: Script, wanted: Script["kind"], name: string): number | undefined {
  return kind === wanted && tree.name === name && tree.header !== null ? tree.header : undefined;
}

function whySlotTaken(script: Script, what: Thing, name: string, { catalogue }: Workspace): string | null {
  const line = slotGroups(script.tree, catalogue).lineWith(what.of, name);
  return line === null
    ? null
    : `The slot “{${name}}” is there already, on ${placeInWords(script, line)}: one of two that meet needs another name.`;
}

/** Where it is not known whether the old name is meant, in a sentence; null where it is known everywhere. */
export function* whyDoubtful(workspace: Workspace, what: Thing, { wholes }: Shared): Steps<string | null> {
  const seen = new Set<FilePath>();
  for (const { files, unknown } of wholes) {
    for (const { file, line, why } of unknown)
      return `${placeInWords(workspace.script(file)!, line).replace(/^l/, "L")} uses a file ${why === "newer" ? "of a newer edition of the language" : "that has not been read"}, so it is not known whether “${what.name}” stands there too.`;
    for (const file of files) {
      if (seen.has(file)) continue;
      seen.add(file);
      const line = doubtfulLineWith(workspace, file, what);
      if (line !== null)
        return `It is not known whether “${what.name}” is meant on ${placeInWords(workspace.script(file)!, line)}, which could not be read to its end: mend that line first.`;
      yield;
    }
  }
  return null;
}
