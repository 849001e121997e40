/** Maps the controls that a script's conditions name to those of another handset: pure, and no more than a proposal. */
import type { ControlPlace } from "../syntax/value.ts";
import type { ControlSpec } from "./switchboard-types.ts";

/** A control of a handset, with its place where the script says it. */
export interface PlacedControl extends ControlSpec {
  readonly lies?: ControlPlace | null;
}

/** A control as conditions use it. */
export interface UsedControl {
  readonly name: string;
  /** The positions that conditions name, in the order of the text. */
  readonly positions: readonly string[];
  /** Conditions test its pulse, or a setting follows it. */
  readonly isPulsed: boolean;
  /** The control itself, where the handset that the script was written for is known. */
  readonly spec?: PlacedControl | undefined;
}

/** By what a counterpart was found; `left`: it is the first that is left and can do what is asked. */
export type MappedBy = "channel" | "name" | "place" | "positions" | "kind" | "left" | "choice";

export interface MappedControl {
  readonly by: MappedBy;
  readonly from: string;
  readonly to: string;
  /** For each position that conditions name, the one that takes its place. */
  readonly positions: ReadonlyMap<string, string>;
}

/**
 * For each used control one of the handset's, no two the same: by channel where the old one is known and kind and
 * positions allow it, else by name, place, kind and number of positions, in the handset's order. Those without a counterpart
 * are left out. `taken`: controls of the handset that are spoken for.
 */
export function mapControls(
  used: readonly UsedControl[],
  handset: readonly PlacedControl[],
  taken: ReadonlySet<string> = new Set(),
): MappedControl[] {
  const free = new Set(handset.filter(({ name }) => !taken.has(name)));
  const mapped = new Map<UsedControl, MappedControl>();
  const rounds: [MappedBy, (from: UsedControl, to: PlacedControl) => boolean][] = [
    ["channel", (from, to) => from.spec?.channel === to.channel],
    ["name", (from, to) => from.name.toLowerCase() === to.name.toLowerCase()],
    ["place", (from, to) => isSamePlace(from.spec?.lies, to.lies)],
    [
      "positions",
      (from, to) =>
        from.positions.length > 0 && from.positions.every((each) => hasPosition(to, each)) && isLike(from, to),
    ],
    ["kind", isLike],
    ["left", () => true],
  ];
  for (const [by, isMeant] of rounds) {
    for (const from of used) {
      if (mapped.has(from)) continue;
      const to = [...free].find((each) => canStandFor(from, each) && isMeant(from, each));
      if (!to) continue;
      mapped.set(from, mapTo(from, to, by));
      free.delete(to);
    }
  }
  return used.flatMap((from) => mapped.get(from) ?? []);
}

/** One control mapped to another that can stand for it. */
export function mapTo(from: UsedControl, to: PlacedControl, by: MappedBy): MappedControl {
  return { by, from: from.name, to: to.name, positions: mapPositions(from, to) };
}

function isSamePlace(a: ControlPlace | null | undefined, b: ControlPlace | null | undefined): boolean {
  return !!a && !!b && a.face !== null && a.side === b.side && a.face === b.face;
}

function hasPosition(control: ControlSpec, name: string): boolean {
  return control.positions.some((position) => position.name === name);
}

/** Whether a control can do all that conditions ask of another: enough positions, or a pulse between them. */
export function canStandFor(from: UsedControl, to: ControlSpec): boolean {
  if (from.positions.length > 0) return to.kind !== "dial" && to.positions.length >= positionsOf(from);
  return from.spec === undefined || (from.spec.kind === "dial") === (to.kind === "dial");
}

/** How many positions a control must have had: those that are known, or else named; for one in the middle, three. */
function positionsOf({ positions, spec }: UsedControl): number {
  const places = spec?.positions.map(({ name }) => name) ?? [];
  const isBetween = (name: string) => {
    const at = places.indexOf(name);
    return at < 0 ? rankOf(name) === 1 : at > 0 && at < places.length - 1;
  };
  return Math.max(
    positions.length,
    positions.some(isBetween) ? 3 : 0,
    spec?.kind === "dial" ? 0 : Math.min(places.length, positions.length + 1),
  );
}

