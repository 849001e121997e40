/**
 * A mode's condition as lines of a board that test ranges: the fewest that together hold in exactly the same states,
 * or why there are none.
 */
import type { Box, BoxSpan, RangeHolder, StateSet, Switchboard } from "../../logic/switchboard-types.ts";
import type { Cover, LineOption } from "./cover.ts";
import { fillParts } from "./fill-parts.ts";
import type { BoardShape, Pool, RangePart, RangesShape } from "./shapes.ts";
import { shareOut } from "./share-out.ts";
import { boundsSaid, type HeldSpan, holdSpan, type RoundedEdge, type SaidBounds } from "./span-edges.ts";
import { whyNoLines } from "./why-no-lines.ts";

export interface CoverContext {
  /** How many lines of a pool are left for this mode; all of them without it. */
  readonly left?: (pool: Pool) => number;
  /** Whether the board says when this other mode is on, so that a line may name it; yes without it. */
  readonly isSaid?: (mode: string) => boolean;
}

/**
 * How a board says when a mode is on, or an output as `outputs.NAME`, with lines of these shapes, in the order in
 * which they are preferred. A condition that is just a mode, or `always`, takes that shape where there is one.
 */
export function rangesFor(
  board: Switchboard,
  name: string,
  shapes: readonly BoardShape[],
  context: CoverContext = {},
): Cover {
  const set = board.selected(name);
  if (set === null) return { kind: "cannot", why: "its condition is not known", positions: null };
  if (set === board.sets.none) return { kind: "lines", lines: [], proven: true, rounded: [] };
  const left = context.left ?? ((pool: Pool) => pool.lines);
  const cannot = (why: string, outside: StateSet | null): Cover => {
    const witness = board.witness(outside ?? set);
    return { kind: "cannot", why, positions: witness?.needed ?? null };
  };
  const simple = asShape(board, name, set, shapes, left, context.isSaid ?? (() => true));
  if (simple) return simple;
  const { lines, complete } = candidatesFor(board, name, set, shapes);
  const sets = [...lines.keys()];
  const union = board.sets.or(...sets);
  if (union !== set) {
    const outside = union === null ? set : board.sets.and(set, board.sets.not(union));
    if (!complete) return cannot("it can come about in too many ways to be followed", outside);
    return cannot(whyNoLines(board, set, shapes), outside);
  }
  const options = [...lines.values()];
  const chosen = board.fewestOf(set, sets, {
    cost: (i) => options[i]![0]!.rounded.length,
    accept: (indexes) => shareOut(optionsAt(options, indexes), left) !== null,
  });
  if (!chosen) {
    const needed = board.fewestOf(set, sets, { cost: () => 0, accept: () => true });
    return needed
      ? cannot(overBudget(needed.indexes.length, options.flat(), left), set)
      : cannot("it can come about in too many ways to be followed", set);
  }
  const taken = shareOut(optionsAt(options, chosen.indexes), left)!;
  return {
    kind: "lines",
    lines: taken.map(({ shape, ranges }) => ({ shape, ranges })),
    proven: chosen.proven && complete,
    rounded: distinctEdges(taken.flatMap(({ rounded }) => rounded)),
  };
}

function optionsAt(options: readonly (readonly LineOption[])[], indexes: readonly number[]) {
  return indexes.map((i) => options[i]!);
}

function asShape(
  board: Switchboard,
  name: string,
  set: StateSet,
  shapes: readonly BoardShape[],
  left: (pool: Pool) => number,
  isSaid: (mode: string) => boolean,
): Cover | null {
  const isLeft = ({ pools }: BoardShape) => pools.every((pool) => left(pool) >= 1);
  const lines = board.input.conditions.find((each) => each.name === name)?.lines ?? [];
  const only = lines.length === 1 ? lines[0]!.condition : null;
  if (only?.kind === "mode" && isSaid(only.name)) {
    const shape = shapes.find((each) => each.kind === "mode" && each.names(only.name) && isLeft(each));
    if (shape) return { kind: "as-shape", shape, mode: only.name };
  }
  if (set !== board.sets.every) return null;
  const shape = shapes.find((each) => each.kind === "always" && isLeft(each));
  return shape ? { kind: "as-shape", shape, mode: null } : null;
}

