/**
 * What the logic of switches answers, and what it needs to be asked.
 *
 * A *state* gives every control a position (a dial: a whole number of microseconds of its range)
 * and every channel without a control that some condition names a whole number of microseconds
 * of the link's end points. A `StateSet` is a set of such states. Two sets of one switchboard
 * are equal if and only if they are the same value, so `===` compares them.
 *
 * Names: a mode by its name, an output as `outputs.NAME`, a channel as `ch9`.
 *
 * `null` in place of a set means: not known, because a line has a fault, a name is unknown,
 * conditions run in a circle, or a condition is too tangled to be followed within the budget of
 * work. Whoever asks stays silent then; the reason is reported elsewhere. `null` in place of a yes or
 * no is the same: not known, and no "no".
 */
import type { Source } from "../model/craft.ts";
import type { Condition } from "../syntax/condition.ts";
import type { Cols } from "../syntax/span.ts";
import type { ControlKind } from "../syntax/value.ts";

// --- What goes in ---------------------------------------------------------------------------

/** A control of the handset. A dial has no positions, no rest, and a range that may fall. */
export interface ControlSpec {
  readonly name: string;
  readonly kind: ControlKind;
  readonly channel: number;
  readonly positions: readonly { readonly name: string; readonly pulseUs: number }[];
  readonly rest: string | null;
  readonly fromUs: number | null;
  readonly toUs: number | null;
}

/** A mode, or an output as `outputs.NAME`: its lines count joined by "or". */
export interface ConditionSpec {
  readonly name: string;
  /** `condition` is null where the line has a fault. */
  readonly lines: readonly { readonly condition: Condition | null; readonly source: Source }[];
}

export interface SwitchInput {
  /** In the handset's order, which is the order of every answer. */
  readonly controls: readonly ControlSpec[];
  /** Controls whose line has a fault: what names them is not known, and is no problem here. */
  readonly faultyControls?: readonly string[];
  /** False where no handset could be read: then a name that is not in `controls` is no problem. */
  readonly handsetKnown?: boolean;
  readonly conditions: readonly ConditionSpec[];
  /** What a channel without a control may carry, both ends included. */
  readonly endpointsUs: PulseRange;
  /** Ends of single channels where they are known better: of a stick, as it was measured. */
  readonly measuredUs?: ReadonlyMap<number, PulseRange>;
  /** Channels that carry two levels only: of a control there, the positions between its ends never arrive. */
  readonly twoLevelChannels?: readonly number[];
  /** While `over` is on, each of `under` is selected at most, and does nothing. */
  readonly precedence?: readonly { readonly over: string; readonly under: readonly string[] }[];
  readonly loss?: LossSpec;
}

export interface PulseRange {
  readonly fromUs: number;
  readonly toUs: number;
}

/** What the receiver does when the link goes; `pulsesUs` by channel, for `preset`. */
export interface LossSpec {
  readonly onLoss: "silent" | "hold" | "preset" | null;
  readonly pulsesUs: ReadonlyMap<number, number>;
}

// --- States ---------------------------------------------------------------------------------

declare const stateSet: unique symbol;
/** A set of states of one switchboard; never mix those of two. */
export type StateSet = number & { readonly [stateSet]: true };

/** Control to the name of its position, or to a pulse in us for a dial; `ch9` to a pulse in us. */
export type Positions = Readonly<Record<string, string | number>>;

/** One thing that a state decides: a control, or a channel that no control drives. */
export interface Variable {
  /** As the pilot calls it: `TL`, `ch9`. */
  readonly name: string;
  readonly channel: number;
  /** Null for a channel that no control drives. */
  readonly control: ControlSpec | null;
}

/** A state that shows something. */
export interface Witness {
  /** The whole state: every control, and every undriven channel that a condition names. */
  readonly positions: Positions;
  /** The part of it that already suffices: whatever the others do, it stays in the set. */
  readonly needed: Positions;
}

export interface Sets {
  readonly none: StateSet;
  readonly every: StateSet;
  // Of a set that is not known nothing is known, and the first six may take more work than is allowed.
  and(...sets: readonly (StateSet | null)[]): StateSet | null;
  or(...sets: readonly (StateSet | null)[]): StateSet | null;
  /** Is some state in both? Cheaper than comparing `and` with `none`. */
  meet(a: StateSet | null, b: StateSet | null): boolean | null;
  /** Is every state of `inner` in `outer`? */
  within(inner: StateSet | null, outer: StateSet | null): boolean | null;
  /** The states that some setting of these variables brings into the set. */
  some(set: StateSet | null, variables: readonly string[]): StateSet | null;
  /** The states that stay in the set whatever these variables do. */
  all(set: StateSet | null, variables: readonly string[]): StateSet | null;
  not(set: StateSet): StateSet;
  /** The states with these positions; names that no condition depends on restrict nothing. */
  where(positions: Positions): StateSet;
  /** What is left to decide once these positions hold; depends on none of them. */
  given(set: StateSet, positions: Positions): StateSet;
  /** Names of the variables on which membership hangs, in the board's order. */
  dependsOn(set: StateSet): readonly string[];
}

