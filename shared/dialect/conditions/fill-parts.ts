/** Every range of a line filled: those that a condition needs, and the rest with ranges that ask for nothing more. */
import type { Box, BoxSpan, Switchboard, Variable } from "../../logic/switchboard-types.ts";
import type { RangePart, RangesShape } from "./shapes.ts";
import type { HeldSpan } from "./span-edges.ts";

type Hold = (span: BoxSpan, part: RangePart) => HeldSpan | null;

/**
 * What each part of a line holds so that the line holds in the states of a box; null where a part is left for which
 * nothing can be said, or where a slot that stands in two parts would need two values.
 */
export function fillParts(
  board: Switchboard,
  box: Box,
  { parts }: RangesShape,
  held: Hold,
): readonly HeldSpan[] | null {
  const needed = new Map(box.spans.map(({ holder, span }) => [holder, span]));
  const filled: HeldSpan[] = [];
  const tied = new Map<string, number>();
  for (const [i, part] of parts.entries()) {
    const own = needed.get(i);
    const choices = own ? [own] : spansForNothing(board, box);
    const found = firstOf(choices, (span) => {
      const hold = held(span, part);
      // What stands in for nothing must change nothing.
      if (!hold || (!own && hold.rounded.some(({ changesStates }) => changesStates) && !isOf(box, span))) return null;
      return fits(part, hold, tied) ? hold : null;
    });
    if (!found) return null;
    for (const [slot, value] of valuesOf(part, found)) tied.set(slot, value);
    filled.push(found);
  }
  return filled;
}

function isOf(box: Box, span: BoxSpan): boolean {
  return box.spans.some((each) => each.span === span);
}

function firstOf<T, R>(items: Iterable<T>, pick: (item: T) => R | null): R | null {
  for (const item of items) {
    const picked = pick(item);
    if (picked !== null) return picked;
  }
  return null;
}

/** A range of the line once more, else all that some channel carries. */
function* spansForNothing(board: Switchboard, box: Box): Generator<BoxSpan> {
  for (const { span } of box.spans) yield span;
  for (const variable of board.variables) yield board.wholeSpan(variable);
  const driven = new Set(board.variables.map(({ channel }) => channel));
  for (let channel = 5; channel <= MOST_CHANNELS; channel++)
    if (!driven.has(channel)) yield freeSpan({ name: `ch${channel}`, channel, control: null }, board);
}

const MOST_CHANNELS = 32;

function freeSpan(variable: Variable, { input }: Switchboard): BoxSpan {
  return { variable, ...input.endpointsUs, belowUs: null, aboveUs: null, isContinuous: true };
}

/** Whether the slots that other parts have too hold the same there. */
function fits(part: RangePart, hold: HeldSpan, tied: ReadonlyMap<string, number>): boolean {
  return valuesOf(part, hold).every(([slot, value]) => (tied.get(slot) ?? value) === value);
}

function valuesOf(part: RangePart, { range }: HeldSpan): [string, number][] {
  const values: [string | null, number][] = [
    [part.channel.slot, range.channel],
    [part.from.slot, range.fromUs],
    [part.to.slot, range.toUs],
  ];
  return values.flatMap(([slot, value]) => (slot === null ? [] : [[slot, value] as [string, number]]));
}
