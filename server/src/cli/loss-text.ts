/** What happens after the signal is lost, as a person reads it. */
import { backInWords, courseName, deedInWords, lengthInWords, spanInWords } from "../../../shared/draw/signal-words.ts";
import type { SignalLoss, SignalPhase } from "../../../shared/protocol/signal.ts";
import { oneLine } from "./io.ts";

const ARMED = { yes: "armed", no: "not armed", unknown: "armed or not" } as const;
const ARMED_WIDTH = Math.max(...Object.values(ARMED).map((text) => text.length));

/**
 * The courses, a phase a line; what several have in common at their beginning is told once, and what happens when
 * the signal comes back only where it changes.
 */
export function lossCoursesText({ courses, calls }: SignalLoss): string {
  const shared = sharedPhases(courses.map(({ phases }) => phases));
  const width = Math.max(...courses.flatMap(({ phases }) => phases).map((phase) => spanInWords(phase).length));
  const told = (phases: readonly SignalPhase[], from: number, to: number, indent: string) =>
    phases.slice(from, to).map((phase, i) => phaseText(phase, phases[from + i - 1], width, indent));
  const first = told(courses[0]!.phases, 0, shared, "  ");
  const rest = courses.flatMap((course) => {
    const name = courseName(course);
    const rows = told(course.phases, shared, course.phases.length, name === "" ? "  " : "    ");
    return name === "" ? rows : [`  ${oneLine(name)}:\n`, ...rows];
  });
  const finder = calls ? [`  ${oneLine(calls.text)} after the loss is noticed it calls by itself.\n`] : [];
  return [...first, ...rest, ...finder].join("");
}

function phaseText(phase: SignalPhase, before: SignalPhase | undefined, width: number, indent: string): string {
  const at = `${indent}${spanInWords(phase).padEnd(width)}  ${ARMED[phase.armed].padEnd(ARMED_WIDTH)}  `;
  const words = [deedInWords(phase.deed), lengthInWords(phase)].filter((part) => part !== "").join(" ");
  const back = backInWords(phase.back);
  const again = before !== undefined && backInWords(before.back) === back;
  return `${at}${oneLine(words)}\n${again ? "" : `${" ".repeat(at.length)}signal back: ${back}\n`}`;
}

/** How many phases all courses begin with, alike in words and times. */
function sharedPhases(courses: readonly (readonly SignalPhase[])[]): number {
  const [first = [], ...others] = courses;
  if (others.length === 0) return 0;
  const alike = (a: SignalPhase | undefined, b: SignalPhase) => JSON.stringify(a) === JSON.stringify(b);
  const differs = first.findIndex((phase, i) => others.some((phases) => !alike(phases[i], phase)));
  return differs < 0 ? first.length : differs;
}