/** The lines that hold within a set, the maximal ones, each with the shapes that can say it: exact ones first. */
function candidatesFor(board: Switchboard, name: string, set: StateSet, shapes: readonly BoardShape[]) {
  const bounds = boundsSaid(board.input, name);
  const lines = new Map<StateSet, LineOption[]>();
  let complete = true;
  for (const shape of shapes) {
    if (shape.kind !== "ranges") continue;
    const holder = holdersFor(board, bounds);
    const found = board.boxesWithin(set, shape.parts.map(holder.of));
    complete &&= found.complete;
    for (const box of found.boxes) {
      const option = optionFor(board, box, shape, holder.held);
      if (option) lines.set(box.set, [...(lines.get(box.set) ?? []), option]);
    }
  }
  for (const options of lines.values()) options.sort((a, b) => statesLost(a) - statesLost(b));
  return { lines: withoutSmaller(board, lines), complete };
}

/** Exact lines come before those that change states. */
function statesLost({ rounded }: LineOption): number {
  return rounded.some(({ changesStates }) => changesStates) ? 1 : 0;
}

/** Without the lines that lie within another: where one shape holds less than another. */
function withoutSmaller(board: Switchboard, lines: Map<StateSet, LineOption[]>): Map<StateSet, LineOption[]> {
  const shapes = new Set([...lines.values()].flat().map(({ shape }) => shape));
  if (shapes.size < 2) return lines;
  const sets = [...lines.keys()];
  return new Map(
    [...lines].filter(([set]) => !sets.some((other) => other !== set && board.sets.within(set, other) === true)),
  );
}

/** What the parts of lines hold on this board; parts that are alike are the same holder. */
function holdersFor(board: Switchboard, bounds: SaidBounds) {
  const drivers = new Map<number, number>();
  for (const { channel } of board.input.controls) drivers.set(channel, (drivers.get(channel) ?? 0) + 1);
  const held = (span: BoxSpan, part: RangePart): HeldSpan | null =>
    // Of two controls on one channel it is not known which counts.
    (drivers.get(span.variable.channel) ?? 0) > 1
      ? null
      : holdSpan(span, part, bounds.get(span.variable.name) ?? [], board.input.endpointsUs);
  const holders = new Map<string, RangeHolder>();
  const of = (part: RangePart): RangeHolder => {
    const holder = holders.get(part.like) ?? { holds: (span: BoxSpan) => held(span, part) !== null };
    holders.set(part.like, holder);
    return holder;
  };
  return { of, held };
}

function optionFor(
  board: Switchboard,
  box: Box,
  shape: RangesShape,
  held: (span: BoxSpan, part: RangePart) => HeldSpan | null,
): LineOption | null {
  const filled = fillParts(board, box, shape, held);
  return (
    filled && { shape, ranges: filled.map(({ range }) => range), rounded: filled.flatMap(({ rounded }) => rounded) }
  );
}

function distinctEdges(edges: readonly RoundedEdge[]): readonly RoundedEdge[] {
  const keyOf = ({ name, saidUs, writtenUs }: RoundedEdge) => `${name} ${saidUs} ${writtenUs}`;
  return [...new Map(edges.map((edge) => [keyOf(edge), edge])).values()];
}

function overBudget(needed: number, options: readonly LineOption[], left: (pool: Pool) => number): string {
  const leftOf = ({ shape }: LineOption) => Math.min(...shape.pools.map(left));
  const most = Math.max(0, ...options.map(leftOf));
  const has = most === 0 ? "none is left" : most === 1 ? "only one is left" : `only ${most} are left`;
  return `it takes ${needed === 1 ? "one line" : `${needed} lines`} of the board, and ${has}`;
}
