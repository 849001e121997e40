/** Above each mode of a craft's own file: in how many of its states it is on, and whether it is at rest. */
import type { Switchboard } from "../logic/types.ts";
import type { Mode } from "../model/craft.ts";
import type { Workspace } from "../model/workspace.ts";
import { boardOf } from "../rules/problems.ts";
import { headSpot } from "../rules/spots.ts";
import { type Range, rangeOf, spanAt } from "../syntax/span.ts";

export interface Lens {
  readonly range: Range;
  /** As in “on in 2 of 12 states; at rest: off”. */
  readonly title: string;
}

/**
 * One lens a mode or output, at the first of its lines in this file. None for a layer or a handset,
 * which have no states of their own, and none where a condition is not known.
 */
export function lensesOf(workspace: Workspace, file: string): Lens[] {
  const craft = workspace.craft(file);
  if (!craft || craft.script.tree.newer) return [];
  const board = boardOf(craft, workspace);
  const rest = board.stateAt(board.rest);
  const lensOf = (name: string, { lines }: Mode): Lens[] => {
    const own = lines.find(({ source }) => source.file === file)?.source;
    const count = own && board.countStatesWith(name);
    if (!own || count === null || count === undefined) return [];
    const { start, end } = headSpot(workspace, own);
    const atRest = rest.on.includes(name) ? "on" : rest.possible.includes(name) ? "on or off" : "off";
    const range = rangeOf(spanAt(own.line, { start, end }));
    return [{ range, title: `on in ${count} of ${statesText(board)}; at rest: ${atRest}` }];
  };
  return [
    ...[...craft.modes.values()].flatMap((mode) => lensOf(mode.name, mode)),
    ...[...craft.outputs.values()].flatMap((output) => lensOf(`outputs.${output.name}`, output)),
  ].sort((a, b) => a.range.start.line - b.range.start.line);
}

function statesText(board: Switchboard): string {
  const states = board.countStates();
  return states === 1 ? "1 state" : `${states} states`;
}
