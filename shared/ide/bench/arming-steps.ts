/** Arming: refused in each way that the script says it must be, accepted once, and disarmed again. */
import { unknownInWords } from "../../draw/words.ts";
import { boardOf } from "../../logic/from-craft.ts";
import type { BenchMove, BenchStep } from "../../protocol/bench.ts";
import { joinWithAnd } from "../../text/list.ts";
import { formatDuration } from "../context/format.ts";
import { type HandMove, type Posture, postureOf } from "./arming-posture.ts";
import {
  armingStep,
  cableTry,
  cellTry,
  cornerTry,
  type Deed,
  fieldTries,
  fixTries,
  highThrottle,
  holdTry,
  isAnyTilt,
  startTry,
  stillTry,
  tiltTry,
} from "./arming-refusals.ts";
import { sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";
import { asSentence, type ControlWords, controlWords, movesAsked, throttleIsMiddle } from "./control-words.ts";
import { armedRisk, runUpCaution } from "./switch-steps.ts";

/** Longer than this nobody waits beside motors that turn. */
const PATIENCE_S = 120;

/** The tries, each of which differs from the one that arms in one thing. */
export function armingSteps(view: BenchView): BenchStep[] {
  const words = controlWords(view);
  const sticksArm = view.word("safety.stick-arming") === "yes";
  const found = view.mode("arm") ? postureOf(view, words) : null;
  if (found?.kind === "posture") {
    const { posture } = found;
    const deed = { words: movesAsked(words, posture.moves), from: view.modeLines("arm") };
    if (posture.moves.length > 0) return modeTries(view, words, posture, deed);
    return [alwaysArmed(view)];
  }
  noteNoArm(view, found);
  return sticksArm ? stickTries(view) : [];
}

function noteNoArm(view: BenchView, found: Exclude<ReturnType<typeof postureOf>, { kind: "posture" }> | null): void {
  const tangled = boardOf(view.craft, view.workspace).tangles.get("arm");
  if (found === null) {
    if (view.word("safety.stick-arming") !== "yes")
      view.unknown("Nothing arms this craft, so arming cannot be tried: write “arm” in section “modes”.");
  } else if (found.kind === "never")
    view.unknown("No position of the controls arms this craft, so arming cannot be tried: look at the line of “arm”.");
  else if (found.kind === "unknown")
    view.unknown(
      `What arms this craft is not known, so arming cannot be tried by this list: ${unknownInWords("arm", tangled, view.craft.gaps.length > 0)}.`,
    );
  else
    view.unknown(
      `Arming hangs on ${joinWithAnd(found.channels)}, which no control of the handset drives: write a control for it into the handset.`,
    );
}

function modeTries(view: BenchView, words: ControlWords, posture: Posture, deed: Deed): BenchStep[] {
  if (posture.permitIsIdle)
    view.unknown("“arm-permit” is on wherever “arm” is, so no try can show that arming waits for it.");
  const why = highThrottle(view) ?? throttleAsked(view, words, posture);
  return [
    beginStep(view, words, posture),
    ...fieldTries(view, deed).filter(({ id }) => why === null || id !== "arming.throttle"),
    ...posture.leftOut.map((left): BenchStep => {
      const isPermit = left.armIsOn;
      return armingStep({
        id: `arming.without-${left.name}`,
        what: leftOutAsked(words, left, posture),
        expect: `It stays disarmed: “${isPermit ? "arm-permit" : "arm"}” is off.`,
        risk: "may-arm",
        from: view.modeLines(isPermit ? "arm-permit" : "arm"),
      });
    }),
    ...startTry(view, deed),
    ...holdTry(view, words, posture.moves),
    ...cornerTry(view),
    ...(why === null
      ? [acceptStep(view, posture, deed), disarmStep(view, words, posture), ...sticksToo(view), ...idleStep(view, deed)]
      : [neverStep(view, deed, why)]),
  ];
}

/** Why a craft that its throttle stick arms never does; null where it does. */
function throttleAsked(view: BenchView, words: ControlWords, { moves }: Posture): string | null {
  const limitUs = view.amount("safety.arm-throttle-limit", "us");
  const asked = moves.find(
    ({ name, to }) => words.called(name) === "the throttle stick" && limitUs !== null && Number(to) >= limitUs,
  );
  return asked
    ? `“arm” asks for the throttle at ${asked.to} us, and it must be below ${limitUs} us (arm-throttle-limit)`
    : null;
}

/** The second way of a craft that the sticks arm as well. */
function sticksToo(view: BenchView): BenchStep[] {
  if (view.word("safety.stick-arming") !== "yes") return [];
  return [
    armingStep({
      id: "arming.sticks",
      what: "With every control at rest, hold the sticks in the corner that arms, then in the one that disarms.",
      expect: "It arms, and disarms: the sticks are a second way.",
      risk: armedRisk(view),
      from: view.from("safety.stick-arming"),
    }),
  ];
}

/** The one try of a craft that cannot arm as it is set up. */
function neverStep(view: BenchView, deed: Deed, why: string): BenchStep {
  return armingStep({
    id: "arming.accept",
    what: asSentence(`with nothing else in its way: ${deed.words}`),
    expect: `It does not arm as it is set up: ${why}. Mend that, and begin again.`,
    risk: "may-arm",
    from: [...deed.from, ...view.from("safety.arm-throttle-limit", "bench.throttle")],
  });
}

function leftOutAsked(words: ControlWords, { name, at, moves }: Posture["leftOut"][number], { base }: Posture): string {
  const act = movesAsked(words, moves);
  const isUntouched = base[name] === at;
  if (isUntouched && words.springs(name)) return asSentence(`without touching ${words.called(name)}, ${act}`);
  if (isUntouched) return asSentence(`leave ${words.stands(name, at)}, then ${act}`);
  return asSentence(act === "" ? words.moved(name, at) : `${words.moved(name, at)}, then ${act}`);
}

function beginStep(view: BenchView, words: ControlWords, { baseMoves, armsAtRest }: Posture): BenchStep {
  const first = baseMoves.length > 0 ? `, but ${movesAsked(words, baseMoves)}` : "";
  return armingStep({
    id: "arming.begin",
    what: asSentence(
      `begin each try with every control at rest${first}, ${throttleRests(view)}, the craft level and still; put all of it back after each`,
    ),
    expect: "Disarmed, before each of them.",
    caution: armsAtRest
      ? "With every control at rest this craft is armed, or may be: pull the pack if it does not disarm."
      : null,
    risk: armsAtRest ? armedRisk(view) : "powered",
    from: armsAtRest ? view.modeLines("arm") : [],
  });
}

function throttleRests(view: BenchView): string {
  return throttleIsMiddle(view) ? "the throttle in its middle" : "the throttle closed";
}

function acceptStep(view: BenchView, posture: Posture, deed: Deed): BenchStep {
  const holdMs = view.amount("safety.arm-hold", "ms") ?? 0;
  const [only] = posture.moves.length === 1 ? posture.moves : [];
  return armingStep({
    id: "arming.accept",
    what: asSentence(`now with nothing in its way: ${deed.words}${holdMs > 0 ? ", and leave it there" : ""}`),
    expect: acceptedInWords(view),
    caution: sentences(turtleCaution(view, posture), runUpCaution(onWhenArmed(view, posture))) || null,
    risk: armedRisk(view),
    from: [...deed.from, ...view.modeLines("arm-permit"), ...view.from("safety.arm-hold", "safety.spin-when-armed")],
    ...(only && { moves: [moveFor(view, posture, only)] }),
  });
}

function acceptedInWords(view: BenchView): string {
  const holdMs = view.amount("safety.arm-hold", "ms") ?? 0;
  const spins = view.word("safety.spin-when-armed");
  if (spins === null) view.asked("safety.spin-when-armed", "whether the motors turn as soon as the craft is armed");
  const after = holdMs > 0 ? ` after ${formatDuration(holdMs / 1000)}` : "";
  const motors =
    spins === "yes" ? ", and the motors turn" : spins === "no" ? ", and the motors stand still though it is armed" : "";
  return sentences(
    `It arms${after}${motors}.`,
    isAnyTilt(view) && "It would do so in whatever attitude it lies, also in the hand.",
    view.word("safety.arm-on-cable") === "yes" && "It would do so with a bench cable plugged in as well.",
  );
}

function turtleCaution(view: BenchView, { turtle }: Posture): string | null {
  if (turtle === "always")
    return "Wherever this craft arms, turtle is selected as well: motors run backwards. Mend that before anything else.";
  if (turtle === "never") return null;
  const condition = view.mode("turtle")?.text;
  return `Not with turtle selected (${condition}): it would arm with motors that run backwards.`;
}

/** The modes that are on where the tries arm the craft. */
function onWhenArmed(view: BenchView, { base, moves }: Posture): readonly string[] {
  const at = { ...base, ...Object.fromEntries(moves.map(({ name, to }) => [name, to])) };
  return boardOf(view.craft, view.workspace).stateAt(at).on;
}

/** The movement as plain data, with what is on before and after it. */
function moveFor(view: BenchView, { base }: Posture, { name, to }: HandMove): BenchMove {
  const board = boardOf(view.craft, view.workspace);
  const before = board.stateAt(base).on;
  const { on } = board.stateAt({ ...base, [name]: to });
  return {
    control: name,
    to,
    on,
    comesOn: on.filter((each) => !before.includes(each)),
    goesOff: before.filter((each) => !on.includes(each)),
  };
}

function disarmStep(view: BenchView, words: ControlWords, { back }: Posture): BenchStep {
  const holdMs = view.amount("safety.disarm-hold", "ms") ?? 0;
  if (back === null)
    return armingStep({
      id: "arming.disarm",
      what: "Pull the pack.",
      expect: "The motors stop. No position of the controls disarms this craft.",
      risk: armedRisk(view),
      from: view.modeLines("arm"),
    });
  return armingStep({
    id: "arming.disarm",
    what: asSentence(movesAsked(words, back)),
    expect:
      holdMs > 0
        ? `It disarms after ${formatDuration(holdMs / 1000)}: the motors stop.`
        : "It disarms at once: the motors stop.",
    risk: armedRisk(view),
    from: [...view.modeLines("arm"), ...view.from("safety.disarm-hold")],
  });
}

function idleStep(view: BenchView, deed: Deed): BenchStep[] {
  const afterS = view.amount("safety.idle-disarm-after", "s");
  if (afterS === null || afterS === 0) return [];
  if (afterS > PATIENCE_S) {
    view.unknown(
      `That it disarms by itself after ${formatDuration(afterS)} (“idle-disarm-after”) is not on this list: it would take that long beside motors that turn.`,
    );
    return [];
  }
  return [
    armingStep({
      id: "arming.idle",
      what: asSentence(`${deed.words} once more, touch nothing else, and count`),
      expect: `It disarms by itself after ${formatDuration(afterS)}. Then put everything back at rest.`,
      risk: armedRisk(view),
      from: view.from("safety.idle-disarm-after"),
    }),
  ];
}

function alwaysArmed(view: BenchView): BenchStep {
  return armingStep({
    id: "arming.begin",
    what: "Know before it gets power: every position of the controls arms this craft.",
    expect: "It is armed, and nothing but pulling the pack stops it. Mend the line of “arm” before anything else.",
    risk: armedRisk(view),
    from: view.modeLines("arm"),
  });
}

/** The tries of a craft that only the sticks arm. */
function stickTries(view: BenchView): BenchStep[] {
  const deed: Deed = {
    words: "hold the sticks in the corner that arms",
    from: view.from("safety.stick-arming"),
  };
  view.unknown("The script does not say in which corner the sticks arm: write it into a note at “stick-arming”.");
  const none: Posture = {
    base: {},
    baseMoves: [],
    moves: [],
    back: [],
    leftOut: [],
    turtle: "never",
    permitIsIdle: false,
    armsAtRest: false,
  };
  const words = controlWords(view);
  return [
    beginStep(view, words, none),
    // A throttle that is raised is in no corner, so nothing is shown by it.
    ...fixTries(view, deed),
    ...tiltTry(view, deed),
    ...stillTry(view, deed),
    ...cellTry(view, deed),
    ...cableTry(view, deed),
    acceptStep(view, none, deed),
    armingStep({
      id: "arming.disarm",
      what: "Hold the sticks in the corner that disarms.",
      expect: "It disarms: the motors stop.",
      risk: armedRisk(view),
      from: deed.from,
    }),
    ...idleStep(view, deed),
  ];
}