/** Whether kind and number of positions are the same, as far as conditions tell them. */
function isLike(from: UsedControl, to: ControlSpec): boolean {
  if (from.spec) return from.spec.kind === to.kind && from.spec.positions.length === to.positions.length;
  if (from.isPulsed && from.positions.length === 0) return to.kind === "dial";
  if (from.positions.some((each) => OF_BUTTONS.has(each.toLowerCase()))) return to.kind === "button";
  const count = from.positions.some((each) => rankOf(each) === 1) ? 3 : Math.max(2, from.positions.length);
  return to.kind !== "button" && to.positions.length === count;
}

const OF_BUTTONS = new Set(["held", "pressed", "pushed"]);

/**
 * A position for each that conditions name: by name where all are there, since that is where the hand goes; else by
 * their places in the old control where it is known, else by what the names usually mean.
 */
function mapPositions(from: UsedControl, to: ControlSpec): ReadonlyMap<string, string> {
  const { positions, spec } = from;
  const all = spec?.positions.map(({ name }) => name) ?? [];
  const mapped = new Map<string, string>();
  const left = to.positions.map(({ name }) => name);
  if (positions.every((name) => left.includes(name))) for (const name of positions) mapped.set(name, name);
  else if (positions.every((name) => all.includes(name))) {
    const inOrder = all.filter((name) => positions.includes(name));
    const places = spreadOver(
      inOrder.map((name) => all.indexOf(name)),
      all.length,
      left.length,
    );
    for (const [i, name] of inOrder.entries()) mapped.set(name, left[places[i]!]!);
  } else {
    const inOrder = [...positions].sort((a, b) => (rankOf(a) ?? UNKNOWN) - (rankOf(b) ?? UNKNOWN));
    for (const [i, name] of inOrder.entries()) mapped.set(name, left[placeFor(name, i, inOrder.length, left.length)]!);
  }
  return new Map(positions.map((name) => [name, mapped.get(name) ?? name]));
}

/**
 * Rising places among `from` ones, as places among `to`: an end stays an end, what lies between stays between where
 * there is room, and no two become one. There are no more of them than `to`.
 */
function spreadOver(places: readonly number[], from: number, to: number): number[] {
  const spread = places.map((place) => {
    if (place === 0 || from < 2) return 0;
    if (place === from - 1) return to - 1;
    return Math.max(1, Math.min(to - 2, Math.round((place / (from - 1)) * (to - 1))));
  });
  for (let i = 1; i < spread.length; i++) spread[i] = Math.max(spread[i]!, spread[i - 1]! + 1);
  for (let i = spread.length - 1; i >= 0; i--) spread[i] = Math.min(spread[i]!, (spread[i + 1] ?? to) - 1);
  return spread;
}

/** The place of a position among those of another control: the ends are ends, and the order is kept. */
function placeFor(name: string, index: number, count: number, places: number): number {
  if (count === places) return index;
  const rank = rankOf(name);
  if (count === 1) return rank === 0 ? 0 : rank === 1 && places > 2 ? Math.floor(places / 2) : places - 1;
  if (count === 2 && rank === 1) return Math.floor(places / 2);
  return index === count - 1 ? places - 1 : index;
}

const UNKNOWN = 1.5;
const RANKS: readonly (readonly string[])[] = [
  ["up", "away", "off", "rest", "out", "low", "one", "back", "safe", "released", "min", "left"],
  ["mid", "middle", "centre", "center", "half"],
  ["down", "near", "on", "held", "in", "high", "front", "forward", "free", "pressed", "pushed", "max", "right"],
];

/** Where a position of this name usually lies: 0 first, 1 in the middle, 2 last; undefined if the name does not tell. */
function rankOf(name: string): number | undefined {
  const rank = RANKS.findIndex((names) => names.includes(name.toLowerCase()));
  return rank < 0 ? undefined : rank;
}

/** A mapping in words: “TL → SA, TR → SB (up → back, down → front)”. */
export function mappingInWords(mapping: readonly MappedControl[]): string {
  return mapping
    .map(({ from, to, positions }) => {
      const changed = [...positions].filter(([before, after]) => before !== after);
      const words = changed.map(([before, after]) => `${before} → ${after}`).join(", ");
      return `${from} → ${to}${words === "" ? "" : ` (${words})`}`;
    })
    .join(", ");
}