// --- What is wrong with the conditions themselves -------------------------------------------

/** A control or position that there is not, or a test that does not fit its control. */
export interface Problem extends Cols {
  readonly code: "unknown-name" | "wrong-type";
  readonly what: "control" | "position";
  /** The mode or output in whose condition it stands. */
  readonly in: string;
  readonly source: Source;
  /** The word as written. */
  readonly word: string;
  /** The control of an unknown position, or the dial that was asked for a position. */
  readonly control: string;
  /** The names that there are, the nearest first; empty for `wrong-type`. */
  readonly candidates: readonly string[];
}

/** A mode named in a condition that nobody set up: it is off. */
export interface UnsetReference extends Cols {
  readonly mode: string;
  readonly in: string;
  readonly source: Source;
}

/** Conditions that run in a circle: each link's `from` names its `to`, the last the first. */
export interface Cycle {
  readonly links: readonly (Cols & { readonly from: string; readonly to: string; readonly source: Source })[];
}

// --- Answers --------------------------------------------------------------------------------

/** What is on in a state of which perhaps only a part is known. */
export interface StateReport {
  /** On, whatever is not known. */
  readonly on: readonly string[];
  /** On or off, depending on what is not known. */
  readonly possible: readonly string[];
  /** Names whose condition is not known. */
  readonly unknown: readonly string[];
}

/** One of the distinct sets of modes that the controls can reach. */
export interface DistinctState {
  readonly on: readonly string[];
  readonly witness: Witness;
}

export interface ModeClash {
  readonly modes: readonly [string, string];
  readonly witness: Witness;
}

/** Where every mode stands: it stands at a position if it depends on that control and can be on there. */
export interface SwitchMap {
  readonly controls: readonly ControlMap[];
  /** Undriven channels that conditions name, by number. */
  readonly channels: readonly { readonly channel: number; readonly spans: readonly PulseSpan[] }[];
}

export interface ControlMap {
  readonly control: ControlSpec;
  /** In the handset's order; empty for a dial. */
  readonly positions: readonly { readonly name: string; readonly pulseUs: number; readonly modes: readonly string[] }[];
  /** Of a dial, from its `from` end to its `to` end; empty for the others. */
  readonly spans: readonly PulseSpan[];
}

/** A longest stretch of whole us with the same modes; both ends included, rising or falling as the dial does. */
export interface PulseSpan {
  readonly fromUs: number;
  readonly toUs: number;
  readonly modes: readonly string[];
}

/** Two positions next to one another by pulse, in the order of the handset, that give the same modes in every state. */
export interface IdlePositions {
  readonly control: ControlSpec;
  readonly positions: readonly [string, string];
}

/** How far a position's pulse lies from the bound of a test on its channel. */
export interface Margin extends Cols {
  readonly control: ControlSpec;
  readonly position: string;
  readonly pulseUs: number;
  readonly boundUs: number;
  readonly marginUs: number;
  /** The mode or output in whose condition the test stands. */
  readonly in: string;
  readonly source: Source;
}

/** What becomes of a mode when the link is lost. `kept`: as it was; `either`: hangs on what is not preset. */
export type LossOutcome = "on" | "off" | "kept" | "either";

export interface LossState {
  /** What the receiver does; null where the craft does not say. */
  readonly onLoss: LossSpec["onLoss"];
  /** By mode and output, without those whose condition is not known. */
  readonly outcomes: ReadonlyMap<string, LossOutcome>;
  readonly armed: LossOutcome | null;
  /** The modes that are on for sure once the link is lost. */
  readonly on: readonly string[];
  /** Those that may be on: they were, and stay so, or they hang on a channel that is not preset. */
  readonly possible: readonly string[];
}

/** One move of one control (or one change of an undriven channel). */
export interface Move {
  readonly name: string;
  /** Null where its place was not given. */
  readonly from: string | number | null;
  readonly to: string | number;
}

/** Some way to be in a set: every variable named must be in one of its places; no smaller list of demands does. */
export interface Way {
  readonly demands: readonly Demand[];
}

export interface Demand {
  readonly variable: Variable;
  /** Positions that do, in the handset's order; empty for a dial or a channel. */
  readonly positions: readonly string[];
  /** Pulses that do, both ends included, rising; empty for the others. */
  readonly pulses: readonly PulseRange[];
}

