/** A change of several craft at once, shown craft by craft before anything is written: plain data, made by the core. */
import type { Uri } from "./addresses.ts";
import type { Risk } from "./compare.ts";
import type { EditedFiles, Refused } from "./file-edits.ts";
import type { LinePlace, Severity } from "./findings.ts";

/** What becomes of one name on one craft. */
export interface FleetChangeLine {
  /** As SECTION.NAME, such as `modes.finder`. */
  readonly what: string;
  /** In a sentence without its full stop, such as “finder moves from PB held to TR down”. */
  readonly words: string;
  readonly risk: Risk;
  /** The canonical texts; null where nothing is said. */
  readonly before: string | null;
  readonly after: string | null;
  readonly at: LinePlace | null;
  /** The file in which it is written, where that is not the craft's own. */
  readonly into: string | null;
  /** Whether it can be left out by itself, and whether it is. */
  readonly choice: "chosen" | "left-out" | "none";
  /** Why it cannot be had, in a sentence; null where it can. */
  readonly notTaken: string | null;
}

export interface FleetChangeCraft {
  readonly file: string;
  readonly name: string;
  /** Why this craft is not changed, whatever one chooses, in a sentence; null where it can be. */
  readonly notOffered: string | null;
  readonly chosen: boolean;
  readonly lines: readonly FleetChangeLine[];
  /** What would be found that is not found now, the worst first. */
  readonly findings: readonly { readonly code: string; readonly severity: Severity; readonly message: string }[];
  /** What else is to be known, a sentence each. */
  readonly notes: readonly string[];
}

export interface FleetChange {
  readonly kind: "change";
  readonly title: string;
  /** What holds for all of it, a sentence each. */
  readonly notes: readonly string[];
  readonly craft: readonly FleetChangeCraft[];
  /** The edits of what is chosen; or why there are none. */
  readonly edits: EditedFiles | Refused;
}

// --- Habits: a mode on the same position of every craft ----------------------------------------

/** `fettle/habits`: what each mode is on with, by handset: what may be changed everywhere. */
export const HABITS_REQUEST = "fettle/habits";
export interface HabitsResult {
  readonly handsets: readonly HandsetHabits[];
}

export interface HandsetHabits {
  readonly file: string;
  readonly name: string;
  /** Modes by their name, outputs as `outputs.NAME`; those that most craft have first. */
  readonly modes: readonly {
    readonly name: string;
    readonly habits: readonly Habit[];
  }[];
  /** Conditions of one position of one control each, as they are written. */
  readonly tests: readonly string[];
}

/** Craft that mean the same by a mode. */
export interface Habit {
  /** As most of them write it. */
  readonly text: string;
  readonly craft: readonly { readonly file: string; readonly name: string }[];
}

/** Which habit becomes which. */
export interface HabitQuery {
  readonly handset: Uri;
  /** As in `HandsetHabits.modes`. */
  readonly mode: string;
  /** As in `Habit.text`; null for whatever it is on each craft. */
  readonly from: string | null;
  readonly to: string;
}

/** `fettle/habitCondition`: what is wrong with a condition that is being typed, whatever craft are meant. */
export const HABIT_CONDITION_REQUEST = "fettle/habitCondition";
export interface HabitConditionParams {
  readonly mode: string;
  readonly to: string;
}
export interface HabitConditionResult {
  /** In a sentence; null where it is a condition. */
  readonly fault: string | null;
}

/** `fettle/changeHabit`: what would become of each craft, and the edits of those that are chosen. */
export const CHANGE_HABIT_REQUEST = "fettle/changeHabit";
export interface ChangeHabitParams extends HabitQuery {
  /** The craft to be left out; null for what is left out before anybody has looked. */
  readonly leftOut: readonly string[] | null;
}
export type FleetChangeResult = FleetChange | Refused;

// --- Other craft made like one of them ---------------------------------------------------------

/** What may be taken over to other craft, by the sections that it stands in. */
export const ALIKE_KINDS = ["habits", "safety", "osd", "rates", "helpers", "pack", "link"] as const;
export type AlikeKind = (typeof ALIKE_KINDS)[number];

export interface AlikeQuery {
  /** The craft that the others are to be like. */
  readonly example: Uri;
  readonly kinds: readonly AlikeKind[];
  /** Layers of the example: all that one of them says is meant besides. */
  readonly layers: readonly Uri[];
}

/** `fettle/makeAlike`: what would become of each other craft, and the edits of what is chosen. */
export const MAKE_ALIKE_REQUEST = "fettle/makeAlike";
export interface MakeAlikeParams extends AlikeQuery {
  /** Craft by their files, and lines of craft as FILE and WHAT with a blank between; null before anybody has looked. */
  readonly leftOut: readonly string[] | null;
}

/** `fettle/alikeLayers`: the layers that a craft is made of. */
export const ALIKE_LAYERS_REQUEST = "fettle/alikeLayers";
export interface AlikeLayersParams {
  readonly example: Uri;
}
export interface AlikeLayersResult {
  readonly layers: readonly { readonly file: string; readonly name: string }[];
}
