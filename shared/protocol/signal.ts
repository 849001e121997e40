/**
 * What happens after the signal is lost, phase by phase: plain data, made of a craft by `shared/loss` and put
 * into words by `shared/draw/signal-words.ts`. Times count in ms from the last packet that was heard.
 */
import type { LinePlace } from "./findings.ts";

/** A line on which a statement rests: the setting as SECTION.NAME, or a mode, and its value as written. */
export interface SignalLine {
  readonly name: string;
  readonly text: string;
  readonly at: LinePlace;
}

/**
 * Something that would say more: no file says it, its line has a fault, a used file that could not be read may say it,
 * or the catalogue's default stands in for it.
 */
export interface SignalGap {
  readonly name: string;
  readonly why: "unsaid" | "faulty" | "unread" | "usual";
}

/** How long a phase lasts; `open` where nothing that the script says ends it. */
export type PhaseLength =
  | { readonly kind: "known"; readonly ms: number }
  | { readonly kind: "unknown" }
  /** As long as the way, the height or the pack make it. */
  | { readonly kind: "depends"; readonly on: "climb" | "way home" | "landing" | "pilot or pack" | "receiver" }
  | { readonly kind: "open" };

/** What the craft does in a phase. Quantities are as written in the script; null where they are not known. */
export type PhaseDeed =
  /** Nobody has noticed yet: the board, or the receiver that is to send its presets. */
  | { readonly kind: "unnoticed"; readonly by: "board" | "receiver" }
  | { readonly kind: "held"; readonly sticks: "last" | "centred" | "level" | null; readonly canLevel: boolean }
  | {
      readonly kind: "descends";
      readonly throttle: string | null;
      readonly level: "yes" | "no" | null;
      readonly canLevel: boolean;
      /** The hover as written, where the throttle of the descent is no less. */
      readonly hover: string | null;
    }
  | { readonly kind: "climbs"; readonly height: string; readonly when: "always" | "if lower" }
  | {
      readonly kind: "flies-home";
      readonly height: string | null;
      readonly speed: string | null;
      readonly climb: "first" | "on-the-way" | "keep-if-higher" | null;
      /** False where it may have armed without a fix, so that home may be a place that it never learned. */
      readonly homeIsKnown: boolean;
      readonly canLevel: boolean;
    }
  | { readonly kind: "waits-home"; readonly landAt: string | null }
  | { readonly kind: "lands" }
  /** Landed after a wait over home. */
  | { readonly kind: "down" }
  /** Too close to home for a return: which of the two it does is not said. */
  | { readonly kind: "lands-or-stops" }
  | {
      readonly kind: "stops";
      readonly after: "flight" | "hold unclear" | "descent" | "landing" | "home" | "presets" | "permit" | "idle";
    }
  /** The receiver repeats what came last. */
  | { readonly kind: "flies-on" }
  /** The receiver goes on sending, held values or presets: which is not said. */
  | { readonly kind: "never-noticed" }
  | {
      readonly kind: "obeys-presets";
      readonly throttle: { readonly us: number; readonly is: "closed" | "open" } | null;
      /** Roll, pitch and yaw. */
      readonly sticks: "centred" | "off-centre" | null;
      /** Modes and outputs that the presets turn on, without arm and its permission. */
      readonly on: readonly string[];
      /** The presets put arm on, also on a craft that stands disarmed. */
      readonly armsItself: boolean;
    }
  | { readonly kind: "unknown" };

/** What happens when the signal comes back during a phase. */
export type SignalBack =
  /** The pilot has the craft at once. */
  | { readonly kind: "at-once" }
  | { readonly kind: "after"; readonly wait: string | null; readonly push: string | null }
  /** The motors are off and the arm switch is still on; null: not known whether it must go to off first. */
  | { readonly kind: "stopped"; readonly needsOff: "yes" | "no" | null }
  /** The presets had put arm off; the pilot's switch puts it on again. */
  | { readonly kind: "arms-again" }
  | { readonly kind: "unknown" };

export interface SignalPhase {
  readonly deed: PhaseDeed;
  /** Null where the length of an earlier phase is not known. */
  readonly fromMs: number | null;
  readonly length: PhaseLength;
  readonly receiver: "unnoticed" | "silent" | "repeats" | "presets" | "unknown";
  readonly armed: "yes" | "no" | "unknown";
  readonly back: SignalBack;
  readonly lines: readonly SignalLine[];
  readonly gaps: readonly SignalGap[];
}

/** The circumstances under which a course is taken, all of them; none where there is one course only. */
export type CourseWhen =
  | { readonly kind: "silent" }
  | { readonly kind: "goes-on-sending" }
  | { readonly kind: "fix"; readonly port: "yes" | "no" }
  | { readonly kind: "no-fix"; readonly orNoHeading: boolean }
  | { readonly kind: "near-home"; readonly distance: string }
  | { readonly kind: "throttle-closed"; readonly since: string | null }
  | { readonly kind: "in-flight" }
  /** `by`: what the presets may put off, or surely do where it is the permission to arm. */
  | { readonly kind: "arm-on"; readonly by: "arm" | "arm-permit" }
  | { readonly kind: "arm-off"; readonly by: "arm" | "arm-permit" };

/** One way in which it may go, from the last packet to the end. */
export interface SignalCourse {
  readonly when: readonly CourseWhen[];
  readonly phases: readonly SignalPhase[];
}

/** What happens after the signal is lost in flight. */
export interface SignalLoss {
  /** What the receiver does; null where the script does not say it. */
  readonly receiver: "silent" | "hold" | "preset" | null;
  /** Never empty; the first is the one to show where nothing is chosen. */
  readonly courses: readonly SignalCourse[];
  /** The craft begins to call by itself this long after the loss is noticed; null where that is not said, or never. */
  readonly calls: SignalLine | null;
}

/** A course and a phase of it, counted from 0. */
export interface SignalStep {
  readonly course: number;
  readonly phase: number;
}

/** The lost signal as the panel plays it. */
export interface SignalPicture extends SignalLoss {
  readonly at: SignalStep;
}
