/** Where the thing under the cursor is named: in the whole workspace, or in its own file at once. */
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Position } from "../../syntax/span.ts";
import type { Steps } from "../../text/steps.ts";
import { occurrenceAt, occurrencesIn } from "./occurrences.ts";
import { inOrder, namedIn, sharedWith } from "./sharing.ts";
import { type Occurrence, type Place, sameThing, type Thing } from "./thing.ts";

/** Every place at which the thing at a position is named; `declarations` are those that say what it is. None where nothing is named there. */
export function* referencesAt(
  workspace: Workspace,
  file: FilePath,
  at: Position,
  declarations: "with" | "without",
): Steps<readonly Place[]> {
  const found = occurrenceAt(workspace, file, at);
  if (!found) return [];
  const places = yield* placesOf(workspace, file, found.thing);
  return declarations === "with" ? places : places.filter(({ does }) => does !== "defines");
}

function* placesOf(workspace: Workspace, file: FilePath, what: Thing): Steps<readonly Place[]> {
  if (what.kind === "file") {
    const target = workspace.view.realPath(what.name);
    const places = yield* pathsTo(workspace, target);
    const dialect = dialectNamed(workspace, target);
    if (!dialect) return places;
    const kept = (yield* sharedWith(workspace, target, dialect)).places.filter(({ thing }) => thing.kind === "dialect");
    return [...places, ...kept].sort(inOrder);
  }
  const { places } = yield* sharedWith(workspace, file, what);
  if (what.kind !== "dialect") return places;
  // From a name the paths are found by the headers that bear it, so that both lead to the same places.
  const found = places.filter(({ thing }) => thing.kind === "dialect");
  for (const header of places)
    if (header.thing.kind === "file") found.push(...(yield* pathsTo(workspace, header.file)));
  return found.sort(inOrder);
}

/** A dialect by the name that others keep lines for; null where the file is none. */
export function dialectNamed(workspace: Workspace, file: FilePath): Thing | null {
  const script = workspace.script(file);
  return script?.kind === "dialect" && script.tree.name !== null
    ? { kind: "dialect", name: script.tree.name, of: "" }
    : null;
}

/** The header of a file, and every path that leads to it. */
export function* pathsTo(workspace: Workspace, target: FilePath): Steps<readonly Place[]> {
  const places: Place[] = [];
  for (const file of new Set([...workspace.view.list(), target])) {
    for (const each of occurrencesIn(workspace, file))
      if (each.thing.kind === "file" && workspace.view.realPath(each.thing.name) === target)
        places.push({ file, ...each });
    yield;
  }
  return places.sort(inOrder);
}

/** The places of the thing at a position in its own file. */
export function highlightsAt(workspace: Workspace, file: FilePath, at: Position): readonly Occurrence[] {
  const found = occurrenceAt(workspace, file, at);
  if (!found) return [];
  const { kind, name } = found.thing;
  if (kind === "dialect") {
    const leadsToIt = ({ thing }: Occurrence) =>
      thing.kind === "file" && dialectNamed(workspace, workspace.view.realPath(thing.name))?.name === name;
    return occurrencesIn(workspace, file).filter((each) => sameThing(each.thing, found.thing) || leadsToIt(each));
  }
  if (kind !== "file") return namedIn(workspace, file, found.thing);
  const target = workspace.view.realPath(name);
  const dialect = dialectNamed(workspace, target);
  return occurrencesIn(workspace, file).filter(
    ({ thing }) =>
      (thing.kind === "file" && workspace.view.realPath(thing.name) === target) ||
      (dialect !== null && sameThing(thing, dialect)),
  );
}
