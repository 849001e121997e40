/** Whether two craft ask the same of the logic, so that one board serves both. */
import type { ConditionSpec, ControlSpec, PulseRange, SwitchInput } from "./types.ts";

/**
 * True where every answer would be the same, the lines named in them included. Conditions are
 * compared by identity: the same words are read once, wherever they stand.
 */
export function sameInput(a: SwitchInput, b: SwitchInput): boolean {
  return (
    a.precedence === b.precedence &&
    a.handsetKnown === b.handsetKnown &&
    sameRange(a.endpointsUs, b.endpointsUs) &&
    sameList(a.faultyControls ?? [], b.faultyControls ?? [], Object.is) &&
    sameList(a.twoLevelChannels ?? [], b.twoLevelChannels ?? [], Object.is) &&
    a.loss?.onLoss === b.loss?.onLoss &&
    sameMap(a.loss?.pulsesUs, b.loss?.pulsesUs, Object.is) &&
    sameMap(a.measuredUs, b.measuredUs, sameRange) &&
    sameList(a.controls, b.controls, sameControl) &&
    sameList(a.conditions, b.conditions, sameCondition)
  );
}

/** True for the same two ends. */
export function sameRange(a: PulseRange, b: PulseRange): boolean {
  return a.fromUs === b.fromUs && a.toUs === b.toUs;
}

function sameControl(a: ControlSpec, b: ControlSpec): boolean {
  return (
    a.name === b.name &&
    a.kind === b.kind &&
    a.channel === b.channel &&
    a.rest === b.rest &&
    a.fromUs === b.fromUs &&
    a.toUs === b.toUs &&
    sameList(a.positions, b.positions, (one, other) => one.name === other.name && one.pulseUs === other.pulseUs)
  );
}

function sameCondition(a: ConditionSpec, b: ConditionSpec): boolean {
  return (
    a.name === b.name &&
    sameList(
      a.lines,
      b.lines,
      (one, other) =>
        one.condition === other.condition &&
        one.source.line === other.source.line &&
        one.source.file === other.source.file,
    )
  );
}

function sameList<T>(a: readonly T[], b: readonly T[], same: (one: T, other: T) => boolean): boolean {
  return a.length === b.length && a.every((each, i) => same(each, b[i]!));
}

/** True for the same keys with the same values; two that are not there are the same. */
export function sameMap<T>(
  a: ReadonlyMap<number, T> | undefined,
  b: ReadonlyMap<number, T> | undefined,
  same: (one: T, other: T) => boolean,
): boolean {
  if ((a?.size ?? 0) !== (b?.size ?? 0)) return false;
  return [...(a ?? [])].every(([channel, value]) => b!.has(channel) && same(value, b!.get(channel)!));
}
