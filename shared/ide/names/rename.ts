/**
 * Another name for what a pilot named: everywhere it is that thing, and only where every craft stays what it is. Columns
 * are not aligned anew, so that to take the old name again gives the old bytes.
 */
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import { quote } from "../../syntax/scanner.ts";
import { type Position, type Range, rangeOf } from "../../syntax/span.ts";
import type { Steps } from "../../text/steps.ts";
import { whyFixed, whyNoName } from "./new-name.ts";
import { occurrenceAt } from "./occurrences.ts";
import { whyMeansElse } from "./read-otherwise.ts";
import { dialectNamed } from "./references.ts";
import { whyDoubtful, whyNotAllWritten, whyNotWritten, whyTaken } from "./refusals.ts";
import { renamedFile, whyNoOtherPath } from "./rename-file.ts";
import type { NameEdit, Refusal, Renamed } from "./renamed.ts";
import { sharedWith } from "./sharing.ts";
import type { Occurrence, Place } from "./thing.ts";

export type Renameable = { readonly kind: "name"; readonly range: Range; readonly text: string } | Refusal;

/** The name at a position, if it can be another one. */
export function renameableAt(workspace: Workspace, file: FilePath, at: Position): Renameable {
  const found = occurrenceAt(workspace, file, at);
  if (!found) return refused("Nothing here has a name that could be changed.");
  const why =
    whyFixed(found.thing) ??
    whyNotWritten(workspace, { file, line: found.line }) ??
    (found.as === "path" ? whyNoOtherPath(workspace, found) : null);
  if (why !== null) return refused(why);
  return { kind: "name", range: rangeOf(found), text: writtenAs(workspace, file, found) };
}

/** What a pilot sees as the name: for a path the text itself. */
function writtenAs(workspace: Workspace, file: FilePath, { thing, as, line, start, end }: Occurrence): string {
  if (as === "word") return thing.name;
  const text = workspace.script(file)!.tree.lines[line]!.text.slice(start, end);
  return text.replace(/\\(["\\])/g, "$1");
}

/** The edits that give the thing at a position another name, or why it cannot have it. */
export function* renameAt(workspace: Workspace, file: FilePath, at: Position, name: string): Steps<Renamed> {
  const able = renameableAt(workspace, file, at);
  if (able.kind === "refused") return able;
  const found = occurrenceAt(workspace, file, at)!;
  if (found.as === "path") return yield* renamedFile(workspace, file, found, name);
  const why = whyNoName(found.thing, name);
  if (why !== null) return refused(why);
  if (able.text === name) return { kind: "renamed", edits: [], move: null };
  const what = found.thing.kind === "file" ? (dialectNamed(workspace, file) ?? found.thing) : found.thing;
  const shared =
    what.kind === "file" ? { places: [{ file, ...found }], wholes: [] } : yield* sharedWith(workspace, file, what);
  const not =
    (yield* whyTaken(workspace, file, what, name, shared)) ??
    (yield* whyDoubtful(workspace, what, shared)) ??
    (yield* whyNotAllWritten(workspace, shared.places));
  if (not !== null) return refused(not);
  const edits = shared.places.map((place) => editOf(place, name));
  const else_ = yield* whyMeansElse(workspace, what, [able.text, name], edits);
  return else_ === null ? { kind: "renamed", edits, move: null } : refused(else_);
}

function editOf(place: Place, name: string): NameEdit {
  const text = place.as === "word" ? name : quote(name).slice(1, -1);
  return { file: place.file, range: rangeOf(place), text };
}

function refused(message: string): Refusal {
  return { kind: "refused", message };
}
