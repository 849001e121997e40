/** What happens after the signal is lost, in words: for the time line, for readers who do not see it, and for the terminal. */
import type {
  CourseWhen,
  PhaseDeed,
  SignalBack,
  SignalCourse,
  SignalGap,
  SignalLoss,
  SignalPhase,
  SignalStep,
} from "../protocol/signal.ts";
import { joinWithAnd } from "../text/list.ts";
import { capital, shortName } from "./words.ts";

/** A time or a length in ms, in words: “250 ms” is “0.25 s”, from a minute on “1 min 32 s”. */
export function timeInWords(ms: number): string {
  if (ms < 60_000) return `${Number((ms / 1000).toFixed(ms < 100 ? 3 : 2))} s`;
  const s = Math.round(ms / 1000);
  return s % 60 === 0 ? `${s / 60} min` : `${Math.floor(s / 60)} min ${s % 60} s`;
}

/** When a phase lasts: “1 s to 3 s”, “from 3 s”, “then for 20 s”, or “then” where nothing is known. */
export function spanInWords({ fromMs, length }: Pick<SignalPhase, "fromMs" | "length">): string {
  if (length.kind === "known")
    return fromMs === null
      ? `then for ${timeInWords(length.ms)}`
      : `${timeInWords(fromMs)} to ${timeInWords(fromMs + length.ms)}`;
  return fromMs === null ? "then" : `from ${timeInWords(fromMs)}`;
}

/** When a phase begins, for the time line. */
export function startInWords({ fromMs }: Pick<SignalPhase, "fromMs">): string {
  return fromMs === null ? "then" : timeInWords(fromMs);
}

/** How long a phase lasts, in a few words for the time line; empty for an end that is for good. */
export function lastsInWords({ length, deed }: Pick<SignalPhase, "length" | "deed">): string {
  switch (length.kind) {
    case "known":
      return `for ${timeInWords(length.ms)}`;
    case "unknown":
      return "how long: not known";
    case "depends":
      return length.on === "receiver" ? "how long: the receiver decides" : "how long: depends";
    case "open":
      return ENDLESS[deed.kind] === undefined ? "" : "no line ends it";
  }
}

/** Whether its length is not known or depends; an end that is for good has none. */
export function isLoose({ length, deed }: Pick<SignalPhase, "length" | "deed">): boolean {
  return length.kind !== "known" && deed.kind !== "stops" && deed.kind !== "down";
}

/** Why the length of a phase is not known; empty where it is. */
export function lengthInWords({ length, deed }: Pick<SignalPhase, "length" | "deed">): string {
  switch (length.kind) {
    case "known":
      return "";
    case "unknown":
      return "For how long is not known.";
    case "depends":
      return LASTS[length.on];
    case "open":
      return ENDLESS[deed.kind] ?? "";
  }
}

const LASTS: Readonly<Record<Extract<SignalPhase["length"], { kind: "depends" }>["on"], string>> = {
  climb: "How long depends on its height.",
  "way home": "How long depends on how far away it is.",
  landing: "How long depends on its height.",
  "pilot or pack": "",
  receiver: "How long is up to the receiver, and stands in no line.",
};

const ENDLESS: Readonly<Partial<Record<PhaseDeed["kind"], string>>> = {
  descends: "No line ends it.",
  "flies-on": "Until the signal is back, it hits something, or the pack is empty.",
  "obeys-presets": "No line ends it.",
};

/** A phase in a few words, for a segment of the time line. */
export function phaseLabel(deed: PhaseDeed): string {
  switch (deed.kind) {
    case "unnoticed":
      return "Unnoticed";
    case "held":
      return HELD[deed.sticks ?? "unsaid"].label;
    case "descends":
      return deed.throttle === null ? "Descends" : `Descends at ${deed.throttle}`;
    case "climbs":
      return `Climbs to ${deed.height}${deed.when === "if lower" ? " if it is lower" : ""}`;
    case "flies-home":
      return `Flies home${homeHeight(deed)}`;
    case "waits-home":
      return "Waits over home";
    case "lands":
      return "Lands at home";
    case "down":
      return "Down";
    case "lands-or-stops":
      return "Lands or stops";
    case "stops":
      return deed.after === "home" ? "Motors off over home" : "Motors off";
    case "flies-on":
      return "Flies on";
    case "never-noticed":
      return "Never noticed";
    case "obeys-presets":
      return deed.on.length === 0
        ? "Obeys presets"
        : `Obeys presets with ${joinWithAnd(deed.on.map((name) => shortName(name)))} on`;
    case "unknown":
      return "Unknown";
  }
}

