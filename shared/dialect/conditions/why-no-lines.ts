/** Why no lines of a board hold a condition exactly, in words: tried by asking less and less of the board. */
import type {
  BoxSpan,
  ControlSpec,
  RangeHolder,
  StateSet,
  Switchboard,
  Variable,
} from "../../logic/switchboard-types.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { EdgePlace } from "./edges.ts";
import type { BoardShape, RangePart, RangesShape } from "./shapes.ts";

/** As it continues “The board cannot say when arm is on: ”. */
export function whyNoLines(board: Switchboard, set: StateSet, shapes: readonly BoardShape[]): string {
  const ranged = shapes.filter((shape): shape is RangesShape => shape.kind === "ranges");
  if (ranged.length === 0) {
    return shapes.some(({ kind }) => kind === "mode")
      ? "its line only names another mode, and holds no ranges"
      : "its line can only say “always”";
  }
  const parts = ranged.flatMap((shape) => shape.parts);
  return (
    channelFault(board, set, parts) ??
    equalPulses(board, set) ??
    tooManyRanges(board, set, ranged) ??
    edgeFault(board, set, parts) ??
    "its states are no ranges of channels that these lines can hold together"
  );
}

function dependedOn(board: Switchboard, set: StateSet): readonly Variable[] {
  const names = board.sets.dependsOn(set);
  return board.variables.filter(({ name }) => names.includes(name));
}

function channelFault(board: Switchboard, set: StateSet, parts: readonly RangePart[]): string | null {
  for (const { name, channel, control } of dependedOn(board, set)) {
    const drivers = board.input.controls.filter((each) => each.channel === channel);
    if (drivers.length > 1)
      return `${joinWithAnd(drivers.map((each) => each.name))} share ch${channel}, so the board cannot tell which of them moved`;
    if (!parts.some((part) => part.channel.holds(channel)))
      return control
        ? `none of its lines can hold ch${channel}, the channel of ${name}`
        : `none of its lines can hold ${name}`;
  }
  return null;
}

/** Two positions with the same pulse that the condition tells apart. */
function equalPulses(board: Switchboard, set: StateSet): string | null {
  for (const { control } of dependedOn(board, set)) {
    for (const [i, one] of control?.positions.entries() ?? []) {
      const other = control!.positions.find(
        (each, j) => j > i && each.pulseUs === one.pulseUs && tells(board, set, control!, one.name, each.name),
      );
      if (other) return `${control!.name} sends ${one.pulseUs} us both at “${one.name}” and at “${other.name}”`;
    }
  }
  return null;
}

function tells({ sets }: Switchboard, set: StateSet, { name }: ControlSpec, one: string, other: string): boolean {
  return sets.given(set, { [name]: one }) !== sets.given(set, { [name]: other });
}

/** More ranges at once are not looked for. */
const MOST_TRIED = 6;

function tooManyRanges(board: Switchboard, set: StateSet, shapes: readonly RangesShape[]): string | null {
  const most = Math.max(...shapes.map(({ parts }) => parts.length));
  const channels = shapes.flatMap(({ parts }) => parts.map(({ channel }) => channel));
  // Whatever the edges: only how many ranges a line has is asked.
  const anyEdge: RangeHolder = { holds: ({ variable }) => channels.some((each) => each.holds(variable.channel)) };
  for (let count = most; count <= MOST_TRIED; count++) {
    const { boxes } = board.boxesWithin(set, new Array<RangeHolder>(count).fill(anyEdge));
    if (board.sets.or(...boxes.map((box) => box.set)) !== set) continue;
    if (count === most) return null;
    return `it asks for ${count} ranges at once, and a line of the board holds ${most}`;
  }
  return null;
}

/** Where no pulse that the board can say divides two positions, or reaches the outermost one. */
function edgeFault(board: Switchboard, set: StateSet, parts: readonly RangePart[]): string | null {
  for (const variable of dependedOn(board, set)) {
    const { name, channel, control } = variable;
    const own = parts.filter((part) => part.channel.holds(channel));
    const edges = own.flatMap(({ from, to }) => [from, to]);
    const rising = [...(control?.positions ?? [])].sort((a, b) => a.pulseUs - b.pulseUs);
    for (const [i, upper] of rising.entries()) {
      const lower = rising[i - 1];
      if (!lower || lower.pulseUs === upper.pulseUs || !tells(board, set, control!, lower.name, upper.name)) continue;
      const between = { fromUs: lower.pulseUs, toUs: upper.pulseUs, isFromOpen: true, isToOpen: true };
      if (edges.every((edge) => edge.within(between, (lower.pulseUs + upper.pulseUs) / 2) === null))
        return `no pulse that the board can say lies between the ${lower.pulseUs} us of “${lower.name}” and the ${upper.pulseUs} us of “${upper.name}” on ${name}`;
    }
    const beyond = reachFault(board.wholeSpan(variable), own);
    if (beyond !== null) return beyond;
  }
  // Steps that are too wide leave nothing between the edges of a narrow range.
  const tested = dependedOn(board, set).find(({ control }) => !control || control.kind === "dial");
  return tested ? `no pulses that the board can say are near enough to those that ${tested.name} is tested for` : null;
}

function reachFault({ variable, fromUs, toUs }: BoxSpan, parts: readonly RangePart[]): string | null {
  const most = (
    of: (part: RangePart) => EdgePlace,
    end: "lowestUs" | "highestUs",
    pick: (...all: number[]) => number,
  ) => {
    const ends = parts.map((part) => of(part)[end]);
    return ends.includes(null) ? null : pick(...(ends as number[]));
  };
  const lowUs = most(({ from }) => from, "lowestUs", Math.min);
  const highUs = most(({ to }) => to, "highestUs", Math.max);
  if (lowUs !== null && fromUs < lowUs)
    return `its ranges begin at ${lowUs} us, and ${variable.name} sends ${fromUs} us`;
  if (highUs !== null && toUs > highUs) return `its ranges end at ${highUs} us, and ${variable.name} sends ${toUs} us`;
  return null;
}
