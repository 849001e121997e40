/** Above each mode of a craft's own file: in how many of its states it is on, and whether it is at rest. */
import type { Craft, Mode } from "../model/craft.ts";
import type { Workspace } from "../model/workspace.ts";
import { boardOf } from "../rules/problems.ts";
import { headSpot } from "../rules/spots.ts";
import { type Range, rangeOf, spanAt } from "../syntax/span.ts";

export interface Lens {
  readonly range: Range;
  /** A mode, or an output as `outputs.NAME`: what `lensTitle` is asked for. */
  readonly name: string;
}

/**
 * One lens a mode or output, at the first of its lines in this file. None for a layer or a handset,
 * which have no states of their own, and none where a condition is not known.
 */
export function lensesOf(workspace: Workspace, file: string): Lens[] {
  const craft = craftOf(workspace, file);
  if (!craft) return [];
  const board = boardOf(craft, workspace);
  const lensOf = (name: string, { lines }: Mode): Lens[] => {
    const own = lines.find(({ source }) => source.file === file)?.source;
    if (!own || board.selected(name) === null) return [];
    const { start, end } = headSpot(workspace, own);
    return [{ range: rangeOf(spanAt(own.line, { start, end })), name }];
  };
  return [
    ...[...craft.modes.values()].flatMap((mode) => lensOf(mode.name, mode)),
    ...[...craft.outputs.values()].flatMap((output) => lensOf(`outputs.${output.name}`, output)),
  ].sort((a, b) => a.range.start.line - b.range.start.line);
}

/**
 * As in “on in 2 of 12 states; at rest: off”; null where the craft has no such mode or its condition
 * is not known. Apart from `lensesOf`, so that states are counted only for the lines in view.
 */
export function lensTitle(workspace: Workspace, file: string, name: string): string | null {
  const craft = craftOf(workspace, file);
  const board = craft && boardOf(craft, workspace);
  if (!board?.names.includes(name) || board.selected(name) === null) return null;
  const rest = board.stateAt(board.rest);
  const atRest = rest.on.includes(name) ? "on" : rest.possible.includes(name) ? "on or off" : "off";
  const [count, states] = [board.countStatesWith(name), board.countStates()];
  // Too many to count while a person waits.
  if (count === null || states === null) return `at rest: ${atRest}`;
  return `on in ${shareText(count, states)}; at rest: ${atRest}`;
}

function craftOf(workspace: Workspace, file: string): Craft | null {
  const craft = workspace.craft(file);
  return craft?.script.tree.newer ? null : craft;
}

/** From here on figures are no longer read, and a share says more. */
const MANY_STATES = 100_000;

function shareText(count: number, states: number): string {
  if (states < MANY_STATES) return `${count} of ${states === 1 ? "1 state" : `${states} states`}`;
  const percent = Math.round((count / states) * 100);
  if (percent === 0 && count > 0) return "less than 1 % of all states";
  if (percent === 100 && count < states) return "more than 99 % of all states";
  return `${percent} % of all states`;
}
