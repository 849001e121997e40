/** Compares the conditions of two craft: whether they hold in the same states, and if not, where they differ. */
import { dequal } from "dequal";
import type { Condition } from "../syntax/condition.ts";
import { makeSwitchboard } from "./switchboard.ts";
import type {
  ConditionSpec,
  ControlSpec,
  PairedBoards,
  PulseRange,
  StateSet,
  SwitchInput,
} from "./switchboard-types.ts";

/**
 * The conditions of both craft over one set of states, compiled together, so that equal sets are
 * the same node. Null where the craft do not have the same states: their controls, or the pulses
 * that arrive on a channel, differ, or a control's line has a fault. Both share one craft's budget.
 */
export function pairBoards(before: SwitchInput, after: SwitchInput): PairedBoards | null {
  if (!sameStates(before, after)) return null;
  const board = makeSwitchboard({
    ...after,
    conditions: [...marked(before.conditions, "before/"), ...marked(after.conditions, "after/")],
  });
  const { sets } = board;
  const pick =
    (mark: string) =>
    (name: string): StateSet | null =>
      board.selected(mark + name);
  const [ofBefore, ofAfter] = [pick("before/"), pick("after/")];
  /** The states in which a condition holds on one side only. */
  const differing = (name: string): StateSet | null => {
    const [a, b] = [ofBefore(name), ofAfter(name)];
    if (a === null || b === null) return null;
    return sets.or(sets.and(a, sets.not(b)), sets.and(b, sets.not(a)));
  };
  return {
    board,
    before: ofBefore,
    after: ofAfter,
    same: (name) => {
      const [a, b] = [ofBefore(name), ofAfter(name)];
      return a === null || b === null ? null : a === b;
    },
    difference: (name) => board.witness(differing(name)),
    differsWith(name, control) {
      const projected = sets.some(
        differing(name),
        board.variables.flatMap((variable) => (variable.name === control ? [] : [variable.name])),
      );
      if (projected === null) return null;
      const { ways, complete } = projected === sets.none ? NOWHERE : board.waysTo(projected);
      if (!complete) return null;
      const demands = ways.flatMap((way) => way.demands);
      // Without a demand it is every value of the control.
      const isAnywhere = ways.some((way) => way.demands.length === 0);
      const spec = board.variables.find((variable) => variable.name === control)?.control;
      return {
        positions: isAnywhere
          ? (spec?.positions ?? []).map((position) => position.name)
          : [...new Set(demands.flatMap(({ positions }) => positions))],
        pulses: isAnywhere ? rangeOf(spec ?? null) : demands.flatMap(({ pulses }) => pulses),
      };
    },
  };
}

const NOWHERE = { ways: [], complete: true } as const;

/** The whole range of a dial, lower end first; none for another control. */
function rangeOf(control: ControlSpec | null): readonly PulseRange[] {
  if (!control || control.fromUs === null || control.toUs === null) return [];
  return [{ fromUs: Math.min(control.fromUs, control.toUs), toUs: Math.max(control.fromUs, control.toUs) }];
}

function sameStates(a: SwitchInput, b: SwitchInput): boolean {
  const faults = (a.faultyControls ?? []).length + (b.faultyControls ?? []).length;
  if (faults > 0 || a.controls.length !== b.controls.length) return false;
  if (!dequal(a.endpointsUs, b.endpointsUs) || !sameLink(a, b)) return false;
  const byName = new Map(b.controls.map((control) => [control.name, control]));
  return a.controls.every((control) => {
    const other = byName.get(control.name);
    return other !== undefined && sameControl(control, other);
  });
}

/** Whether the same pulses arrive: on channels with two levels, and from sticks as measured. */
function sameLink(a: SwitchInput, b: SwitchInput): boolean {
  const levels = (input: SwitchInput): string => [...new Set(input.twoLevelChannels)].sort().join();
  return levels(a) === levels(b) && dequal(a.measuredUs ?? new Map(), b.measuredUs ?? new Map());
}

/** Whether a control has the same states; where it rests and in which direction a dial turns do not count. */
function sameControl(a: ControlSpec, b: ControlSpec): boolean {
  if (a.channel !== b.channel || (a.kind === "dial") !== (b.kind === "dial")) return false;
  if (a.kind === "dial") {
    const [lowA, highA] = [Math.min(a.fromUs!, a.toUs!), Math.max(a.fromUs!, a.toUs!)];
    return lowA === Math.min(b.fromUs!, b.toUs!) && highA === Math.max(b.fromUs!, b.toUs!);
  }
  if (a.positions.length !== b.positions.length) return false;
  return a.positions.every(({ name, pulseUs }) =>
    b.positions.some((position) => position.name === name && position.pulseUs === pulseUs),
  );
}

function marked(conditions: readonly ConditionSpec[], mark: string): ConditionSpec[] {
  return conditions.map(({ name, lines }) => ({
    name: mark + name,
    lines: lines.map(({ condition, source }) => ({ condition: condition && markModes(condition, mark), source })),
  }));
}

function markModes(condition: Condition, mark: string): Condition {
  switch (condition.kind) {
    case "and":
    case "or":
      return { ...condition, parts: condition.parts.map((part) => markModes(part, mark)) };
    case "not":
      return { ...condition, part: markModes(condition.part, mark) };
    case "mode":
      return { ...condition, name: mark + condition.name };
    default:
      return condition;
  }
}
