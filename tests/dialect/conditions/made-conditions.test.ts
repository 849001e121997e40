/**
 * Craft made at random: what becomes lines of a board and is read back means the same, and nothing less would do. Held
 * to the logic (sets of states are equal if and only if they are the same) and, where it is small, to enumeration.
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { Cover } from "../../../shared/dialect/conditions/cover.ts";
import { conditionFromRanges, joinConditions } from "../../../shared/dialect/conditions/from-ranges.ts";
import { type BoardShape, shapesFor } from "../../../shared/dialect/conditions/shapes.ts";
import { rangesFor } from "../../../shared/dialect/conditions/to-ranges.ts";
import { makeSwitchboard } from "../../../shared/logic/switchboard.ts";
import type { ConditionSpec, SwitchInput } from "../../../shared/logic/switchboard-types.ts";
import type { Condition } from "../../../shared/syntax/condition.ts";
import { choices, everyState, modeHolds } from "../../logic/enumerate.ts";
import { craft, SHORT_SCALE_US } from "../../logic/generate.ts";
import { readInput } from "../../logic/read-board.ts";
import { conditionOfLines, controlsOf, sameStates } from "./blocks.ts";
import { type DialectName, dialectNamed } from "./dialects.ts";

/** Shapes of one, two and three ranges with any edge, and of two with edges in steps. */
const SHAPES = (["any", "any-two", "any-three", "stepped-two"] as const satisfies readonly DialectName[]).map(
  (name) => ({ name, shapes: shapesFor(dialectNamed(name), "recorder") }),
);
const STEPS = 80;

/** A craft whose pulses lie as far apart as on a real handset. */
function spread(input: SwitchInput): SwitchInput {
  const wide = (us: number) => SHORT_SCALE_US.fromUs + (us - SHORT_SCALE_US.fromUs) * STEPS;
  const wideOrNull = (us: number | null) => (us === null ? null : wide(us));
  const condition = (node: Condition): Condition => {
    if (node.kind === "and" || node.kind === "or") return { ...node, parts: node.parts.map(condition) };
    if (node.kind === "not") return { ...node, part: condition(node.part) };
    if (node.kind === "in") return { ...node, fromUs: wide(node.fromUs), toUs: wide(node.toUs) };
    return node.kind === "above" || node.kind === "below" ? { ...node, boundUs: wide(node.boundUs) } : node;
  };
  return {
    ...input,
    endpointsUs: { fromUs: wide(input.endpointsUs.fromUs), toUs: wide(input.endpointsUs.toUs) },
    measuredUs: new Map(
      [...(input.measuredUs ?? [])].map(([ch, { fromUs, toUs }]) => [ch, { fromUs: wide(fromUs), toUs: wide(toUs) }]),
    ),
    controls: input.controls.map((control) => ({
      ...control,
      fromUs: wideOrNull(control.fromUs),
      toUs: wideOrNull(control.toUs),
      positions: control.positions.map(({ name, pulseUs }) => ({ name, pulseUs: wide(pulseUs) })),
    })),
    conditions: input.conditions.map(({ name, lines }) => ({
      name,
      lines: lines.map((line) => ({ ...line, condition: line.condition && condition(line.condition) })),
    })),
  };
}

function readBack(input: SwitchInput, cover: Extract<Cover, { kind: "lines" }>): ConditionSpec["lines"] {
  const texts = cover.lines.map(({ ranges }) =>
    conditionFromRanges(ranges, controlsOf(input), input.endpointsUs, input.twoLevelChannels),
  );
  return texts.length === 0 ? [] : readInput(`x when ${joinConditions(texts)}`).conditions[0]!.lines;
}

const counted = { lines: 0, most: 0, cannot: 0, rounded: 0, unproven: 0 };

test("lines that are read back hold in the same states, in 2,000 craft", () => {
  fc.assert(
    fc.property(craft(4, 3), fc.constantFrom(...SHAPES), fc.boolean(), (made, { shapes }, isSpread) => {
      const input = isSpread ? spread(made) : made;
      const board = makeSwitchboard(input);
      for (const { name, lines } of input.conditions) {
        const cover = rangesFor(board, name, shapes);
        if (cover.kind === "lines") {
          counted.lines++;
          counted.most = Math.max(counted.most, cover.lines.length);
          if (!cover.proven) counted.unproven++;
          if (cover.rounded.some(({ changesStates }) => changesStates)) {
            counted.rounded++;
            expectOnlyDialsToDiffer(input, lines, readBack(input, cover));
          } else {
            const written = conditionOfLines(cover.lines.map(({ ranges }) => ranges));
            expect(sameStates(input, lines, written)).toBe(true);
            expect(sameStates(input, lines, readBack(input, cover))).toBe(true);
          }
        } else if (cover.kind === "cannot") {
          counted.cannot++;
          expect(cover.positions).not.toBeNull();
          expect(board.sets.within(board.sets.where(cover.positions!), board.selected(name))).toBe(true);
        }
      }
    }),
    { numRuns: 2000, seed: 13 },
  );
  // Each kind, so the property says something of all of them.
  expect(counted.lines).toBeGreaterThan(1500);
  for (const count of [counted.cannot, counted.rounded, counted.most - 3]) expect(count).toBeGreaterThan(0);
});

