/** The handset off: what happens then, with the seconds, under each circumstance that the script cannot know. */
import { backInWords, courseName, lossPremise, phaseInWords, spanInWords } from "../../draw/signal-words.ts";
import { capital } from "../../draw/words.ts";
import { signalLossOf } from "../../loss/signal-loss.ts";
import type { BenchStep } from "../../protocol/bench.ts";
import type { SignalCourse, SignalLoss, SignalPhase } from "../../protocol/signal.ts";
import { joinWithAnd } from "../../text/list.ts";
import { canArm } from "./armed-at-rest.ts";
import { benchStep, sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";

const CHECK = "bench.failsafe-checked";

export function lossSteps(view: BenchView): BenchStep[] {
  const loss = signalLossOf(view.craft, view.workspace);
  noteUnsaid(view, loss);
  const arms = canArm(view);
  // With a receiver that holds its last values nobody could stop the motors: that is not tried.
  const isTried = loss.receiver !== "hold";
  return [
    disarmedStep(view, loss),
    ...(isTried && (arms || !view.mode("arm")) ? courseSteps(view, loss, arms) : []),
    ...(isTried && arms ? [backStep(view, loss.courses)] : []),
    ...trialSteps(view),
    ...callsSteps(view),
  ];
}

/** A mode that plays the loss, where one is set up. */
function trialSteps(view: BenchView): BenchStep[] {
  const mode = view.reached("loss-trial");
  if (!mode || (view.mode("arm") && !canArm(view))) return [];
  return [
    benchStep({
      id: "loss.trial",
      what: `Armed, tied down, the handset on: turn loss-trial on (${mode.text}), and off again.`,
      expect: "The craft does the same as with the handset off, and obeys again once it is off.",
      caution: "In flight this mode carries the craft off or stops it: nothing else may lie on its switch.",
      risk: "spins",
      check: CHECK,
      from: view.modeLines("loss-trial"),
    }),
  ];
}

/** What the script does not say of a lost signal: the gravest by itself, the rest in one sentence. */
function noteUnsaid(view: BenchView, { receiver, courses }: SignalLoss): void {
  if (view.word("link.on-loss") === null)
    view.asked("link.on-loss", "what the receiver does when it no longer hears the handset");
  if (view.word("failsafe.then") === null && receiver !== "hold" && receiver !== "preset")
    view.asked("failsafe.then", "what the craft does when the signal stays away");
  const gaps = courses.flatMap(({ phases }) => phases.flatMap((phase) => phase.gaps));
  const names = new Set(gaps.flatMap(({ name, why }) => (why === "usual" || TOLD.has(name) ? [] : [name])));
  if (names.size > 0)
    view.unknown(
      `Of a lost signal it is not known what hangs on ${joinWithAnd([...names].sort())}: no line says it, or it cannot be read.`,
    );
}

const TOLD: ReadonlySet<string> = new Set(["link.on-loss", "failsafe.then"]);

function disarmedStep(view: BenchView, loss: SignalLoss): BenchStep {
  const { receiver, courses } = loss;
  const presets = receiver === "preset" ? view.text("link.preset-channels") : null;
  const holds = receiver === "hold";
  const power = view.text("video.power-lost");
  const armsItself = courses.some(({ phases }) =>
    phases.some(({ deed }) => deed.kind === "obeys-presets" && deed.armsItself),
  );
  return benchStep({
    id: "loss.disarmed",
    what: "Disarmed, switch the handset off, and watch the receiver and the board's figures.",
    expect: sentences(
      lossPremise(loss),
      presets !== null && `From channel 1 on they are ${presets}.`,
      LISTENED[receiver ?? ""] ?? "Write what you see into “on-loss” of section “link”.",
      power !== null &&
        `The video transmitter then sends ${power === "same" ? "as much as before" : power} (power-lost).`,
      holds && courses[0]!.phases.map(phaseText).join(" "),
    ),
    caution: holds
      ? "Do not try this armed: with the handset off nothing would stop the motors. Let the receiver fall silent first, and say so in the script."
      : armsItself
        ? "These presets turn arm on: the craft may arm by itself, with the handset off. Change them first."
        : null,
    risk: armsItself ? "may-arm" : "powered",
    check: CHECK,
    from: view.from("link.on-loss", "link.lost-after", "link.preset-channels", "video.power-lost"),
  });
}

const LISTENED: Readonly<Record<string, string>> = {
  silent: "The board says that the signal is lost, and does not arm.",
  hold: "The board says nothing: its figures stay as they were.",
  preset: "The figures jump to the presets.",
};

/** A step for each course; in one of them all where it is not even said what the receiver does. */
function courseSteps(view: BenchView, loss: SignalLoss, arms: boolean): BenchStep[] {
  const { courses, receiver } = loss;
  const base = `loss.${arms ? "armed" : "off"}`;
  if (receiver === null) return [courseStep(base, courses, arms)];
  // On the bench home is near, where that makes a difference.
  const hasNear = courses.some(({ when }) => when.some(({ kind }) => kind === "near-home"));
  const needsFix = view.word("safety.arm-needs-fix") === "yes";
  return courses.map((course, i) => {
    const id = courses.length === 1 ? base : `${base}-${i + 1}`;
    if (arms && needsFix && course.when.some((when) => when.kind === "no-fix" && !when.orNoHeading))
      return toKnow(
        id,
        course,
        `Know what it does ${lowerFirst(courseName(course))}: it arms with one alone, so the bench does not show it.`,
      );
    return hasNear && course.phases.some(({ deed }) => MOVES.has(deed.kind))
      ? toKnow(
          id,
          course,
          `Know what it does far out (${lowerFirst(courseName(course))}): that is seen outdoors, last of all.`,
        )
      : courseStep(id, [course], arms);
  });
}

function courseStep(id: string, courses: readonly SignalCourse[], arms: boolean): BenchStep {
  const [first] = courses;
  const name = courses.length === 1 && first ? courseName(first) : "";
  const when = name === "" ? "" : ` (${lowerFirst(name)})`;
  const moves = courses.some(({ phases }) => phases.some(({ deed }) => MOVES.has(deed.kind)));
  return benchStep({
    id,
    what: arms
      ? `Tie the craft down, arm it, open the throttle a little, switch the handset off, and count${when}.`
      : `Switch the handset off, and count${when}.`,
    expect: courses
      .map((course) =>
        sentences(courses.length > 1 && `${courseName(course)}:`, course.phases.map(phaseText).join(" ")),
      )
      .join(" "),
    caution:
      sentences(
        arms && "A hand at the plug of the pack: if the trial fails, the motors go on with no handset to stop them.",
        moves &&
          "Tied down it cannot climb or come home, and its motors run up for it: pull the pack once that begins.",
      ) || null,
    risk: arms ? "spins" : "powered",
    check: CHECK,
    from: linesOf(courses),
  });
}

/** What the bench cannot show, since home is too near, or since the craft does not arm so: it is known beforehand. */
function toKnow(id: string, course: SignalCourse, what: string): BenchStep {
  return benchStep({
    id,
    what,
    expect: course.phases.map(phaseText).join(" "),
    risk: "unpowered",
    check: CHECK,
    from: linesOf([course]),
  });
}

function linesOf(courses: readonly SignalCourse[]) {
  return courses.flatMap(({ phases }) => phases.flatMap(({ lines }) => lines.map(({ at }) => at)));
}

/** What the craft does by moving, which no bench shows. */
const MOVES: ReadonlySet<string> = new Set(["climbs", "flies-home", "waits-home", "lands"]);

function phaseText(phase: SignalPhase): string {
  return `${capital(spanInWords(phase))}: ${phaseInWords(phase)}`;
}

function lowerFirst(text: string): string {
  return `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
}

function backStep(view: BenchView, courses: readonly SignalCourse[]): BenchStep {
  const last = courses.flatMap(({ phases }) => phases.at(-1) ?? []);
  const known = last.filter(({ back }) => back.kind !== "unknown");
  const words = new Set((known.length > 0 ? known : last).map(({ back }) => backInWords(back)));
  return benchStep({
    id: "loss.back",
    what: "Leave the arm switch on, switch the handset on again, and watch; then put the switch to off, and see that the craft arms as before.",
    expect: [...words].map((each) => `When the signal is back, ${each}`).join(" "),
    caution: "The motors may start as soon as the signal is back.",
    risk: "spins",
    check: CHECK,
    from: [...view.from("failsafe.rearm-needs-off", "failsafe.resume-after"), ...view.modeLines("arm")],
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