const HELD = {
  last: { label: "Held as last heard", words: "It flies on with its sticks as last heard." },
  centred: {
    label: "Held with sticks centred",
    words: "It flies on with roll, pitch and yaw in the middle and its throttle as it was.",
  },
  level: { label: "Held level", words: "It levels itself and flies on with its throttle as it was." },
  unsaid: { label: "Held", words: "It carries on; what it does with the sticks is not known." },
} as const;

function homeHeight({ height, climb }: Extract<PhaseDeed, { kind: "flies-home" }>): string {
  if (height === null) return "";
  return ` at ${height}${climb === "keep-if-higher" ? " or higher" : ""}`;
}

/** What the craft does in a phase, in sentences; nothing that is not known is left out. */
export function deedInWords(deed: PhaseDeed): string {
  switch (deed.kind) {
    case "unnoticed":
      return deed.by === "board"
        ? "The board still waits for packets: the craft flies on with its sticks as last heard."
        : "The receiver has not given up yet: no presets are sent.";
    case "held":
      return `${HELD[deed.sticks ?? "unsaid"].words}${deed.canLevel ? "" : NO_LEVEL}`;
    case "descends":
      return descendsInWords(deed);
    case "climbs":
      return deed.when === "always"
        ? `It climbs on the spot to ${deed.height}.`
        : `Below ${deed.height} it climbs on the spot to there; higher up it stays as high as it is.`;
    case "flies-home":
      return homeInWords(deed);
    case "waits-home":
      return deed.landAt === null
        ? "It stays over home until the pilot takes over, or the pack is at its landing volts, which are not known."
        : `It stays over home until the pilot takes over, or the pack is at ${deed.landAt}.`;
    case "lands":
      return "It comes down at home.";
    case "down":
      return "It has landed; whether it disarms is not known.";
    case "lands-or-stops":
      return "So close to home it does not fly there: it lands or its motors stop, and which of the two is not known.";
    case "stops":
      return STOPS[deed.after];
    case "flies-on":
      return "The receiver repeats what it heard last, so the board never learns of the loss: the craft flies on, and nobody flies it. Nothing in “failsafe” begins.";
    case "never-noticed":
      return "To most boards held values or presets look like a live link: then nothing in “failsafe” begins, and what was held or preset flies the craft.";
    case "obeys-presets":
      return presetsInWords(deed);
    case "unknown":
      return "What it does now is not known.";
  }
}

const NO_LEVEL = " But it has no accelerometer, so it cannot tell what is level.";

const STOPS: Readonly<Record<Extract<PhaseDeed, { kind: "stops" }>["after"], string>> = {
  flight: "The motors stop, and the craft falls.",
  "hold unclear": "The motors simply stop; whether the hold comes first is not known.",
  idle: "The motors stop.",
  descent: "The motors stop, however high it still is.",
  landing: "It has landed, and disarms.",
  home: "The motors stop as soon as it is over home, and it falls.",
  presets: "The presets put arm off: the motors stop, and the craft falls.",
  permit: "Arming ends with arm-permit: the motors stop, and the craft falls.",
};

function descendsInWords({ throttle, level, canLevel, hover }: Extract<PhaseDeed, { kind: "descends" }>): string {
  const at =
    throttle === null ? "a throttle that is not known" : `${throttle}${throttle.endsWith("%") ? " throttle" : ""}`;
  const how = {
    yes: ", levelled",
    no: ", leaning as it did",
    unsaid: "; whether it levels itself is not known",
  }[level ?? "unsaid"];
  const climbs = hover === null ? "" : ` But it hovers at ${hover}: with no less than that it does not come down.`;
  return `It comes down at ${at}${how}.${climbs}${canLevel ? "" : NO_LEVEL}`;
}

