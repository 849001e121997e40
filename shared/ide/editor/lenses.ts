/** Code lenses for the modes in a craft's file: in how many states a mode is on, and whether it is on at rest. */
import { unknownInWords } from "../../draw/words.ts";
import { boardOf } from "../../logic/from-craft.ts";
import type { Switchboard } from "../../logic/switchboard-types.ts";
import type { Craft, Mode } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { headLocation } from "../../rules/lib/locations.ts";
import { type Range, rangeOf, spanAt } from "../../syntax/span.ts";

export interface Lens {
  readonly range: Range;
  /** As in “on in 2 of 12 states; at rest: off”. */
  readonly title: string;
}

/**
 * One lens for each mode or output, at the first of its lines in this file. A mode about which nothing is known
 * keeps its lens, since lines would jump if it came and went while a condition is typed. None for a layer
 * or a handset, which have no states of their own.
 */
export function lensesOf(workspace: Workspace, file: string): Lens[] {
  const craft = craftOf(workspace, file);
  if (!craft) return [];
  const board = boardOf(craft, workspace);
  const { on, possible } = board.stateAt(board.rest);
  const rest: AtRest = { on: new Set(on), possible: new Set(possible) };
  const lensOf = (name: string, { lines }: Mode): Lens[] => {
    const own = lines.find(({ source }) => source.file === file)?.source;
    if (!own) return [];
    const { start, end } = headLocation(workspace, own);
    return [{ range: rangeOf(spanAt(own.line, { start, end })), title: titleOf(board, name, rest) }];
  };
  return [
    ...[...craft.modes.values()].flatMap((mode) => lensOf(mode.name, mode)),
    ...[...craft.outputs.values()].flatMap((output) => lensOf(`outputs.${output.name}`, output)),
  ].sort((a, b) => a.range.start.line - b.range.start.line);
}

/** The names of modes and outputs that are on at rest, and of those that may be. */
interface AtRest {
  readonly on: ReadonlySet<string>;
  readonly possible: ReadonlySet<string>;
}

function titleOf(board: Switchboard, name: string, rest: AtRest): string {
  const tangled = board.tangles.get(name);
  if (tangled !== undefined) return `not known: ${unknownInWords(name, tangled)}`;
  if (board.selected(name) === null) return "not known, since a line behind it has a fault";
  const atRest = rest.on.has(name) ? "on" : rest.possible.has(name) ? "on or off" : "off";
  const [count, states] = [board.countStatesWith(name), board.countStates()];
  // Null means that there are too many states to count within the budget.
  if (count === null || states === null) return `at rest: ${atRest}`;
  return `on in ${shareText(count, states)}; at rest: ${atRest}`;
}

function craftOf(workspace: Workspace, file: string): Craft | null {
  const craft = workspace.craft(file);
  return craft?.script.tree.newer ? null : craft;
}

/** From this number of states on, a percentage is shown instead of counts. */
const MANY_STATES = 100_000;

function shareText(count: number, states: number): string {
  if (states < MANY_STATES) return `${count} of ${states === 1 ? "1 state" : `${states} states`}`;
  const percent = Math.round((count / states) * 100);
  if (percent === 0 && count > 0) return "less than 1 % of all states";
  if (percent === 100 && count < states) return "more than 99 % of all states";
  return `${percent} % of all states`;
}
