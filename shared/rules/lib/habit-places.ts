/** Where the hand finds a mode: what it has to move, and to where, from rest. */
import { boardOf } from "../../logic/from-craft.ts";
import type { Demand, PulseRange, Switchboard, Variable } from "../../logic/switchboard-types.ts";
import type { Craft } from "../../model/craft.ts";
import type { HabitPlace } from "../../model/habits.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { ControlValue } from "../../syntax/value.ts";

/** A way into a mode has more ways beside it than anybody keeps in mind. */
const MOST_WAYS = 24;
/** As many ways as are told. */
const MOST_TOLD = 3;
/** Channels 1 to 4 carry the sticks. */
const STICKS = 4;

/** A demand as it is compared, and as it is told. */
interface Part {
  readonly control: string;
  /** Positions, or thirds of a travel, in alphabetical order. */
  readonly at: readonly string[];
  readonly key: string;
  readonly words: string;
}

/**
 * The place of a mode; null where it is not known, or where no state turns the mode on, or every one. Of each way in which the mode
 * comes on, what is so at rest anyway counts for nothing, and neither does what arms the craft nor where a stick is:
 * with or without it the hand makes the same movement. Where nothing else is left, that is the place.
 */
export function habitPlace(craft: Craft, workspace: Workspace, mode: string): HabitPlace | null {
  const board = boardOf(craft, workspace);
  const ways = waysOf(board, mode);
  // What is on all the time is nowhere: no hand looks for it.
  if (ways === null || ways.some((demands) => demands.length === 0)) return null;
  const names = handsetNames(craft, workspace);
  const partsOf = (demands: readonly Demand[]) => demands.map((each) => partOf(each, names));
  const arming = mode === "arm" ? [] : (waysOf(board, "arm") ?? []).flatMap((demands) => moved(demands, board));
  const isArming = new Set(partsOf(arming).map(({ key }) => key));
  const reduced = ways.map((demands) => {
    const hand = moved(demands, board);
    const [left, all] = [partsOf(hand), partsOf(demands)];
    const own = left.filter(({ key }) => !isArming.has(key));
    return own.length > 0 ? own : left.length > 0 ? left : all;
  });
  return placeOf(withoutLonger(reduced));
}

/** Every way into a mode; null where they are not known, are too many, or there is none. */
function waysOf(board: Switchboard, mode: string): (readonly Demand[])[] | null {
  const set = board.selected(mode);
  if (set === null || set === board.sets.none) return null;
  const { all, complete } = board.waysTo(set, MOST_WAYS);
  return complete ? all.map(({ demands }) => demands) : null;
}

/** Without what is so at rest, and without sticks. */
function moved(demands: readonly Demand[], { rest }: Switchboard): Demand[] {
  return demands.filter(({ variable: { name, channel, control }, positions }) => {
    if (control === null) return channel > STICKS;
    return control.kind === "dial" || !positions.includes(String(rest[name]));
  });
}

/** Of two ways of which one is open wherever the other is, the hand learns that one. */
function withoutLonger(ways: readonly (readonly Part[])[]): Part[][] {
  const sorted = ways.map((parts) => [...parts].sort((a, b) => (a.key < b.key ? -1 : 1)));
  const maps = sorted.map(wayOf);
  return sorted.filter(
    (_, i) => !maps.some((other, j) => i !== j && opens(other, maps[i]!) && (j < i || !opens(maps[i]!, other))),
  );
}

type Way = HabitPlace["ways"][number];

function wayOf(parts: readonly Part[]): Way {
  return new Map(parts.map(({ control, at }) => [control, at]));
}

/** Whether a way is open wherever another is. */
function opens(way: Way, other: Way): boolean {
  return [...way].every(([control, at]) => other.get(control)?.every((each) => at.includes(each)) ?? false);
}

/** Whether a mode is on at one place wherever it is at the other, and elsewhere perhaps as well. */
export function includesPlace({ ways }: HabitPlace, other: HabitPlace): boolean {
  return other.ways.every((theirs) => ways.some((own) => opens(own, theirs)));
}

/**
 * Whether at one place no more is asked for than at another but by what guards it: each way stands there too, with
 * further controls of which the guard is one.
 */
