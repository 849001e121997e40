/** Names that stand twice where one is typed, so that both are typed at once. */
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type Position, type Range, rangeOf } from "../../syntax/span.ts";
import { occurrenceAt, occurrencesIn } from "./occurrences.ts";
import { sameThing } from "./thing.ts";

export interface LinkedNames {
  readonly ranges: readonly Range[];
  /** A regular expression for what may be typed there. */
  readonly pattern: string;
}

/**
 * The places that are typed together with the one at a position: a slot of a dialect on both sides of its line, or the
 * position of a control that is also where it rests. Null where there is one alone. Names that other files share are
 * for a rename.
 */
export function linkedNamesAt(workspace: Workspace, file: FilePath, at: Position): LinkedNames | null {
  const found = occurrenceAt(workspace, file, at);
  if (!found || (found.thing.kind !== "slot" && found.thing.kind !== "position") || found.thing.name === "#")
    return null;
  const all = occurrencesIn(workspace, file).filter(({ thing }) => sameThing(thing, found.thing));
  const isPosition = found.thing.kind === "position";
  const near = isPosition ? all.filter(({ line }) => line === found.line) : all;
  // Of a condition nobody knows whether both places are meant.
  if (near.length < 2 || (isPosition && !near.some(({ does }) => does === "defines"))) return null;
  return { ranges: near.map(rangeOf), pattern: "[a-z][a-z0-9-]*" };
}
