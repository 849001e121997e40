/** Code lenses: above the header what there is to see, above each mode of a craft in how many states it is on, and at rest. */
import { boardOf } from "../../logic/from-craft.ts";
import type { Switchboard } from "../../logic/switchboard-types.ts";
import type { Craft, Mode } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { LensAction } from "../../protocol/lenses.ts";
import { headLocation } from "../../rules/lib/locations.ts";
import { rangeOf, spanAt } from "../../syntax/span.ts";
import { type AtRest, atRest, statesInWords } from "../context/mode-states.ts";
import { headerLensesOf } from "./header-lenses.ts";
import type { Lens } from "./lens.ts";

export type { Lens } from "./lens.ts";

/** All lenses of a file, from the first line to the last. */
export function lensesOf(workspace: Workspace, file: string): Lens[] {
  return [...headerLensesOf(workspace, file), ...stateLensesOf(workspace, file)].sort(
    (a, b) => a.range.start.line - b.range.start.line,
  );
}

/**
 * One lens for each mode or output, at the first of its lines in this file. A mode about which nothing is known
 * keeps its lens, since lines would jump if it came and went while a condition is typed. None for a layer
 * or a handset, which have no states of their own.
 */
function stateLensesOf(workspace: Workspace, file: string): Lens[] {
  const craft = craftOf(workspace, file);
  if (!craft) return [];
  const board = boardOf(craft, workspace);
  const rest = atRest(board);
  const lensOf = (name: string, { lines }: Mode): Lens[] => {
    const own = lines.find(({ source }) => source.file === file)?.source;
    if (!own) return [];
    const { start, end } = headLocation(workspace, own);
    const range = rangeOf(spanAt(own.line, { start, end }));
    return [{ range, title: statesInWords(board, name, rest), action: showing(board, name, rest) }];
  };
  return [
    ...[...craft.modes.values()].flatMap((mode) => lensOf(mode.name, mode)),
    ...[...craft.outputs.values()].flatMap((output) => lensOf(`outputs.${output.name}`, output)),
  ];
}

/** The positions nearest to rest in which a mode is on; null where nothing turns it on, or that is not known. */
function showing(board: Switchboard, name: string, rest: AtRest): LensAction | null {
  if (rest.on.has(name)) return { kind: "positions", positions: {} };
  const set = board.selected(name);
  const moves = set === null ? null : board.movesTo(set, board.rest);
  if (moves === null) return null;
  return { kind: "positions", positions: Object.fromEntries(moves.map(({ name: moved, to }) => [moved, to])) };
}

function craftOf(workspace: Workspace, file: string): Craft | null {
  const craft = workspace.craft(file);
  return craft?.script.tree.newer ? null : craft;
}
