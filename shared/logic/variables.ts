/**
 * The variables of a board and their values. A switch, selector or button has one value for each
 * position. A dial, or a channel without a control, can have any whole number of microseconds of its
 * range; its values are the intervals between the bounds that conditions name, so that no condition
 * distinguishes two pulses of one interval.
 */
import type { Condition } from "../syntax/condition.ts";
import type { ControlSpec, PulseRange, Variable } from "./switchboard-types.ts";

/** A value of a variable: a position with its one pulse, or an interval of whole us, both ends included, ascending. */
export interface PulseInterval {
  readonly position: string | null;
  readonly fromUs: number;
  readonly toUs: number;
}

export interface BoardVariable extends Variable {
  readonly intervals: readonly PulseInterval[];
  /** The range of a dial or channel in whole us, ascending; null for other controls, and where only single pulses arrive. */
  readonly rangeUs: PulseRange | null;
}

/** How a channel limits the pulses that arrive. */
export interface ChannelLimits {
  /** The one pulse that it has, whatever the position of the control. */
  readonly pulseUs?: number | undefined;
  /** Whether only the two ends arrive. */
  readonly twoLevel: boolean;
}

type PulseTest = Extract<Condition, { kind: "in" | "above" | "below" }>;

/** Where a test divides a range: the first whole us that passes it, and the first after that that does not. */
export interface Cuts {
  readonly fromUs: number;
  readonly beyondUs: number;
}

/** The cuts of a test. Bounds need not be whole, but pulses are: `above 1500.5` passes from 1501 on, as `above 1500` does. */
export function cutsOf(test: PulseTest): Cuts {
  if (test.kind === "in") return { fromUs: Math.ceil(test.fromUs), beyondUs: Math.floor(test.toUs) + 1 };
  if (test.kind === "above") return { fromUs: Math.floor(test.boundUs) + 1, beyondUs: Number.POSITIVE_INFINITY };
  return { fromUs: Number.NEGATIVE_INFINITY, beyondUs: Math.ceil(test.boundUs) };
}

/** Does every pulse of a interval pass? Cells are cut at the bounds, so that all of one do or none does. */
export function passes(test: PulseTest, interval: { readonly fromUs: number; readonly toUs: number }): boolean {
  if (test.kind === "in") return test.fromUs <= interval.fromUs && interval.toUs <= test.toUs;
  return test.kind === "above" ? interval.fromUs > test.boundUs : interval.toUs < test.boundUs;
}

/** A control's variable: with one fixed pulse where it is given, else with all positions or intervals that arrive. */
export function controlVariable(
  control: ControlSpec,
  cuts: readonly Cuts[],
  { pulseUs, twoLevel }: ChannelLimits,
): BoardVariable {
  const base = { name: control.name, channel: control.channel, control };
  if (pulseUs !== undefined) {
    const position = nearestPosition(control, pulseUs);
    return { ...base, intervals: [{ position, fromUs: pulseUs, toUs: pulseUs }], rangeUs: null };
  }
  if (control.kind !== "dial") {
    const intervals = control.positions.map(({ name, pulseUs: us }) => ({ position: name, fromUs: us, toUs: us }));
    return { ...base, intervals: twoLevel ? outermost(intervals) : intervals, rangeUs: null };
  }
  return { ...base, ...intervalsOfRange(wholeRange(control.fromUs ?? 0, control.toUs ?? 0), cuts, twoLevel) };
}

/** The variable of a channel that no control drives. */
export function channelVariable(
  channel: number,
  endsUs: PulseRange,
  cuts: readonly Cuts[],
  { twoLevel }: ChannelLimits,
): BoardVariable {
  const range = wholeRange(endsUs.fromUs, endsUs.toUs);
  return { name: `ch${channel}`, channel, control: null, ...intervalsOfRange(range, cuts, twoLevel) };
}

