/**
 * The input of the logic of switches, and its answers.
 *
 * A *state* gives every control a position (a dial: a whole number of microseconds of its range)
 * and every channel without a control that some condition names a whole number of microseconds
 * of the link's end points. A `StateSet` is a set of such states. Two sets of one switchboard
 * are equal if and only if they are the same value, so `===` compares them.
 *
 * Names: a mode by its name, an output as `outputs.NAME`, a channel as `ch9`.
 *
 * `null` in place of a set means that it is not known, because a line has a fault, a name is unknown,
 * conditions refer to each other in a cycle, or compiling a condition exceeds the budget of work
 * (`budget.ts`; messages call such a condition “too tangled”). The caller then makes no claim; the
 * reason has a finding of its own. `null` in place of a boolean likewise means not known, and is
 * never to be read as `false`.
 */
import type { Source } from "../model/craft.ts";
import type { Condition } from "../syntax/condition.ts";
import type { Cols } from "../syntax/span.ts";
import type { ControlKind } from "../syntax/value.ts";
import type { Cycle, Problem, UnsetReference } from "./condition-faults.ts";
import type { Tour, TourWish } from "./tour-types.ts";

// --- Input -------------------------------------------------------------------------

/** A control of the handset. A dial has no positions, no rest, and a range whose `fromUs` may be the higher end. */
export interface ControlSpec {
  readonly name: string;
  readonly kind: ControlKind;
  readonly channel: number;
  readonly positions: readonly { readonly name: string; readonly pulseUs: number }[];
  readonly rest: string | null;
  readonly fromUs: number | null;
  readonly toUs: number | null;
}

/** A mode, or an output as `outputs.NAME`: its condition is the disjunction of its lines. */
export interface ConditionSpec {
  readonly name: string;
  /** `condition` is null where the line has a fault. */
  readonly lines: readonly { readonly condition: Condition | null; readonly source: Source }[];
}

export interface SwitchInput {
  /** In the handset's order, which is the order of every answer. */
  readonly controls: readonly ControlSpec[];
  /** Controls whose line has a fault: a condition that names one is not known, but is no `Problem`. */
  readonly faultyControls?: readonly string[];
  /** False where no handset could be read: then a name that is not in `controls` is no `Problem`. */
  readonly handsetKnown?: boolean;
  readonly conditions: readonly ConditionSpec[];
  /** The pulses that a channel without a control may carry, both ends included. */
  readonly endpointsUs: PulseRange;
  /** The same for single channels, where more is known: of a stick, as measured. */
  readonly measuredUs?: ReadonlyMap<number, PulseRange>;
  /** Channels that carry only two levels: of a control there, the positions between its ends never arrive. */
  readonly twoLevelChannels?: readonly number[];
  /** While `over` is on, each of `under` does nothing, even where it is selected. */
  readonly precedence?: readonly { readonly over: string; readonly under: readonly string[] }[];
  readonly loss?: LossSpec;
}

export interface PulseRange {
  readonly fromUs: number;
  readonly toUs: number;
}

/** What the receiver does when the signal is lost; `pulsesUs` by channel, for `preset`. */
export interface LossSpec {
  readonly onLoss: "silent" | "hold" | "preset" | null;
  readonly pulsesUs: ReadonlyMap<number, number>;
}

// --- States ---------------------------------------------------------------------------------

declare const stateSet: unique symbol;
/** A set of states of one switchboard; never mix those of two. */
export type StateSet = number & { readonly [stateSet]: true };

/** For each control the name of its position, or for a dial a pulse in us; for `ch9` a pulse in us. Need not name all. */
export type Positions = Readonly<Record<string, string | number>>;

/** A variable of a state: a control, or a channel that no control drives. */
export interface Variable {
  /** As scripts name it: `TL`, `ch9`. */
  readonly name: string;
  readonly channel: number;
  /** Null for a channel that no control drives. */
  readonly control: ControlSpec | null;
}

/** A state of a set, as an example. */
export interface Witness {
  /** The whole state: every control, and every undriven channel that a condition names. */
  readonly positions: Positions;
  /** The part of it that suffices: with these positions every state is in the set. */
  readonly needed: Positions;
}

