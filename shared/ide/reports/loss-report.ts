/** The report of `switches` on a lost signal: every course, phase by phase. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { backInWords, courseName, lossPremise, phaseInWords, phaseLabel } from "../../draw/signal-words.ts";
import { signalLossOf } from "../../loss/signal-loss.ts";
import type { Craft } from "../../model/craft.ts";
import type { SignalLine, SignalPhase } from "../../protocol/signal.ts";

export interface ReportedLine {
  readonly name: string;
  readonly text: string;
  readonly file: string;
  readonly line: number;
}

/** Times in ms from the last packet that was heard; null where they are not known. Lines count from 0. */
export interface ReportedPhase {
  readonly what: string;
  readonly from: number | null;
  readonly to: number | null;
  readonly receiver: SignalPhase["receiver"];
  readonly armed: SignalPhase["armed"];
  readonly words: string;
  /** What happens if the signal comes back in this phase. */
  readonly back: string;
  readonly lines: readonly ReportedLine[];
  /** What no line says, or a line with a fault, as SECTION.NAME. */
  readonly unknown: readonly string[];
}

export interface ReportedLoss {
  readonly receiver: "silent" | "hold" | "preset" | null;
  readonly premise: string;
  /** One for each circumstance that the script cannot know; `when` is null where there is one only. */
  readonly courses: readonly { readonly when: string | null; readonly phases: readonly ReportedPhase[] }[];
  /** The line by which it calls by itself, and how long after the loss is noticed; null where no line says it. */
  readonly calls: ReportedLine | null;
}

/** What happens after the signal is lost; `nameOf` gives the name under which a file is reported. */
export function lossReport(craft: Craft, catalogue: Catalogue, nameOf: (file: string) => string): ReportedLoss {
  const loss = signalLossOf(craft, { catalogue });
  return {
    receiver: loss.receiver,
    premise: lossPremise(loss),
    courses: loss.courses.map((course) => ({
      when: courseName(course) === "" ? null : courseName(course),
      phases: course.phases.map((phase) => reportedPhase(phase, nameOf)),
    })),
    calls: loss.calls && reportedLine(loss.calls, nameOf),
  };
}

function reportedLine({ name, text, at }: SignalLine, nameOf: (file: string) => string): ReportedLine {
  return { name, text, file: nameOf(at.file), line: at.line };
}

function reportedPhase(phase: SignalPhase, nameOf: (file: string) => string): ReportedPhase {
  const { deed, fromMs, length, receiver, armed, back, lines, gaps } = phase;
  return {
    what: phaseLabel(deed),
    from: fromMs,
    to: fromMs !== null && length.kind === "known" ? fromMs + length.ms : null,
    receiver,
    armed,
    words: phaseInWords(phase),
    back: backInWords(back),
    lines: lines.map((each) => reportedLine(each, nameOf)),
    unknown: gaps.filter(({ why }) => why !== "usual").map(({ name }) => name),
  };
}
