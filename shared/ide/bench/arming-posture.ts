/** How a craft is armed on the bench: where its controls stand, the movements that arm it, and those that leave something out. */
import { boardOf } from "../../logic/from-craft.ts";
import type { Positions, StateSet, Switchboard } from "../../logic/switchboard-types.ts";
import type { BenchView } from "./bench-view.ts";
import type { ControlWords } from "./control-words.ts";

type Place = string | number;

export interface HandMove {
  readonly name: string;
  readonly to: Place;
}

/** A try that leaves one control where it does not arm. */
export interface LeftOut {
  readonly name: string;
  readonly at: Place;
  /** The movements of all the others. */
  readonly moves: readonly HandMove[];
  /** Whether `arm` itself is on then, so that only the permit is missing. */
  readonly armIsOn: boolean;
}

export interface Posture {
  /** Disarmed: every control at rest, but for what has to be moved for that. */
  readonly base: Positions;
  /** Controls that are not at rest there; dials only where they matter. */
  readonly baseMoves: readonly HandMove[];
  /** What arms it from there: what gives the permit first, and what arms last. */
  readonly moves: readonly HandMove[];
  /** What disarms it again; null where nothing does. */
  readonly back: readonly HandMove[] | null;
  readonly leftOut: readonly LeftOut[];
  /** Positions that select turtle although they arm, of a control that is not moved for arming; null where there are none. */
  readonly turtle: "never" | "avoided" | "always";
  /** The permit is on wherever `arm` is. */
  readonly permitIsIdle: boolean;
  /** With every control at rest the craft is armed, or may be. */
  readonly armsAtRest: boolean;
}

export type PostureFound =
  | { readonly kind: "posture"; readonly posture: Posture }
  /** `never`: no position arms; `tangled`: what arms is not known; `channels`: it hangs on channels that nobody moves. */
  | { readonly kind: "never" }
  | { readonly kind: "unknown" }
  | { readonly kind: "channels"; readonly channels: readonly string[] };

/** The posture of a craft that a mode arms. */
export function postureOf(view: BenchView, words: ControlWords): PostureFound {
  const board = boardOf(view.craft, view.workspace);
  const { sets } = board;
  const armed = board.armed;
  if (armed === null) return { kind: "unknown" };
  if (armed === sets.none) return { kind: "never" };
  const unmoved = board.variables.map(({ name }) => name).filter((name) => !words.isMoved(name));
  const sure = sets.all(armed, unmoved);
  const off = sets.all(sets.not(armed), unmoved);
  if (sure === null || off === null) return { kind: "unknown" };
  if (sure === sets.none)
    return { kind: "channels", channels: sets.dependsOn(armed).filter((name) => unmoved.includes(name)) };
  const rest: Positions = { ...board.rest, ...asked(words.sticksAtRest, board) };
  const start = off === sets.none ? null : board.witness(off, rest);
  const dials = new Set(board.variables.flatMap(({ name, control }) => (control?.kind === "dial" ? [name] : [])));
  const base = start === null ? rest : within(start.positions, (name) => !dials.has(name) || name in start.needed);
  const turtle = board.selected("turtle");
  const upright = turtle === null ? sure : sets.and(sure, sets.not(turtle));
  const isClash = upright === sets.none;
  const target = upright === null || isClash ? sure : upright;
  const found = board.witness(target, { ...base, ...within(start?.positions ?? {}, (name) => dials.has(name)) })!;
  const at = {
    ...base,
    ...within(
      found.positions,
      (name) => name in found.needed || (name in base && base[name] !== found.positions[name]),
    ),
  };
  const moves = inOrder(board, movesBetween(board, base, at));
  // Most boards look at the permit in the moment of arming alone, so what disarms is that `arm` goes off.
  const disarmed = sets.all(sets.not(board.selected("arm") ?? sets.none), unmoved);
  const away = disarmed === null || disarmed === sets.none ? off : disarmed;
  const back = away === sets.none ? null : wayBack(board, away, { base, at, moves });
  const names = Object.keys(found.needed).filter((name) => words.isMoved(name));
  const meets = (positions: Positions, set: StateSet | null) => sets.meet(sets.where(positions), set) !== false;
  return {
    kind: "posture",
    posture: {
      base,
      baseMoves: movesBetween(board, rest, base),
      moves,
      back,
      leftOut: names.flatMap((name) => leftOutOf(board, { name, at, base, moves }) ?? []),
      turtle: isClash ? "always" : turtle !== null && sets.meet(sure, turtle) === true ? "avoided" : "never",
      permitIsIdle:
        view.mode("arm-permit") !== null && sets.within(board.selected("arm"), board.selected("arm-permit")) === true,
      armsAtRest: meets(rest, armed),
    },
  };
}

