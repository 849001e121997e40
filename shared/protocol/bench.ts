/**
 * The bench list of a craft: what to do, what to see then, and what of it is due, in the order that is safe. Plain data,
 * made by the core; the command line, a printed sheet and the panel show it, and compute nothing of it.
 */
import type { LinePlace } from "./findings.ts";

/** What the craft may do at a step: each is more dangerous than those before it. */
export const BENCH_RISKS = ["unpowered", "powered", "may-arm", "spins", "flies"] as const;
export type BenchRisk = (typeof BENCH_RISKS)[number];

/** Why a step is on the list, or not. */
export type BenchDue =
  /** `why`: in a sentence what changed since, or that nobody ever wrote that it was done. */
  | { readonly state: "due"; readonly why: string }
  /** Nothing that it covers has changed since `day`, such as 2026-03-15. */
  | { readonly state: "done"; readonly day: string }
  /** No line of the script keeps a day of it: it is done each time. */
  | { readonly state: "each-time" };

/** A value that is read on the bench and has a line in the script. */
export interface BenchReading {
  /** As SECTION.NAME, such as `bench.roll`; of a field `bench.centres roll`. */
  readonly name: string;
  /** What to write down, such as “both ends of roll”. */
  readonly what: string;
  /** How it is written, such as “988 us to 2012 us”. */
  readonly form: string;
  /** What should be read, with its tolerance, in words; null where the script does not say enough. */
  readonly expected: string | null;
  /** What the script has of it, in canonical spelling; null where nothing is said. */
  readonly text: string | null;
  readonly at: LinePlace | null;
}

export type BenchPictureName = "osd" | "osd-second" | "switches" | "motors";

/** A movement of one control, and what comes of it. */
export interface BenchMove {
  readonly control: string;
  /** The position, or of a dial the pulse in us. */
  readonly to: string | number;
  /** What must be on then, all of it: modes, and outputs as `outputs.NAME`. */
  readonly on: readonly string[];
  /** What of it came on, and what went off, by this movement. */
  readonly comesOn: readonly string[];
  readonly goesOff: readonly string[];
}

/** One box to tick. */
export interface BenchStep {
  /** The same for the same step of the same craft, such as `sticks.roll`. */
  readonly id: string;
  /** What to do, as one asks for it. */
  readonly what: string;
  /** What must be seen then, with numbers and tolerances; null where only doing it counts. */
  readonly expect: string | null;
  /** A caution that belongs to this step alone; null for almost all. */
  readonly caution: string | null;
  readonly risk: BenchRisk;
  readonly due: BenchDue;
  /** The check whose day this step is part of, as SECTION.NAME, such as `bench.order-checked`. */
  readonly check: string | null;
  readonly readings: readonly BenchReading[];
  /** The movements that it asks for, one after another; none for most steps. Of several only one control is moved, and nothing changes. */
  readonly moves: readonly BenchMove[];
  readonly picture: BenchPictureName | null;
  /** The lines that it comes from. */
  readonly from: readonly LinePlace[];
  /** What is sent to the board at this step, as one text; left out where nothing is. */
  readonly lines?: readonly string[];
}

export interface BenchPhase {
  /** Such as `sticks`; the same on every craft. */
  readonly name: string;
  readonly title: string;
  /** A sentence on how to go about it; null where the steps say it all. */
  readonly how: string | null;
  readonly steps: readonly BenchStep[];
}

/** A check that has a day, and the steps that it is made of. */
export interface BenchCheckState {
  /** As SECTION.NAME. */
  readonly name: string;
  /** What it is about, such as “motors”. */
  readonly title: string;
  readonly due: BenchDue;
  readonly at: LinePlace | null;
}

/** The list as the panel shows it. */
export interface BenchPicture {
  readonly list: BenchList;
  /** The whole list, or only what is due with what safety asks before it. */
  readonly shown: BenchShown;
  /** Whether the two may differ: some check has a day. */
  readonly canChoose: boolean;
}
export type BenchShown = "all" | "due";

/** The steps that were ticked, by their ids: what each said then, shortened, and when. */
export type BenchTicks = Readonly<Record<string, { readonly said: string; readonly atMs: number }>>;

/** How a craft's list is looked at. It is no part of the script. */
export interface BenchLooks {
  readonly ticks: BenchTicks;
  /** Null: not chosen; then only what is due is shown once some check has a day. */
  readonly shown: BenchShown | null;
  /** The phases that were unfolded or folded; any other is unfolded while the next step is in it. */
  readonly folds: Readonly<Record<string, "unfolded" | "folded">>;
}

/** What a list is about that begins with a wiped board. */
export interface PutBack {
  /** The day of the new software, such as 2026-03-15. */
  readonly day: string;
  /** The name of the dialect in which the board's lines are written; null where none is known. */
  readonly dialect: string | null;
}

export interface BenchList {
  /** Its first phases put the craft back after a wipe, and the others are what is to be checked then; left out on any other. */
  readonly putBack?: PutBack;
  readonly craft: string;
  readonly file: string;
  /** Said once, at the top, in bold; it comes before every step that is more than `unpowered`. */
  readonly warning: string;
  readonly phases: readonly BenchPhase[];
  readonly checks: readonly BenchCheckState[];
  /** What the script does not say, so that nothing can be expected there: a sentence each. */
  readonly unknown: readonly string[];
}