/**
 * Operations on the sets of one switchboard. Those that take `null` give `null` where a set is not
 * known, or where the operation exceeds `WorkBudget.question`.
 */
export interface Sets {
  readonly none: StateSet;
  readonly every: StateSet;
  and(...sets: readonly (StateSet | null)[]): StateSet | null;
  or(...sets: readonly (StateSet | null)[]): StateSet | null;
  /** Whether some state is in both. Cheaper than comparing `and` with `none`. */
  meet(a: StateSet | null, b: StateSet | null): boolean | null;
  /** Whether `inner` is a subset of `outer`. */
  within(inner: StateSet | null, outer: StateSet | null): boolean | null;
  /** Existential quantification: the states that are in the set for some values of these variables. */
  some(set: StateSet | null, variables: readonly string[]): StateSet | null;
  /** Universal quantification: the states that are in the set for all values of these variables. */
  all(set: StateSet | null, variables: readonly string[]): StateSet | null;
  not(set: StateSet): StateSet;
  /** The states with these positions; names that no condition depends on restrict nothing. */
  where(positions: Positions): StateSet;
  /** The cofactor: the set once these positions are fixed; depends on none of their variables. */
  given(set: StateSet, positions: Positions): StateSet;
  /** Names of the variables on which membership depends, in the board's order. */
  dependsOn(set: StateSet): readonly string[];
}

// --- Answers --------------------------------------------------------------------------------

/** The modes in the states with some positions. */
export interface StateReport {
  /** On in all of these states. */
  readonly on: readonly string[];
  /** On in some of them. */
  readonly possible: readonly string[];
  /** Names whose condition is not known. */
  readonly unknown: readonly string[];
}

/** One of the distinct sets of modes that the controls can reach. */
export interface DistinctState {
  readonly on: readonly string[];
  readonly witness: Witness;
}

/** Two modes that can be on together, with a state in which they are. */
export interface ModeClash {
  readonly modes: readonly [string, string];
  readonly witness: Witness;
}

/** The modes by position: a mode is listed at a position if it depends on that control and can be on there. */
export interface SwitchMap {
  readonly controls: readonly ControlMap[];
  /** Undriven channels that conditions name, by number. */
  readonly channels: readonly { readonly channel: number; readonly spans: readonly PulseSpan[] }[];
}

export interface ControlMap {
  readonly control: ControlSpec;
  /** In the handset's order; empty for a dial. */
  readonly positions: readonly { readonly name: string; readonly pulseUs: number; readonly modes: readonly string[] }[];
  /** For a dial, from its `from` end to its `to` end; empty for other controls. */
  readonly spans: readonly PulseSpan[];
}

/** A maximal range of whole us with the same modes, both ends included; ascending or descending as the dial is. */
export interface PulseSpan {
  readonly fromUs: number;
  readonly toUs: number;
  readonly modes: readonly string[];
}

/** Two positions adjacent by pulse that give the same modes in every state; in the order of the handset. */
export interface IdlePositions {
  readonly control: ControlSpec;
  readonly positions: readonly [string, string];
}

/** The distance of a position's pulse from the bound of a test on its channel. */
export interface Margin extends Cols {
  readonly control: ControlSpec;
  readonly position: string;
  readonly pulseUs: number;
  readonly boundUs: number;
  readonly marginUs: number;
  /** The mode or output whose condition contains the test. */
  readonly in: string;
  readonly source: Source;
}

/** What a mode does when the signal is lost. `kept`: stays as it was; `either`: depends on channels that are not preset. */
export type LossOutcome = "on" | "off" | "kept" | "either";

export interface LossState {
  /** What the receiver does; null where the craft does not set it. */
  readonly onLoss: LossSpec["onLoss"];
  /** By mode and output, without those whose condition is not known. */
  readonly outcomes: ReadonlyMap<string, LossOutcome>;
  readonly armed: LossOutcome | null;
  /** The modes that are certainly on once the signal is lost. */
  readonly on: readonly string[];
  /** Those that may be on: they stay as they were, or depend on a channel that is not preset. */
  readonly possible: readonly string[];
}