function homeInWords(deed: Extract<PhaseDeed, { kind: "flies-home" }>): string {
  const { height, speed, climb, homeIsKnown, canLevel } = deed;
  const at = [
    height === null ? null : homeHeight(deed).trim(),
    speed === null ? null : `${height === null ? "at " : ""}${speed} over the ground`,
  ];
  const how = joinWithAnd(at.filter((part) => part !== null));
  const missing = [height === null ? "how high" : null, speed === null ? "how fast" : null].filter(
    (part) => part !== null,
  );
  const sentences = [
    `It flies home${how === "" ? "" : ` ${how}`}${climb === "on-the-way" ? ", climbing on the way" : ""}.`,
  ];
  if (missing.length > 0)
    sentences.push(`${capital(joinWithAnd(missing))} ${missing.length > 1 ? "are" : "is"} not known.`);
  if (climb === null && height !== null) sentences.push("How it comes to that height is not known.");
  if (!homeIsKnown) sentences.push("It knows home only if it had a fix when it armed.");
  if (!canLevel) sentences.push("But it has no accelerometer, and the way home is flown by angles.");
  return sentences.join(" ");
}

function presetsInWords({ throttle, sticks, on, armsItself }: Extract<PhaseDeed, { kind: "obeys-presets" }>): string {
  const parts = ["The receiver sends its presets, to most boards a live link: nothing in “failsafe” begins."];
  if (throttle === null) parts.push("What the throttle does is not known.");
  else if (throttle.is === "closed") parts.push(`The throttle is closed, at ${throttle.us} us.`);
  else parts.push(`The throttle is open, at ${throttle.us} us: nobody flies it.`);
  if (sticks === null) parts.push("Where the other sticks stand is not known.");
  else
    parts.push(
      sticks === "centred" ? "Roll, pitch and yaw are in the middle." : "Roll, pitch or yaw is not in the middle.",
    );
  if (on.length > 0) parts.push(`On: ${joinWithAnd(on.map((name) => shortName(name)))}.`);
  if (armsItself) parts.push("A craft on the ground may arm by itself.");
  return parts.join(" ");
}

/** The receiver in a phase, in a word or two. */
export function receiverInWords(receiver: SignalPhase["receiver"]): string {
  return RECEIVER[receiver];
}

const RECEIVER: Readonly<Record<SignalPhase["receiver"], string>> = {
  unnoticed: "waits",
  silent: "silent",
  repeats: "repeats",
  presets: "presets",
  unknown: "not said",
};

/** Whether it is armed in a phase. */
export function armedInWords(armed: SignalPhase["armed"]): string {
  return { yes: "armed", no: "not armed", unknown: "armed or not is not known" }[armed];
}

/** The same in a word, for the time line. */
export function armedLabel(armed: SignalPhase["armed"]): string {
  return { yes: "armed", no: "off", unknown: "?" }[armed];
}

type Tracks = Pick<SignalPhase, "armed" | "receiver">;

/** What the other tracks say anew, where there is no room for them beside: “armed, receiver silent”. */
export function tracksInWords({ armed, receiver }: Tracks, before: Tracks | undefined): string {
  const state = armed === "unknown" ? "armed or not" : armedInWords(armed);
  const parts = [
    before?.armed === armed ? null : state,
    before?.receiver === receiver ? null : `receiver ${receiverInWords(receiver)}`,
  ];
  return parts.filter((part) => part !== null).join(", ");
}

/** What happens if the signal comes back in a phase. */
export function backInWords(back: SignalBack): string {
  switch (back.kind) {
    case "at-once":
      return "the pilot has the craft at once.";
    case "after": {
      const wait = back.wait === null ? "after how long is not known" : `after ${back.wait} of good signal`;
      const push = back.push === null ? "" : ` and a push of roll or pitch by ${back.push}`;
      return back.wait === null
        ? `the pilot gets the craft back${push === "" ? "" : ` with${push.slice(" and".length)}`}; ${wait}.`
        : `the pilot gets the craft back ${wait}${push}.`;
    }
    case "stopped":
      return {
        yes: "the motors stay off until the arm switch has been at off.",
        no: "with the arm switch still on the motors may start by themselves.",
        unsaid: "whether the motors start by themselves, with the arm switch still on, is not known.",
      }[back.needsOff ?? "unsaid"];
    case "arms-again":
      return "the pilot's switch may arm it again at once.";
    case "unknown":
      return "what happens then is not known.";
  }
}

/** The circumstances of a course, as its name; empty where there is one course only. */
export function courseName({ when }: Pick<SignalCourse, "when">): string {
  const [first, ...others] = when;
  if (!first) return "";
  const short = others.length > 0;
  const named = when.map((each, i) => (i === 0 ? circumstance(each, short) : lowerFirst(circumstance(each, false))));
  return named.join(", ");
}