/** With rounded edges there are still no positions with which the two differ whatever the dials do. */
function expectOnlyDialsToDiffer(input: SwitchInput, a: ConditionSpec["lines"], b: ConditionSpec["lines"]): void {
  const board = makeSwitchboard({
    ...input,
    conditions: [...input.conditions, { name: "this-one", lines: a }, { name: "that-one", lines: b }],
  });
  const { sets } = board;
  const [one, other] = [board.selected("this-one")!, board.selected("that-one")!];
  const apart = sets.or(sets.and(one, sets.not(other)), sets.and(other, sets.not(one)));
  const dials = board.variables.flatMap(({ name, control }) => (!control || control.kind === "dial" ? name : []));
  expect(sets.all(apart, dials)).toBe(sets.none);
}

test("no fewer lines would do, and where none are said there are none, by enumeration", () => {
  let [compared, many] = [0, 0];
  fc.assert(
    fc.property(craft(3, 2), fc.constantFrom(...SHAPES.slice(0, 3)), (input, { shapes }) => {
      const board = makeSwitchboard(input);
      const most = mostRanges(shapes);
      for (const { name } of input.conditions) {
        const cover = rangesFor(board, name, shapes);
        const states = [...everyStateOnce(input)];
        if (states.length > 170 || cover.kind === "as-shape") continue;
        const boxes = boxesByEnumeration(input, name, most);
        if (!boxes) continue;
        const all = bitsWhere(states.length, (i) => states[i]!.get(name) === true);
        const union = boxes.reduce((sum, box) => sum | box, 0n);
        compared++;
        if (cover.kind === "cannot") expect(union).not.toBe(all);
        else {
          expect(union).toBe(all);
          if (cover.proven) expect(canCover(all, boxes, cover.lines.length - 1)).toBe(false);
          if (cover.lines.length > 2) many++;
        }
      }
    }),
    { numRuns: 1000, seed: 31 },
  );
  expect(compared).toBeGreaterThan(500);
  expect(many).toBeGreaterThan(10);
});

function mostRanges(shapes: readonly BoardShape[]): number {
  return Math.max(...shapes.map((shape) => (shape.kind === "ranges" ? shape.parts.length : 0)));
}

/** For each state the modes that are on in it. */
function* everyStateOnce(input: SwitchInput): Generator<ReadonlyMap<string, boolean>> {
  for (const state of everyState(input))
    yield new Map(input.conditions.map(({ name }) => [name, modeHolds(input, name, state)]));
}

function bitsWhere(count: number, holds: (i: number) => boolean): bigint {
  let bits = 0n;
  for (let i = 0; i < count; i++) if (holds(i)) bits |= 1n << BigInt(i);
  return bits;
}

/**
 * Every box within a mode's states, as bits of states: a run of pulses of each variable, of at most `most` of them less
 * than all. Null where there are too many.
 */
function boxesByEnumeration(input: SwitchInput, name: string, most: number): bigint[] | null {
  const variables = choices(input);
  const states = Array.from(everyState(input), (state) => ({ ...state }));
  const on = bitsWhere(states.length, (i) => modeHolds(input, name, states[i]!));
  const runs = variables.map(([variable, places]) => {
    const control = input.controls.find((each) => each.name === variable);
    const pulse = (place: string | number) =>
      typeof place === "number" ? place : control!.positions.find((each) => each.name === place)!.pulseUs;
    const pulses = [...new Set(places.map(pulse))].sort((a, b) => a - b);
    const found: { bits: bigint; isAll: boolean }[] = [];
    for (let from = 0; from < pulses.length; from++)
      for (let to = from; to < pulses.length; to++) {
        const isInside = (at: number) => pulses[from]! <= at && at <= pulses[to]!;
        found.push({
          bits: bitsWhere(states.length, (i) => isInside(pulse(states[i]![variable]!))),
          isAll: from === 0 && to === pulses.length - 1,
        });
      }
    return found;
  });
  if (runs.reduce((product, { length }) => product * length, 1) > 4000) return null;
  let boxes: { bits: bigint; left: number }[] = [{ bits: (1n << BigInt(states.length)) - 1n, left: most }];
  for (const ofVariable of runs) {
    boxes = boxes.flatMap(({ bits, left }) =>
      ofVariable.flatMap((run) =>
        run.isAll ? { bits, left } : left > 0 ? { bits: bits & run.bits, left: left - 1 } : [],
      ),
    );
  }
  const within = [...new Set(boxes.flatMap(({ bits }) => (bits !== 0n && (bits & ~on) === 0n ? bits : [])))];
  return within.filter((box) => !within.some((other) => other !== box && (box & ~other) === 0n));
}

/** Whether so many boxes can be all of these states. */
function canCover(left: bigint, boxes: readonly bigint[], count: number): boolean {
  if (left === 0n) return count >= 0;
  if (count <= 0) return false;
  const lowest = left & -left;
  return boxes.some((box) => (box & lowest) !== 0n && canCover(left & ~box, boxes, count - 1));
}