/** One move of one control (or one change of an undriven channel). */
export interface Move {
  readonly name: string;
  /** Null where its position was not given. */
  readonly from: string | number | null;
  readonly to: string | number;
}

/** A prime implicant of a set: with every demand met, a state is in the set, and no demand can be weakened or left out. */
export interface Way {
  readonly demands: readonly Demand[];
}

/** The values that a way allows for one variable. */
export interface Demand {
  readonly variable: Variable;
  /** Allowed positions, in the handset's order; empty for a dial or a channel. */
  readonly positions: readonly string[];
  /** Allowed pulses, both ends included, ascending; empty for other controls. */
  readonly pulses: readonly PulseRange[];
}

export interface Ways {
  /** An irredundant cover: their union is the set, and none can be left out. */
  readonly ways: readonly Way[];
  /** Every prime implicant, including those that the union of others contains. */
  readonly all: readonly Way[];
  /** False where there are more than the limit, or finding them exceeds the budget; then both lists have only some. */
  readonly complete: boolean;
}

/** A range of pulses that a variable may have, and the pulses next to it. */
export interface BoxSpan {
  readonly variable: Variable;
  /** The lowest and the highest pulse in it. */
  readonly fromUs: number;
  readonly toUs: number;
  /** The nearest pulses of the variable on either side; null where there is none. */
  readonly belowUs: number | null;
  readonly aboveUs: number | null;
  /** Any whole us may come between pulses: a dial, or a channel without a control. */
  readonly isContinuous: boolean;
}

/** Something that can hold one range: a board's line, or a part of one. */
export interface RangeHolder {
  holds(span: BoxSpan): boolean;
}

/** A product of ranges; `spans` in the board's order, each with the index of its holder. */
export interface Box {
  readonly set: StateSet;
  readonly spans: readonly { readonly holder: number; readonly span: BoxSpan }[];
}

export interface BoxSearch {
  readonly boxes: readonly Box[];
  readonly complete: boolean;
}

/** What a cover is chosen by besides the number of its sets. */
export interface CoverWish {
  /** Of covers with equally many the one with the least sum is taken. */
  cost(index: number): number;
  /** Whether a whole cover can be had, given the indexes of its sets. */
  accept(indexes: readonly number[]): boolean;
}

/** Some of the sets, whose union is the one asked for. */
export interface ChosenCover {
  /** Rising. */
  readonly indexes: readonly number[];
  /** Whether none with fewer exists. */
  readonly proven: boolean;
}

/** The answers about one craft. Made by `makeSwitchboard`; pure, apart from caches. */
export interface Switchboard {
  readonly input: SwitchInput;
  /** Controls in the handset's order, then the undriven channels that conditions name. */
  readonly variables: readonly Variable[];
  /** Every mode and output that is set up, in the order given. */
  readonly names: readonly string[];
  readonly problems: readonly Problem[];
  readonly unset: readonly UnsetReference[];
  readonly cycles: readonly Cycle[];
  /**
   * For every mode and output that is not known because compiling exceeded the budget: the name whose
   * condition exceeded it, its own or that of a mode on which it depends.
   */
  readonly tangles: ReadonlyMap<string, string>;
  readonly sets: Sets;

  /** The states in which a condition holds. `none` for a mode that is not set up; null where not known. */
  selected(name: string): StateSet | null;
  /** The states of `arm`, and of `arm-permit` too where it is set up; null where one is not known, or their intersection exceeds the budget. */
  readonly armed: StateSet | null;
  /** The states in which a mode is selected, and none that takes precedence over it is on. */
  acts(name: string): StateSet | null;

  /** Every switch, selector and button at its rest. */
  readonly rest: Positions;
  /** The states at rest: dials and undriven channels have any value. */
  readonly atRest: StateSet;