function circumstance(when: CourseWhen, short: boolean): string {
  switch (when.kind) {
    case "silent":
      return short ? "If silent" : "If the receiver falls silent";
    case "goes-on-sending":
      return "If it goes on sending";
    case "fix":
      return when.port === "no" ? "With a fix, for which no port has satellites" : "With a fix";
    case "no-fix":
      return when.orNoHeading ? "Without a fix or a heading" : "Without a fix";
    case "near-home":
      return `Within ${when.distance} of home`;
    case "throttle-closed":
      return when.since === null ? "Throttle at its bottom" : `Throttle at its bottom for ${when.since} before`;
    case "in-flight":
      return "In flight";
    case "arm-on":
      return when.by === "arm" ? "If arm stays on" : "If it stays armed without arm-permit";
    case "arm-off":
      return when.by === "arm" ? "If arm goes off" : "If losing arm-permit disarms it";
  }
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

/** What the receiver does, as the sentence above all courses. */
export function lossPremise({ receiver }: Pick<SignalLoss, "receiver">): string {
  return {
    silent: "The receiver falls silent, and the failsafe decides.",
    hold: "The receiver holds its last values.",
    preset: "The receiver sends its presets.",
    unsaid: "The script does not say what the receiver does.",
  }[receiver ?? "unsaid"];
}

/** What would say more, in a sentence; empty where nothing is missing. */
export function gapsInWords(gaps: readonly SignalGap[]): string {
  const of = (why: SignalGap["why"]) => gaps.filter((gap) => gap.why === why).map(({ name }) => name);
  const sentences: string[] = [];
  if (of("unsaid").length > 0) sentences.push(`No line says ${joinWithAnd(of("unsaid"))}.`);
  if (of("faulty").length > 0) sentences.push(`A line has a fault: ${joinWithAnd(of("faulty"))}.`);
  if (of("unread").length > 0) sentences.push(`What a used file may say is not known: ${joinWithAnd(of("unread"))}.`);
  if (of("usual").length > 0) sentences.push(`Taken as usual, since no line says it: ${joinWithAnd(of("usual"))}.`);
  return sentences.join(" ");
}

/** A phase as a whole sentence or more: what is done, for how long, and whether it is armed. */
export function phaseInWords(phase: SignalPhase): string {
  const length = lengthInWords(phase);
  const armed = { yes: "Armed.", no: "Not armed.", unknown: "Whether it is armed is not known." }[phase.armed];
  return [armed, deedInWords(phase.deed), length].filter((part) => part !== "").join(" ");
}

/** The phase at a step. */
export function phaseOf({ courses }: SignalLoss, { course, phase }: SignalStep): SignalPhase {
  return courses[course]!.phases[phase]!;
}

/** The state at a step, for the line above the switches: “Signal lost. 1 s to 3 s: armed. It levels itself …”. */
export function signalStateInWords(loss: SignalLoss, step: SignalStep): string {
  const phase = phaseOf(loss, step);
  const premise = loss.receiver === null ? ` ${lossPremise(loss)}` : "";
  return `Signal lost.${premise} ${capital(spanInWords(phase))}: ${lowerFirst(phaseInWords(phase))}`;
}

/** A step in short, where its state is said elsewhere: “Phase 2 of 4, Held level”. */
export function stepLabel(loss: SignalLoss, step: SignalStep): string {
  return `Phase ${step.phase + 1} of ${loss.courses[step.course]!.phases.length}, ${phaseLabel(phaseOf(loss, step).deed)}`;
}

/** A step for a screen reader: “Phase 2 of 4, 1 s to 3 s: Held level, armed, receiver silent”. */
export function stepInWords(loss: SignalLoss, step: SignalStep): string {
  const phase = phaseOf(loss, step);
  const of = loss.courses[step.course]!.phases.length;
  const said = `${phaseLabel(phase.deed)}, ${armedInWords(phase.armed)}, receiver ${receiverInWords(phase.receiver)}`;
  return `Phase ${step.phase + 1} of ${of}, ${spanInWords(phase)}: ${said}`;
}

/** What the pilot's picture can tell in a phase, for the caption below it; empty where it simply tells it. */
export function pictureInWords({ deed, receiver }: SignalPhase): string {
  if (deed.kind === "unnoticed" && deed.by === "board")
    return "The picture tells nothing of it yet: figures are as last heard.";
  if (receiver === "silent") return "";
  if (receiver === "unknown" && deed.kind !== "never-noticed") return "";
  return "The board takes this for a live link, so nothing in the picture need tell of the loss: figures are as last heard.";
}
