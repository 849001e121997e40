/** A mode or an output of two craft in words: as sets of positions, and not as the text of its condition. */
import { switchboardOf } from "../../logic/from-craft.ts";
import type { Demand, PulseRange, StateSet, Switchboard, SwitchInput, Way } from "../../logic/switchboard-types.ts";
import type { Craft, Mode } from "../../model/craft.ts";
import { walkCondition } from "../../syntax/condition.ts";
import { joinWithAnd } from "../../text/list.ts";
import { isSameCondition, pairedConditions } from "./conditions.ts";
import { faultWords, writtenWithFault } from "./words-of-faults.ts";

/** More ways into a state than these are not read in a sentence: the condition itself is shorter then. */
const MOST_WAYS = 4;

type Board = Pick<Switchboard, "input" | "sets" | "waysTo" | "waysBeyond">;

/**
 * What differs between a mode, or an output, of two craft. `name` is that of the logic (`outputs.lamp`), `subject` what the
 * sentence begins with. Where the controls of the craft differ, each side is told by its own.
 */
export function conditionWords(
  name: string,
  subject: string,
  a: Mode | undefined,
  b: Mode | undefined,
  before: Craft,
  after: Craft,
): string {
  if (!a || !b) return oneSided(name, subject, a, b, before, after);
  if (!a.condition || !b.condition) return `${subject} ${faultWords(a.text, b.text)}`;
  const pair = pairedConditions(before, after);
  const plain = `${subject} is on when ${b.text}, in place of when ${a.text}`;
  const [setA, setB] = pair ? [pair.before(name), pair.after(name)] : [null, null];
  if (!pair || setA === null || setB === null) {
    const [first, second] = [waysOn(before, name), waysOn(after, name)];
    if (first === null || second === null || first === second) return plain;
    return `${subject} moves from ${first} to ${second}`;
  }
  const moved = pairWords(subject, pair.board, setA, setB) ?? plain;
  return a.text === b.text ? `${moved}${alongWith(b, before, after)}` : moved;
}

/** A mode that only one of them has. */
function oneSided(
  name: string,
  subject: string,
  a: Mode | undefined,
  b: Mode | undefined,
  before: Craft,
  after: Craft,
): string {
  if (b) return `${subject} is new: ${onText(after, name, b)}`;
  return a ? `${subject} is gone: it was ${onText(before, name, a)}` : subject;
}

function onText(craft: Craft, name: string, { text, condition }: Mode): string {
  if (!condition) return writtenWithFault(text);
  const ways = waysOn(craft, name);
  if (ways === NEVER || ways === ALWAYS) return `${ways} on`;
  return ways === null ? `on when ${text}` : `on with ${ways}`;
}

const NEVER = "never";
const ALWAYS = "always";

/** The ways in which a craft's mode is on, by its own board; null where they are not known, or too many. */
function waysOn(craft: Craft, name: string): string | null {
  const board = switchboardOf(craft);
  const set = board.selected(name);
  return set === null ? null : waysIn(board, set);
}

function waysIn(board: Board, set: StateSet): string | null {
  if (set === board.sets.none) return NEVER;
  if (set === board.sets.every) return ALWAYS;
  const ways = fewWays(board, set);
  return ways && waysText(ways, board.input);
}

function fewWays(board: Board, set: StateSet): readonly Way[] | null {
  const { ways, complete } = board.waysTo(set);
  return complete && ways.length <= MOST_WAYS ? ways : null;
}

/** From one set of states to another of the same board; null where that takes too many words. */
function pairWords(subject: string, board: Board, a: StateSet, b: StateSet): string | null {
  const { none, every } = board.sets;
  const [first, second] = [waysIn(board, a), waysIn(board, b)];
  if (b === none || b === every) {
    const now = b === none ? "never on any more" : "always on";
    return `${subject} is ${now}${first === null ? "" : `: it was ${on(first)}`}`;
  }
  if (a === none || a === every) return second && `${subject} is ${on(second)}: it was ${first} on`;
  const [from, to] = [fewWays(board, a), fewWays(board, b)];
  const single = from?.length === 1 && to?.length === 1 ? demandWords(subject, board, from[0]!, to[0]!) : null;
  if (single !== null) return single;
  if (board.sets.within(a, b)) return also(subject, board, a, b);
  if (board.sets.within(b, a)) {
    const lost = beyond(board, b, a);
    return lost && `${subject} is no longer on with ${lost}`;
  }
  const [gained, lost] = [also(subject, board, a, b), beyond(board, b, a)];
  // Where nothing stays as it was it has moved, however many ways there are.
  if (first !== null && second !== null && board.sets.meet(a, b) === false)
    return `${subject} moves from ${first} to ${second}`;
  return gained && lost && `${gained}, and no longer with ${lost}`;
}