export function isGuarded(
  now: HabitPlace,
  bare: HabitPlace,
  isGuard: (control: string, at: readonly string[]) => boolean,
) {
  const within = (way: Way, own: Way) => [...way].every(([control, at]) => isSame(own.get(control), at));
  const guards = (way: Way, own: Way) => [...own].every(([control, at]) => way.has(control) || isGuard(control, at));
  return (
    now.ways.every((own) => bare.ways.some((way) => within(way, own) && guards(way, own))) &&
    bare.ways.every((way) => now.ways.some((own) => within(way, own) && guards(way, own)))
  );
}

function isSame(a: readonly string[] | undefined, b: readonly string[]): boolean {
  return a?.length === b.length && a.every((each, i) => each === b[i]);
}

function placeOf(ways: readonly (readonly Part[])[]): HabitPlace {
  const texts = ways
    .map((parts) => ({
      key: parts.map(({ key }) => key).join(" and "),
      words: parts.map(({ words }) => words).join(" with "),
    }))
    .sort((a, b) => (a.key < b.key ? -1 : 1));
  const told = texts.slice(0, MOST_TOLD).map(({ words }) => words);
  const more = texts.length - told.length;
  return {
    key: texts.map(({ key }) => key).join(" or "),
    ways: ways.map(wayOf),
    words: told.join(", or ") + (more > 0 ? `, or ${more} more ways` : ""),
  };
}

function partOf({ variable, positions, pulses }: Demand, names: HandsetNames): Part {
  const control = names.control(variable);
  const isNamed = positions.length > 0;
  const places = isNamed
    ? positions.map((each) => names.position(variable, firstAlike(variable, each)))
    : pulses.map((each) => thirdOf(each, variable));
  const at = [...new Set(places)].sort();
  const words = isNamed ? positions.join(" or ") : `at ${pulses.map(rangeWords).join(" or ")}`;
  return { control, at, key: `${control} ${at.join("/")}`, words: `${variable.name} ${words}` };
}

/** Positions that send one pulse are one to the craft. */
function firstAlike({ control }: Variable, position: string): string {
  const all = control?.positions ?? [];
  const pulse = all.find(({ name }) => name === position)?.pulseUs;
  return all.find(({ pulseUs }) => pulseUs === pulse)?.name ?? position;
}

function rangeWords({ fromUs, toUs }: PulseRange): string {
  return fromUs === toUs ? `${fromUs} us` : `${fromUs} to ${toUs} us`;
}

/** A hand turns a dial to about a third of its travel: the middle of a range tells which. */
function thirdOf({ fromUs, toUs }: PulseRange, { control }: Variable): string {
  const [start, end] = [control?.fromUs ?? 1000, control?.toUs ?? 2000];
  const share = start === end ? 0.5 : ((fromUs + toUs) / 2 - start) / (end - start);
  return share < 1 / 3 ? "low" : share > 2 / 3 ? "high" : "middle";
}

/** A craft may say a control anew, under other names: the hand holds the same lever. */
interface HandsetNames {
  control(variable: Variable): string;
  position(variable: Variable, position: string): string;
}

const AS_WRITTEN: HandsetNames = { control: ({ name }) => name, position: (_, position) => position };

/** By the handset's own lines: a control of the same name, else the one on the same channel; a position likewise, by its pulse. */
function handsetNames(craft: Craft, workspace: Workspace): HandsetNames {
  const isRestated = [...craft.controls.values()].some(({ fromHandset }) => !fromHandset);
  const handset = isRestated && craft.handset ? workspace.craftLike(craft.handset.file) : null;
  if (!handset) return AS_WRITTEN;
  const values = [...handset.controls].flatMap(([name, { value }]) => (value ? [[name, value] as const] : []));
  const standing = ({ name, channel }: Variable): readonly [string, ControlValue] | undefined =>
    values.find(([own]) => own === name) ?? values.find(([, value]) => value.channel === channel);
  return {
    control: (variable) => standing(variable)?.[0] ?? variable.name,
    position(variable, position) {
      const known = standing(variable)?.[1].positions ?? [];
      if (known.some(({ name }) => name === position)) return position;
      const pulse = variable.control?.positions.find(({ name }) => name === position)?.pulseUs;
      return known.find(({ pulseUs }) => pulseUs === pulse)?.name ?? position;
    },
  };
}
