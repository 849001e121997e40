/** The handset off: what happens then, with the seconds, under each circumstance that the script cannot know. */
import {
  backInWords,
  courseName,
  gapsInWords,
  lossPremise,
  phaseInWords,
  spanInWords,
} from "../../draw/signal-words.ts";
import { signalLossOf } from "../../loss/signal-loss.ts";
import type { BenchStep } from "../../protocol/bench.ts";
import type { SignalCourse, SignalPhase } from "../../protocol/signal.ts";
import { benchStep, sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";

const CHECK = "bench.failsafe-checked";

export function lossSteps(view: BenchView): BenchStep[] {
  const loss = signalLossOf(view.craft, view.workspace);
  if (view.word("link.on-loss") === null)
    view.asked("link.on-loss", "what the receiver does when it no longer hears the handset");
  if (view.word("failsafe.then") === null && loss.receiver !== "hold" && loss.receiver !== "preset")
    view.asked("failsafe.then", "what the craft does when the signal stays away");
  const arms = view.mode("arm") !== null || view.word("safety.stick-arming") === "yes";
  const tried = loss.courses.map((course, i) => courseStep(course, i, loss.courses.length, arms));
  const [first] = tried;
  return [
    disarmedStep(view, lossPremise(loss)),
    ...(first ? tried : []),
    ...(arms ? [backStep(view, loss.courses)] : []),
    ...callsSteps(view),
  ];
}

function disarmedStep(view: BenchView, premise: string): BenchStep {
  const presets = view.word("link.on-loss") === "preset" ? view.text("link.preset-channels") : null;
  return benchStep({
    id: "loss.disarmed",
    what: "Disarmed, switch the handset off, and watch the receiver and the board's figures.",
    expect: sentences(
      premise,
      presets !== null && `From channel 1 on they are ${presets}.`,
      LISTENED[view.word("link.on-loss") ?? ""] ?? "Write what you see into “on-loss” of section “link”.",
    ),
    risk: "powered",
    check: CHECK,
    from: view.from("link.on-loss", "link.lost-after", "link.preset-channels"),
  });
}

const LISTENED: Readonly<Record<string, string>> = {
  silent: "The board says that the signal is lost, and does not arm.",
  hold: "The board says nothing: its figures stay as they were.",
  preset: "The figures jump to the presets.",
};

function courseStep(course: SignalCourse, i: number, count: number, arms: boolean): BenchStep {
  const name = courseName(course);
  const flies = course.phases.some(({ deed }) => MOVES.has(deed.kind));
  const when = name === "" ? "" : ` (${name.charAt(0).toLowerCase()}${name.slice(1)})`;
  return benchStep({
    id: `loss.${arms ? "armed" : "off"}${count === 1 ? "" : `-${i + 1}`}`,
    what: arms
      ? `Tie the craft down, arm it, open the throttle a little, switch the handset off, and count${when}.`
      : `Switch the handset off, and count${when}.`,
    expect: course.phases.map(phaseText).join(" "),
    caution:
      sentences(
        arms && "A hand at the plug of the pack: if the trial fails, the motors go on with no handset to stop them.",
        flies &&
          "On the bench the motors show it only: they run up and down, and the way home itself is seen outdoors.",
      ) || null,
    risk: arms ? "spins" : "powered",
    check: CHECK,
    from: course.phases.flatMap(({ lines }) => lines.map(({ at }) => at)),
  });
}

/** What the craft does by moving, which no bench shows. */
const MOVES: ReadonlySet<string> = new Set(["climbs", "flies-home", "waits-home", "lands"]);

function phaseText(phase: SignalPhase): string {
  const span = spanInWords(phase);
  return sentences(`${span.charAt(0).toUpperCase()}${span.slice(1)}: ${phaseInWords(phase)}`, gapsInWords(phase.gaps));
}

function backStep(view: BenchView, courses: readonly SignalCourse[]): BenchStep {
  const last = courses.map(({ phases }) => phases.at(-1)).filter((phase) => phase !== undefined);
  const words = [...new Set(last.map(({ back }) => backInWords(back)))];
  const arm = view.mode("arm");
  return benchStep({
    id: "loss.back",
    what: "Leave the arm switch on, switch the handset on again, and watch; then put the switch to off, and see that the craft arms as before.",
    expect: words.map((each) => `When the signal is back, ${each}`).join(" "),
    caution: "The motors may start as soon as the signal is back.",
    risk: "spins",
    check: CHECK,
    from: [...view.from("failsafe.rearm-needs-off", "failsafe.resume-after"), ...(arm ? view.modeLines("arm") : [])],
  });
}

function callsSteps(view: BenchView): BenchStep[] {
  const after = view.text("finder.after-lost");
  if (after === null || after === "never") return [];
  return [
    benchStep({
      id: "loss.calls",
      what: "Leave the handset off, the craft disarmed, and listen.",
      expect: `${after} after the loss is noticed the craft calls by itself.`,
      risk: "powered",
      check: "bench.finder-checked",
      from: view.from("finder.after-lost"),
    }),
  ];
}