function on(ways: string): string {
  return ways === NEVER || ways === ALWAYS ? `${ways} on` : `on with ${ways}`;
}

function also(subject: string, board: Board, a: StateSet, b: StateSet): string | null {
  const gained = beyond(board, a, b);
  return gained && `${subject} is also on with ${gained}`;
}

/** The ways into a set that lead beyond what is known; null where there are too many to tell. */
function beyond(board: Board, known: StateSet, set: StateSet): string | null {
  const { ways, complete } = board.waysBeyond(set, known);
  return complete && ways.length <= MOST_WAYS ? waysText(ways, board.input) : null;
}

/** One way that became another, by what it asks of each control; null where that says less than the ways themselves. */
function demandWords(subject: string, board: Board, from: Way, to: Way): string | null {
  const text = (demand: Demand) => demandText(demand, board.input);
  const [before, now] = [from, to].map(({ demands }) => new Map(demands.map((each) => [each.variable.name, each])));
  const kept = to.demands.filter((each) => sameText(before!.get(each.variable.name), each, text));
  const gone = from.demands.filter((each) => !sameText(now!.get(each.variable.name), each, text));
  const come = to.demands.filter((each) => !kept.includes(each));
  if (come.length === 0) return `${subject} no longer needs ${joinWithAnd(gone.map(text))}`;
  if (gone.length === 0) return `${subject} also needs ${joinWithAnd(come.map(text))}`;
  const isWiderOrNarrower = gone.length === 1 && come.length === 1 && gone[0]!.variable === come[0]!.variable;
  const overlaps = isWiderOrNarrower && overlap(gone[0]!, come[0]!);
  if (overlaps) return null;
  const still = kept.length === 0 ? "" : `, with ${joinWithAnd(kept.map(text))} as before`;
  return `${subject} moves from ${joinWithAnd(gone.map(text))} to ${joinWithAnd(come.map(text))}${still}`;
}

function sameText(a: Demand | undefined, b: Demand, text: (demand: Demand) => string): boolean {
  return a !== undefined && text(a) === text(b);
}

function overlap(a: Demand, b: Demand): boolean {
  return (
    a.positions.some((each) => b.positions.includes(each)) ||
    a.pulses.some((one) => b.pulses.some((other) => one.fromUs <= other.toUs && other.fromUs <= one.toUs))
  );
}

/** “TL down”, “TL down and TR mid”, “TL down, or TR mid and KN above 1500 us”. */
function waysText(ways: readonly Way[], input: SwitchInput): string {
  const texts = ways.map(({ demands }) => joinWithAnd(demands.map((each) => demandText(each, input))));
  const isPlain = ways.every(({ demands }) => demands.length === 1);
  return texts.join(isPlain ? " or " : ", or ");
}

function demandText({ variable, positions, pulses }: Demand, input: SwitchInput): string {
  if (positions.length > 0) {
    const all = variable.control?.positions ?? [];
    const [other, more] = all.filter(({ name }) => !positions.includes(name));
    if (other && !more && positions.length > 1) return `${variable.name} not ${other.name}`;
    return `${variable.name} ${positions.join(" or ")}`;
  }
  const whole = wholeRange(variable, input);
  return `${variable.name} ${pulses.map((each) => pulsesText(each, whole)).join(" or ")}`;
}

function wholeRange({ channel, control }: Demand["variable"], { endpointsUs, measuredUs }: SwitchInput): PulseRange {
  if (!control) return measuredUs?.get(channel) ?? endpointsUs;
  const [from, to] = [control.fromUs ?? 0, control.toUs ?? 0];
  return { fromUs: Math.min(from, to), toUs: Math.max(from, to) };
}

/** As a script would say it: whole microseconds, bounds of `above` and `below` not included. */
function pulsesText({ fromUs, toUs }: PulseRange, whole: PulseRange): string {
  if (fromUs === toUs) return `at ${fromUs} us`;
  if (toUs >= whole.toUs && fromUs > whole.fromUs) return `above ${fromUs - 1} us`;
  if (fromUs <= whole.fromUs && toUs < whole.toUs) return `below ${toUs + 1} us`;
  return `in ${fromUs} us to ${toUs} us`;
}

/** The modes behind it that differ themselves, where its own text is the same on both. */
function alongWith({ condition }: Mode, before: Craft, after: Craft): string {
  if (!condition) return "";
  const pair = pairedConditions(before, after);
  const named = new Set<string>();
  for (const node of walkCondition(condition)) if (node.kind === "mode") named.add(node.name);
  const moved = [...named].filter((name) => {
    const [a, b] = [before.modes.get(name), after.modes.get(name)];
    return !a || !b ? a !== b : !isSameCondition(name, a, b, pair);
  });
  if (moved.length === 0) return "";
  return `, since ${joinWithAnd(moved)} ${moved.length === 1 ? "differs" : "differ"}`;
}
