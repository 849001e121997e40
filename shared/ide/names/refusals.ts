/** Why a name cannot be changed: it is taken, it stands where nothing is written, or a craft would become another one. */
import { readDialect } from "../../dialect/read-dialect.ts";
import type { FilePath } from "../../model/files.ts";
import { type ScriptReader, scriptReader } from "../../model/read-script.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { TextEdit } from "../../syntax/span.ts";
import type { Steps } from "../../text/steps.ts";
import { textWith } from "../context/trial.ts";
import { whyNotWritable } from "../edits/script-edits.ts";
import { namesOfDialect } from "./dialect-names.ts";
import { doubtfulLineWith } from "./doubtful-lines.ts";
import { occurrencesIn } from "./occurrences.ts";
import { renamedThing } from "./renamed-thing.ts";
import { namesOfScript } from "./script-names.ts";
import { namedIn, type Shared } from "./sharing.ts";
import { slotGroups } from "./slot-groups.ts";
import { type Occurrence, type Place, sameThing, type Thing } from "./thing.ts";

/** A place as a pilot finds it: the name in the header, and the file. */
export function placeInWords({ file, name }: Script, line: number): string {
  return `line ${line + 1} of “${name}” (${file.slice(file.lastIndexOf("/") + 1)})`;
}

/** Why a place cannot be written to; null where it can. */
export function whyNotWritten(workspace: Workspace, { file, line }: Pick<Place, "file" | "line">): string | null {
  const script = workspace.script(file);
  if (!script) return `${file} cannot be read, so nothing is written to it.`;
  const answer = workspace.view.read(file);
  if (answer?.kind === "text" && answer.text.includes("\0"))
    return `“${script.name}” holds bytes that are no text, so it is not rewritten.`;
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

/** Where a line would no longer be read as it is, though for the name, in a sentence; null where all are. */
export function* whyMeansElse(
  workspace: Workspace,
  what: Thing,
  name: string,
  edits: readonly (TextEdit & { readonly file: FilePath })[],
): Steps<string | null> {
  const reader = scriptReader(workspace.catalogue);
  const byFile = new Map<FilePath, TextEdit[]>();
  for (const edit of edits) {
    const list = byFile.get(edit.file);
    if (list) list.push(edit);
    else byFile.set(edit.file, [edit]);
  }
  for (const [file, own] of byFile) {
    const line = lineReadOtherwise(workspace, reader, file, own, (each) => renamedThing(each, what, name));
    if (line !== null)
      return `With “${name}” in place of “${what.name}”, ${placeInWords(workspace.script(file)!, line)} would be read as something else. Take another name.`;
    yield;
  }
  return null;
}

function lineReadOtherwise(
  workspace: Workspace,
  reader: ScriptReader,
  file: FilePath,
  edits: readonly TextEdit[],
  after: (thing: Thing) => Thing,
): number | null {
  const { catalogue } = workspace;
  const before = workspace.script(file)!;
  const script = reader.read(file, textWith(before, edits), true);
  const dialect = before.kind === "dialect" ? readDialect(file, script.tree, catalogue) : null;
  const now = dialect ? namesOfDialect(script, dialect, catalogue) : namesOfScript(script, catalogue);
  const old = occurrencesIn(workspace, file);
  for (let i = 0; i < Math.max(old.length, now.length); i++) {
    const [a, b] = [old[i], now[i]];
    if (!a || !b || !isSame(a, b, after)) return (a ?? b)!.line;
  }
  // What it is wrong about is as it was: a name is neither better nor worse than another.
  return script.issues.length === before.issues.length ? null : (edits[0]?.range.start.line ?? 0);
}

function isSame(a: Occurrence, b: Occurrence, after: (thing: Thing) => Thing): boolean {
  const thing = after(a.thing);
  // A group of slots is known by one of its names.
  const same =
    thing.kind === "slot" ? b.thing.kind === "slot" && b.thing.name === thing.name : sameThing(thing, b.thing);
  return a.line === b.line && a.does === b.does && same;
}
