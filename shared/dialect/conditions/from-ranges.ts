/** Ranges of pulses that a board's line holds, as a script says them: by the controls of the handset. */
import type { PulseRange } from "../../logic/switchboard-types.ts";
import { END_TOLERANCE_US } from "../../numbers/sticks.ts";
import type { Condition } from "../../syntax/condition.ts";
import { printCondition } from "../../syntax/print-value.ts";
import type { ControlValue } from "../../syntax/value.ts";

/** The pulses of one channel for which a board's line holds, both ends included. */
export interface ChannelRange extends PulseRange {
  readonly channel: number;
}

/** What of a control counts here; a `ControlValue` is one. */
export interface RangedControl extends Pick<ControlValue, "channel" | "control"> {
  readonly positions: readonly { readonly name: string; readonly pulseUs: number }[];
}

/** A position this near to the edge of a range is not certain to be on its side: `thin-margin` speaks of it. */
const THIN_US = 2 * END_TOLERANCE_US;
const AT = { start: 0, end: 0 };

/**
 * The condition of a line whose ranges must all hold, as a script writes it behind `when`: a position where the range
 * means the same in every state of the handset and none lies too near to its edges, else the range as it is. Lines
 * of one mode are joined by `joinConditions`. `endpoints`: the pulses that a channel carries, `link.endpoints`;
 * `twoLevelChannels`: those on which only the ends of a control arrive.
 */
export function conditionFromRanges(
  ranges: readonly ChannelRange[],
  controls: ReadonlyMap<string, RangedControl>,
  endpoints: PulseRange,
  twoLevelChannels: readonly number[] = [],
): string {
  const isTwoLevel = (channel: number) => twoLevelChannels.includes(channel);
  // A line with room for more ranges than a condition has repeats one of them.
  const distinct = ranges.filter((range, i) => ranges.findIndex((each) => isSameRange(each, range)) === i);
  const parts = distinct.map((range) => testOf(range, controls, endpoints, isTwoLevel(range.channel)));
  if (parts.length === 0) return "always";
  return printCondition(parts.length === 1 ? parts[0]! : { kind: "and", parts, ...AT });
}

/** Conditions of which any one suffices, each as a script writes it, joined by `or`; those said twice stand once. */
export function joinConditions(conditions: readonly string[]): string {
  return [...new Set(conditions)].join(" or ");
}

/** The dial that alone drives a channel; null where another control does, two do, or none. */
export function dialFor(channel: number, controls: ReadonlyMap<string, RangedControl>): string | null {
  const driver = driverOf(channel, controls);
  return driver?.spec.control === "dial" ? driver.name : null;
}

/** The one control that drives a channel; null where none does, or two do and which of them counts is not known. */
export function driverOf<C extends { readonly channel: number }>(
  channel: number,
  controls: ReadonlyMap<string, C>,
): { readonly name: string; readonly spec: C } | null {
  const drivers = [...controls].filter(([, spec]) => spec.channel === channel);
  return drivers.length === 1 ? { name: drivers[0]![0], spec: drivers[0]![1] } : null;
}

function isSameRange(a: ChannelRange, b: ChannelRange): boolean {
  return a.channel === b.channel && a.fromUs === b.fromUs && a.toUs === b.toUs;
}

function testOf(
  range: ChannelRange,
  controls: ReadonlyMap<string, RangedControl>,
  endpoints: PulseRange,
  isTwoLevel: boolean,
): Condition {
  const driver = driverOf(range.channel, controls);
  const { fromUs, toUs } = range;
  const subject = driver
    ? ({ kind: "control", name: driver.name, ...AT } as const)
    : ({ kind: "channel", channel: range.channel, ...AT } as const);
  const raw: Condition = { kind: "in", subject, fromUs, toUs, ...AT };
  if (!driver || driver.spec.control === "dial") return raw;
  const positions = isTwoLevel ? outermost(driver.spec.positions) : driver.spec.positions;
  const inside = positions.filter(({ pulseUs }) => fromUs <= pulseUs && pulseUs <= toUs);
  if (inside.length === 0 || inside.length === positions.length) return raw;
  const innerEdges = [fromUs, toUs].filter((us) => endpoints.fromUs < us && us < endpoints.toUs);
  if (innerEdges.some((us) => positions.some(({ pulseUs }) => Math.abs(pulseUs - us) <= THIN_US))) return raw;
  const is = (position: string, negated: boolean): Condition => {
    return { kind: "is", control: driver.name, controlAt: AT, position, positionAt: AT, negated, ...AT };
  };
  if (inside.length === 1) return is(inside[0]!.name, false);
  const outside = positions.filter((position) => !inside.includes(position));
  if (outside.length === 1) return is(outside[0]!.name, true);
  return { kind: "or", parts: inside.map(({ name }) => is(name, false)), ...AT };
}

/** The positions that arrive on a channel with two levels. */
function outermost<P extends { readonly pulseUs: number }>(positions: readonly P[]): readonly P[] {
  const pulses = positions.map(({ pulseUs }) => pulseUs);
  const [lowUs, highUs] = [Math.min(...pulses), Math.max(...pulses)];
  return positions.filter(({ pulseUs }) => pulseUs === lowUs || pulseUs === highUs);
}