interface Armed extends Pick<Posture, "base" | "moves"> {
  readonly at: Positions;
}

/** What was moved last goes back, where that disarms; else the fewest movements that do. */
function wayBack(board: Switchboard, away: StateSet, { base, at, moves }: Armed): readonly HandMove[] {
  const { sets } = board;
  for (const { name } of moves.toReversed()) {
    const to = base[name];
    if (to !== undefined && sets.within(sets.where({ ...at, [name]: to }), away)) return [{ name, to }];
  }
  return movesBetween(board, at, board.witness(away, at)!.positions).filter(({ name }) => name in at);
}

function asked(positions: Positions, board: Switchboard): Positions {
  return within(positions, (name) => board.variables.some((variable) => variable.name === name));
}

function within(positions: Positions, test: (name: string) => boolean): Positions {
  return Object.fromEntries(Object.entries(positions).filter(([name]) => test(name)));
}

function movesBetween(board: Switchboard, from: Positions, to: Positions): HandMove[] {
  return board.variables.flatMap(({ name }) => (name in to && to[name] !== from[name] ? { name, to: to[name]! } : []));
}

/**
 * What gives the permit first, since most boards look at it in the moment of arming; of the rest sticks and dials, then
 * what has to be held, and the switch last.
 */
function inOrder(board: Switchboard, moves: readonly HandMove[]): readonly HandMove[] {
  const arm = board.selected("arm");
  const names = arm === null ? [] : board.sets.dependsOn(arm);
  const rank = ({ name }: HandMove): number => {
    const kind = board.variables.find((variable) => variable.name === name)?.control?.kind ?? "dial";
    return (names.includes(name) ? 3 : 0) + (kind === "dial" ? 0 : kind === "button" ? 1 : 2);
  };
  return [...moves].sort((a, b) => rank(a) - rank(b));
}

interface Asked extends Pick<Posture, "base" | "moves"> {
  readonly name: string;
  readonly at: Positions;
}

/** The try without one control: at its place before, or else at the first of its places at which the craft stays disarmed. */
function leftOutOf(board: Switchboard, { name, at, base, moves }: Asked): LeftOut | null {
  const { sets, armed } = board;
  const others = moves.filter((move) => move.name !== name);
  const stays = name in base && base[name] !== at[name] ? [base[name]!] : [];
  // With nothing else to move it would be the beginning of each try.
  if (stays.length > 0 && others.length === 0) return null;
  const turtle = board.selected("turtle");
  const disarmed = [...stays, ...placesOf(board, name)].filter(
    (place) => sets.meet(sets.where({ ...at, [name]: place }), armed) === false,
  );
  const upright = disarmed.find((place) => sets.meet(sets.where({ ...at, [name]: place }), turtle) === false);
  const place = upright ?? disarmed[0];
  if (place === undefined) return null;
  const armIsOn = sets.within(sets.where({ ...at, [name]: place }), board.selected("arm")) === true;
  return { name, at: place, moves: others, armIsOn };
}

/** The places of a control; of a dial or a channel the ends of the range, and the middles of what conditions tell apart. */
function placesOf(board: Switchboard, name: string): readonly Place[] {
  const variable = board.variables.find((each) => each.name === name)!;
  if (variable.control && variable.control.kind !== "dial") return variable.control.positions.map((each) => each.name);
  const { fromUs, toUs } = board.wholeSpan(variable);
  const map = board.map();
  const spans =
    map.controls.find(({ control }) => control.name === name)?.spans ??
    map.channels.find(({ channel }) => channel === variable.channel)?.spans ??
    [];
  return [fromUs, toUs, ...spans.map((span) => Math.round((span.fromUs + span.toUs) / 2))];
}
