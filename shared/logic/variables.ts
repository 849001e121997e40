/**
 * The variables of a board and their values. A switch, selector or button has one value for each
 * position. A dial, or a channel without a control, takes any whole number of microseconds of its
 * range; its values are the stretches between the bounds that conditions name, so that no
 * condition can tell two pulses of one stretch apart.
 */
import type { Condition } from "../syntax/condition.ts";
import type { ControlSpec, PulseRange, Variable } from "./types.ts";

/** A value: a position with its pulse, or a stretch of whole us with both ends, rising. */
export interface Cell {
  readonly position: string | null;
  readonly fromUs: number;
  readonly toUs: number;
}

export interface BoardVariable extends Variable {
  readonly cells: readonly Cell[];
  /** The range of a dial or channel in whole us, rising; null for the others and where the pulse is given. */
  readonly rangeUs: PulseRange | null;
}

type PulseTest = Extract<Condition, { kind: "in" | "above" | "below" }>;

/** Where a test starts and ceases to pass: the first whole us that passes and the first that no longer does. */
export interface Cuts {
  readonly fromUs: number;
  readonly beyondUs: number;
}

/** Bounds need not be whole, pulses are: `above 1500.5` starts to pass at 1501, as `above 1500` does. */
export function cutsOf(test: PulseTest): Cuts {
  if (test.kind === "in") return { fromUs: Math.ceil(test.fromUs), beyondUs: Math.floor(test.toUs) + 1 };
  if (test.kind === "above") return { fromUs: Math.floor(test.boundUs) + 1, beyondUs: Number.POSITIVE_INFINITY };
  return { fromUs: Number.NEGATIVE_INFINITY, beyondUs: Math.ceil(test.boundUs) };
}

/** Does every pulse of a cell pass? Cells are cut at the bounds, so that all of one do or none does. */
export function passes(test: PulseTest, cell: { readonly fromUs: number; readonly toUs: number }): boolean {
  if (test.kind === "in") return test.fromUs <= cell.fromUs && cell.toUs <= test.toUs;
  return test.kind === "above" ? cell.fromUs > test.boundUs : cell.toUs < test.boundUs;
}

/** A control's variable: of a fixed pulse where one is given, else of all its positions or stretches. */
export function controlVariable(
  control: ControlSpec,
  cuts: readonly Cuts[],
  pulseUs: number | undefined,
): BoardVariable {
  const base = { name: control.name, channel: control.channel, control };
  if (pulseUs !== undefined) {
    const position = nearestPosition(control, pulseUs);
    return { ...base, cells: [{ position, fromUs: pulseUs, toUs: pulseUs }], rangeUs: null };
  }
  if (control.kind !== "dial") {
    const cells = control.positions.map(({ name, pulseUs: us }) => ({ position: name, fromUs: us, toUs: us }));
    return { ...base, cells, rangeUs: null };
  }
  const rangeUs = wholeRange(control.fromUs ?? 0, control.toUs ?? 0);
  return { ...base, cells: stretches(rangeUs, cuts), rangeUs };
}

/** The variable of a channel that no control drives. */
export function channelVariable(channel: number, endpointsUs: PulseRange, cuts: readonly Cuts[]): BoardVariable {
  const rangeUs = wholeRange(endpointsUs.fromUs, endpointsUs.toUs);
  return { name: `ch${channel}`, channel, control: null, cells: stretches(rangeUs, cuts), rangeUs };
}

/**
 * The position that a pulse stands for: its edges lie half-way to the neighbouring positions and
 * reach the ends of the scale at the outermost. Exactly half-way counts for the lower one. Null
 * for a dial.
 */
export function nearestPosition(control: ControlSpec, pulseUs: number): string | null {
  let best: ControlSpec["positions"][number] | null = null;
  for (const position of control.positions) {
    const gain = best === null ? 1 : Math.abs(best.pulseUs - pulseUs) - Math.abs(position.pulseUs - pulseUs);
    if (best === null || gain > 0 || (gain === 0 && position.pulseUs < best.pulseUs)) best = position;
  }
  return best?.name ?? null;
}

/** The value that holds a position or a pulse; -1 where there is none. */
export function cellAt(variable: BoardVariable, at: string | number): number {
  if (variable.cells.length === 1) return 0;
  if (typeof at === "string") return variable.cells.findIndex((cell) => cell.position === at);
  if (variable.rangeUs === null) return variable.cells.findIndex((cell) => cell.fromUs === at);
  const pulseUs = Math.round(at);
  return variable.cells.findIndex((cell) => cell.fromUs <= pulseUs && pulseUs <= cell.toUs);
}

function wholeRange(a: number, b: number): PulseRange {
  const fromUs = Math.ceil(Math.min(a, b));
  const toUs = Math.floor(Math.max(a, b));
  // A range between two whole numbers holds no whole us: the nearest one stands for it.
  if (fromUs > toUs) return { fromUs: toUs, toUs };
  return { fromUs, toUs };
}

/** Cuts a range wherever some test starts to pass or ceases to. */
function stretches(range: PulseRange, cuts: readonly Cuts[]): Cell[] {
  const starts = new Set<number>([range.fromUs]);
  for (const { fromUs, beyondUs } of cuts) {
    for (const cut of [fromUs, beyondUs]) if (cut > range.fromUs && cut <= range.toUs) starts.add(cut);
  }
  const sorted = [...starts].sort((a, b) => a - b);
  return sorted.map((fromUs, i) => ({ position: null, fromUs, toUs: (sorted[i + 1] ?? range.toUs + 1) - 1 }));
}