export interface Ways {
  /** Together they are the whole set, and none could be left out. */
  readonly ways: readonly Way[];
  /** Every way of which no demand can be eased, including those that the others make superfluous. */
  readonly all: readonly Way[];
  /** False where there are more than the limit or the budget allows; then `ways` and `all` are only some of them. */
  readonly complete: boolean;
}

export interface Switchboard {
  readonly input: SwitchInput;
  /** Controls in the handset's order, then the undriven channels that conditions name. */
  readonly variables: readonly Variable[];
  /** Every mode and output that somebody set up, in the order given. */
  readonly names: readonly string[];
  readonly problems: readonly Problem[];
  readonly unset: readonly UnsetReference[];
  readonly cycles: readonly Cycle[];
  /**
   * By name, of every mode and output that is not known because a condition is too tangled to be
   * followed within the budget: whose condition that is, its own or that of one that it depends on.
   */
  readonly tangles: ReadonlyMap<string, string>;
  readonly sets: Sets;

  /** States in which a condition holds. `none` for a mode that nobody set up; null where not known. */
  selected(name: string): StateSet | null;
  /** `arm`, and `arm-permit` too where it is set up; null where one is not known, or both together are too tangled. */
  readonly armed: StateSet | null;
  /** Selected, and nothing that takes precedence over it is on. */
  acts(name: string): StateSet | null;

  /** Every switch, selector and button at its rest. */
  readonly rest: Positions;
  /** The states at rest: dials and undriven channels anywhere. */
  readonly atRest: StateSet;

  /**
   * A state of the set, or null for `none` and for a set that is not known: the one with the fewest controls away from `near`
   * (without it: from rest), dials and channels in the middle of a stretch that does.
   */
  witness(set: StateSet | null, near?: Positions): Witness | null;
  /** What is on with these positions; whatever is not named may be anywhere. */
  stateAt(positions: Positions): StateReport;
  /**
   * The lines of a mode or output that make it so with these positions: those whose own condition
   * holds, or, where none surely does, those that may. None for a mode that is off or not known.
   */
  linesBehind(name: string, positions: Positions): readonly Source[];
  /** The fewest moves from these positions into the set; null if nothing does. What is not named moves freely. */
  movesTo(set: StateSet, from: Positions): readonly Move[] | null;
  /**
   * How one can come to be in the set. `limit`: at most so many ways are sought. Where seeking them
   * takes more work than is allowed there is one all the same, a short one from rest.
   */
  waysTo(set: StateSet, limit?: number): Ways;

  /**
   * How many distinct sets of modes the controls can reach, the empty one included; modes that
   * are not known are left out. Exact up to 2^53, a double's rounding above. Null where it takes
   * more steps of work than `mostSteps`, which happens only where dozens of conditions hang together
   * through dozens of controls; without it, what the budget allows.
   */
  countStates(mostSteps?: number): number | null;
  /** How many of them have this mode on; null also where the mode is not known. */
  countStatesWith(name: string, mostSteps?: number): number | null;
  /** Those sets one by one, each with a state that shows it; fewer than `limit` where the budget ends before. */
  listStates(limit: number): { readonly states: readonly DistinctState[]; readonly complete: boolean };

  /** Those of the pairs that can be selected together, as far as that is known. */
  clashes(pairs: readonly (readonly [string, string])[]): readonly ModeClash[];
  map(): SwitchMap;
  /** Neighbouring positions that do the same; none for a control on which nothing depends. */
  idlePositions(): readonly IdlePositions[];
  /** Positions within so many us of a bound of a test on their channel; `is` tests have none. */
  margins(withinUs: number): readonly Margin[];

  /** The same craft with these channels at these pulses (in us), wherever the controls stand. */
  withPulses(pulsesUs: ReadonlyMap<number, number>): Switchboard;
  /** One more state: what is on when the link is lost. */
  loss(): LossState;
}

/** Conditions of two craft with the same controls, in one set of states. */
export interface PairedBoards {
  before(name: string): StateSet | null;
  after(name: string): StateSet | null;
  /** True in the same states? Null where either is not known. A mode nobody set up is off. */
  same(name: string): boolean | null;
  /** A state in which they differ, or null. */
  difference(name: string): Witness | null;
}

// The functions, each in the file of its name:
//   switchboard.ts   makeSwitchboard(input: SwitchInput): Switchboard
//   from-craft.ts    switchboardOf(craft, precedence?), switchInputOf(craft, precedence?), linkOf(craft)
//   compare.ts       pairBoards(before: SwitchInput, after: SwitchInput): PairedBoards | null
