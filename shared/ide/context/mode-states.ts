/** In how many states of the switches a mode is on, and whether it is at rest, in words. */
import { unknownInWords } from "../../draw/words.ts";
import type { Switchboard } from "../../logic/switchboard-types.ts";

/** The names of modes and outputs that are on at rest, and of those that may be. */
export interface AtRest {
  readonly on: ReadonlySet<string>;
  readonly possible: ReadonlySet<string>;
}

/** What is on, or may be, with every control at rest. */
export function atRest(board: Switchboard): AtRest {
  const { on, possible } = board.stateAt(board.rest);
  return { on: new Set(on), possible: new Set(possible) };
}

/** As in “on in 2 of 12 states; at rest: off”; an output is named `outputs.NAME`. */
export function statesInWords(board: Switchboard, name: string, rest: AtRest): string {
  const tangled = board.tangles.get(name);
  if (tangled !== undefined) return `not known: ${unknownInWords(name, tangled)}`;
  if (board.selected(name) === null) return "not known, since a line behind it has a fault";
  const stands = rest.on.has(name) ? "on" : rest.possible.has(name) ? "on or off" : "off";
  const [count, states] = [board.countStatesWith(name), board.countStates()];
  // Null means that there are too many states to count within the budget.
  if (count === null || states === null) return `at rest: ${stands}`;
  return `on in ${shareText(count, states)}; at rest: ${stands}`;
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