/** The intervals of a range, or its two ends where only these arrive. */
function intervalsOfRange(
  range: PulseRange,
  cuts: readonly Cuts[],
  twoLevel: boolean,
): Pick<BoardVariable, "intervals" | "rangeUs"> {
  if (!twoLevel) return { intervals: splitRange(range, cuts), rangeUs: range };
  const ends = [range.fromUs, range.toUs].map((us) => ({ position: null, fromUs: us, toUs: us }));
  return { intervals: outermost(ends), rangeUs: null };
}

/** The intervals of the lowest and of the highest pulse, in the order given. */
function outermost(intervals: readonly PulseInterval[]): readonly PulseInterval[] {
  const pulses = intervals.map(({ fromUs }) => fromUs);
  const ends = [pulses.indexOf(Math.min(...pulses)), pulses.indexOf(Math.max(...pulses))];
  return intervals.filter((_, i) => ends.includes(i));
}

/**
 * The position as which a pulse counts: the one with the nearest pulse, of two equally near ones the
 * lower. Null for a dial.
 */
function nearestPosition(control: ControlSpec, pulseUs: number): string | null {
  let best: ControlSpec["positions"][number] | null = null;
  for (const position of control.positions) {
    const gain = best === null ? 1 : Math.abs(best.pulseUs - pulseUs) - Math.abs(position.pulseUs - pulseUs);
    if (best === null || gain > 0 || (gain === 0 && position.pulseUs < best.pulseUs)) best = position;
  }
  return best?.name ?? null;
}

/** The values as which a position or a pulse may arrive: one; both ends, if it is half-way between two levels; none, if it does not exist. */
export function valuesAt(variable: BoardVariable, at: string | number): readonly number[] {
  const { intervals, control, rangeUs } = variable;
  if (intervals.length === 1) return [0];
  const wholeUs = (us: number): number => (rangeUs === null ? us : Math.round(us));
  const exact = intervals.findIndex((interval) =>
    typeof at === "string" ? interval.position === at : covers(interval, wholeUs(at)),
  );
  if (exact >= 0) return [exact];
  // Only on a channel with two levels is a position no value: it arrives as the nearer end.
  const place = control?.positions.find(({ name, pulseUs }) => name === at || pulseUs === at);
  const pulseUs = place?.pulseUs ?? (control === null || control.kind === "dial" ? at : null);
  if (typeof pulseUs !== "number" || rangeUs !== null) return [];
  const [lower, upper] = intervals.map(({ fromUs }) => fromUs) as [number, number];
  if (pulseUs < Math.min(lower, upper) || pulseUs > Math.max(lower, upper)) return [];
  const nearer = Math.abs(pulseUs - lower) - Math.abs(pulseUs - upper);
  if (nearer === 0) return [0, 1];
  return [nearer < 0 ? 0 : 1];
}

function covers({ fromUs, toUs }: PulseInterval, pulseUs: number): boolean {
  return fromUs <= pulseUs && pulseUs <= toUs;
}

function wholeRange(a: number, b: number): PulseRange {
  const fromUs = Math.ceil(Math.min(a, b));
  const toUs = Math.floor(Math.max(a, b));
  // A range between two whole numbers contains no whole us, so the nearest below is taken.
  if (fromUs > toUs) return { fromUs: toUs, toUs };
  return { fromUs, toUs };
}

/** The intervals of a range between the cuts of all tests. */
function splitRange(range: PulseRange, cuts: readonly Cuts[]): PulseInterval[] {
  const starts = new Set<number>([range.fromUs]);
  for (const { fromUs, beyondUs } of cuts) {
    for (const cut of [fromUs, beyondUs]) if (cut > range.fromUs && cut <= range.toUs) starts.add(cut);
  }
  const sorted = [...starts].sort((a, b) => a - b);
  return sorted.map((fromUs, i) => ({ position: null, fromUs, toUs: (sorted[i + 1] ?? range.toUs + 1) - 1 }));
}