  /**
   * A state of the set, or null for `none` and for a set that is not known: one with the fewest
   * controls away from `near` (without it: from rest), with dials and channels in the middle of a range
   * of pulses that are all in the set.
   */
  witness(set: StateSet | null, near?: Positions): Witness | null;
  /** The modes with these positions; a variable that is not named may have any value. */
  stateAt(positions: Positions): StateReport;
  /**
   * A function that gives the lines that turn a mode or output on with these positions: those whose
   * own condition holds, or, where none certainly does, those that may. None for a mode that is off
   * or not known.
   */
  linesBehind(positions: Positions): (name: string) => readonly Source[];
  /** The fewest moves from these positions into the set; null for `none`. A variable that is not named moves at no cost. */
  movesTo(set: StateSet, from: Positions): readonly Move[] | null;
  /**
   * The prime implicants of the set, at most `limit` (200 without it). Over the budget the answer is
   * one implicant all the same, from a state near rest, and not `complete`.
   */
  waysTo(set: StateSet, limit?: number): Ways;
  /** The ways into a set that lead beyond `known`, each without the values that only lead into `known`. */
  waysBeyond(set: StateSet, known: StateSet, limit?: number): Pick<Ways, "ways" | "complete">;

  /**
   * The maximal boxes within a set that the holders can hold, each at most one range of a box; holders that are equal
   * are to be the same object. Not `complete` where there are too many, or finding them exceeds the budget.
   */
  boxesWithin(set: StateSet, holders: readonly RangeHolder[]): BoxSearch;
  /** All pulses of a variable, as a range. */
  wholeSpan(variable: Variable): BoxSpan;
  /**
   * The fewest of these sets whose union is the set, proven up to 12 of them. Null where the union of all is another
   * set, no cover is acceptable, or the work exceeds the budget.
   */
  fewestOf(set: StateSet, candidates: readonly StateSet[], wish: CoverWish): ChosenCover | null;

  /**
   * The number of distinct sets of modes that the controls can reach, the empty one included; modes
   * that are not known are left out. Exact up to 2^53, above that rounded as a double is. Null where
   * it takes more than `mostSteps` steps (without it: the budget's), as it may where dozens of
   * conditions share dozens of controls.
   */
  countStates(mostSteps?: number): number | null;
  /** In how many of them this mode is on; null also where the mode is not known. */
  countStatesWith(name: string, mostSteps?: number): number | null;
  /** These sets, each with a state as an example; fewer than `limit` where the budget does not suffice. */
  listStates(limit: number): { readonly states: readonly DistinctState[]; readonly complete: boolean };

  /** Those of the pairs that can be selected together; pairs of which that is not known are left out. */
  clashes(pairs: readonly (readonly [string, string])[]): readonly ModeClash[];
  map(): SwitchMap;
  /** Adjacent positions that do the same; none for a control on which nothing depends, none where a mode is not known. */
  idlePositions(): readonly IdlePositions[];
  /** Positions within this distance of a bound of a test on their channel; `is` tests have no bounds. */
  margins(withinUs: number): readonly Margin[];

  /** The same craft with these channels at these pulses (in us), whatever the positions of the controls. */
  withPulses(pulsesUs: ReadonlyMap<number, number>): Switchboard;
  /** What the modes do when the signal is lost. */
  loss(): LossState;
  /** The fewest movements that show every place of every control, and every mode on and off; null over the budget. */
  tour(wish?: TourWish): Tour | null;
}

/** The conditions of two craft with the same controls, over one set of states. */
export interface PairedBoards {
  /** The board of both, for questions about their sets. */
  readonly board: Pick<Switchboard, "input" | "sets" | "waysTo" | "waysBeyond">;
  before(name: string): StateSet | null;
  after(name: string): StateSet | null;
  /** Whether a condition holds in the same states; null where either is not known. A mode that is not set up is off. */
  same(name: string): boolean | null;
  /** A state in which they differ; null where there is none, or it is not known. */
  difference(name: string): Witness | null;
  /**
   * The values of a control with which they differ in some state, of a dial as ranges of pulses in us, both ends
   * included; null where it is not known.
   */
  differsWith(
    name: string,
    control: string,
  ): { readonly positions: readonly string[]; readonly pulses: readonly PulseRange[] } | null;
}
