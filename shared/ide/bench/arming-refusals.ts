/** The tries that must be refused whatever arms the craft: what the section “safety” and the handset say against it. */
import { linkOf } from "../../logic/from-craft.ts";
import type { Source } from "../../model/craft.ts";
import { throttleShare } from "../../numbers/sticks.ts";
import type { BenchStep } from "../../protocol/bench.ts";
import { formatDuration, formatPercent } from "../context/format.ts";
import type { HandMove } from "./arming-posture.ts";
import { benchStep, type StepParts } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";
import { asSentence, type ControlWords, movesAsked } from "./control-words.ts";

const CHECK = "bench.arming-checked";

/** What the hand does to arm the craft, however that is. */
export interface Deed {
  /** As in “hold PB and put TL to down”. */
  readonly words: string;
  readonly from: readonly Source[];
}

/** How far above a limit a try goes, so that nobody asks whether it was above. */
const ABOVE_US = 50;
const ABOVE_DEG = 15;
/** The shortest time for which a hand surely puts a switch over and back, as a guess from common practice. */
const QUICK_MS = 250;
/** What only the field can show: fix, stillness, cells, cable, throttle and tilt. */
export function fieldTries(view: BenchView, deed: Deed): BenchStep[] {
  return [
    ...fixTries(view, deed),
    ...throttleTries(view, deed),
    ...tiltTry(view, deed),
    ...stillTry(view, deed),
    ...cellTry(view, deed),
    ...cableTry(view, deed),
  ];
}

export function fixTries(view: BenchView, deed: Deed): BenchStep[] {
  if (view.word("safety.arm-needs-fix") !== "yes") return [];
  const needs = view.integer("navigation.fix-needs");
  const satellites = needs === null ? "" : `, ${needs} satellites at least`;
  return [
    refused(view, {
      id: "arming.fix",
      what: `while there is no position fix, indoors or just after power-up, ${deed.words}`,
      why: "it waits for a fix",
      names: ["safety.arm-needs-fix"],
    }),
    armingStep({
      id: "arming.await-fix",
      what: `Take it under the open sky, propellers off, and wait for the fix${satellites}; all that follows is tried with it.`,
      expect: "The board says that it has a fix.",
      risk: "powered",
      from: view.from("safety.arm-needs-fix", "navigation.fix-needs"),
    }),
  ];
}

export function throttleTries(view: BenchView, deed: Deed): BenchStep[] {
  const isMiddle = view.word("safety.arm-throttle") === "middle";
  const { fromUs, toUs } = throttleEnds(view);
  const at = (us: number) => `${us} us (${formatPercent(throttleShare(us, fromUs, toUs))})`;
  const low = isMiddle
    ? [
        refused(view, {
          id: "arming.throttle-low",
          what: `put the throttle to its low end, then ${deed.words}`,
          why: "it arms with the throttle in the middle alone",
          names: ["safety.arm-throttle"],
        }),
      ]
    : [];
  const limit = view.asked("safety.arm-throttle-limit", "above which throttle the craft refuses to arm");
  const limitUs = view.amount("safety.arm-throttle-limit", "us");
  if (!limit || limitUs === null) {
    if (view.word("safety.arm-throttle") !== "low") return low;
    return [
      refused(view, {
        id: "arming.throttle",
        what: `raise the throttle to its middle, then ${deed.words}`,
        why: "the throttle must be at its low end",
        names: ["safety.arm-throttle"],
      }),
    ];
  }
  // With a throttle that never comes low enough every try is refused, and shows nothing.
  if (highThrottle(view) !== null) return low;
  if (limitUs > toUs) {
    view.unknown(
      `No throttle is refused: “arm-throttle-limit” is ${limitUs} us, and the stick ends at ${toUs} us. Write a limit a little above the low end.`,
    );
    return low;
  }
  const tryUs = Math.min(toUs, Math.ceil((limitUs + ABOVE_US) / 10) * 10);
  return [
    ...low,
    refused(view, {
      id: "arming.throttle",
      what: `raise the throttle to ${at(tryUs)}, then ${deed.words}`,
      why: `the throttle must be below ${at(limitUs)}`,
      names: ["safety.arm-throttle-limit"],
    }),
  ];
}

/** Why the throttle never comes low enough to arm; null where it does, or nobody measured it. */
export function highThrottle(view: BenchView): string | null {
  const limitUs = view.amount("safety.arm-throttle-limit", "us");
  const measured = view.said("bench.throttle")?.value;
  if (limitUs === null || measured?.kind !== "range" || measured.from.number < limitUs) return null;
  return `the throttle was measured no lower than ${measured.from.number} us, and must be below ${limitUs} us`;
}

/** The ends of the throttle in us: as measured, as said, or as usual. */
function throttleEnds(view: BenchView): { readonly fromUs: number; readonly toUs: number } {
  const measured = view.said("bench.throttle")?.value;
  return measured?.kind === "range"
    ? { fromUs: measured.from.number, toUs: measured.to.number }
    : linkOf(view.craft).endpointsUs;
}

export function tiltTry(view: BenchView, deed: Deed): BenchStep[] {
  const limit = view.asked("safety.arm-tilt-limit", "up to which tilt the craft arms");
  const limitDeg = view.amount("safety.arm-tilt-limit", "deg");
  if (!limit || isAnyTilt(view) || limitDeg === null) return [];
  if (view.word("sensors.accelerometer") === "no") {
    view.unknown(
      `The craft has no accelerometer, so it cannot know its tilt, and “arm-tilt-limit ${limit.text}” refuses nothing.`,
    );
    return [];
  }
  const tryDeg = Math.min(180, Math.ceil((limitDeg + ABOVE_DEG) / 5) * 5);
  return [
    refused(view, {
      id: "arming.tilt",
      what: `tilt the craft by ${tryDeg} deg, hold it so by its frame, then ${deed.words}`,
      why: `it may be tilted by ${limitDeg} deg at most`,
      names: ["safety.arm-tilt-limit"],
      caution: "Fingers away from the motors: if it is not refused, they turn.",
    }),
  ];
}

export function isAnyTilt(view: BenchView): boolean {
  const limitDeg = view.amount("safety.arm-tilt-limit", "deg");
  return view.word("safety.arm-tilt-limit") === "any" || (limitDeg !== null && limitDeg >= 180);
}

export function stillTry(view: BenchView, deed: Deed): BenchStep[] {
  if (view.word("safety.arm-needs-still") !== "yes") return [];
  const fix = view.word("safety.arm-needs-fix") === "yes" ? " wait for the fix," : "";
  return [
    refused(view, {
      id: "arming.still",
      what: `plug the pack in while you turn the craft slowly in the hand and keep turning it within its tilt limit,${fix} then ${deed.words}`,
      why: "the gyro has not found its zero yet; laid down, it finds it within seconds",
      names: ["safety.arm-needs-still", "sensors.still-limit"],
      caution: "Hold it by its frame, fingers away from the motors.",
    }),
  ];
}

export function cellTry(view: BenchView, deed: Deed): BenchStep[] {
  const limit = view.said("safety.arm-needs-cell-volts");
  if (!limit) return [];
  return [
    refused(view, {
      id: "arming.cells",
      what: `with a pack whose cells rest below ${limit.text}, where one is at hand, ${deed.words}`,
      why: `every resting cell must have ${limit.text} at least`,
      names: ["safety.arm-needs-cell-volts"],
    }),
  ];
}

export function cableTry(view: BenchView, deed: Deed): BenchStep[] {
  if (view.word("safety.arm-on-cable") !== "no") return [];
  return [
    refused(view, {
      id: "arming.cable",
      what: `plug the bench cable in beside the pack, then ${deed.words}`,
      why: "it does not arm on a cable",
      names: ["safety.arm-on-cable"],
    }),
  ];
}

export function startTry(view: BenchView, deed: Deed): BenchStep[] {
  if (view.word("transmitter.start-check") === "yes")
    return [
      armingStep({
        id: "arming.start-check",
        what: asSentence(`switch the handset off, ${deed.words}, and switch the handset on again`),
        expect: "The handset does not transmit before all is back at rest, and the craft stays disarmed.",
        risk: "may-arm",
        from: view.from("transmitter.start-check"),
      }),
    ];
  view.unknown(
    "The script does not say whether the craft arms where its switches say so already as it gets power: write “start-check” in section “transmitter” if the handset keeps it from that; if not, try it with the propellers off, and note at “arm” what you saw.",
  );
  return [];
}

export function holdTry(view: BenchView, words: ControlWords, moves: readonly HandMove[]): BenchStep[] {
  const holdMs = view.amount("safety.arm-hold", "ms");
  if (holdMs === null || holdMs < QUICK_MS) return [];
  return [
    refused(view, {
      id: "arming.hold",
      what: `${movesAsked(words, moves)}, and back at once, in less than ${formatDuration(holdMs / 1000)}`,
      why: `what arms it must stay on for ${formatDuration(holdMs / 1000)}`,
      names: ["safety.arm-hold"],
    }),
  ];
}

export function cornerTry(view: BenchView): BenchStep[] {
  if (view.word("safety.stick-arming") !== "no") return [];
  return [
    refused(view, {
      id: "arming.sticks",
      what: "with the throttle closed, hold the yaw stick hard over, first to one side, then to the other",
      why: "the sticks do not arm this craft",
      names: ["safety.stick-arming"],
    }),
  ];
}

interface Refusal {
  readonly id: string;
  /** What to do, without a capital and a full stop. */
  readonly what: string;
  readonly why: string;
  /** The settings that say so. */
  readonly names: readonly string[];
  readonly caution?: string;
}

function refused(view: BenchView, { id, what, why, names, caution }: Refusal): BenchStep {
  return armingStep({
    id,
    what: asSentence(what),
    expect: `It stays disarmed: ${why}.`,
    ...(caution && { caution }),
    risk: "may-arm",
    from: view.from(...names),
  });
}

/** A step of arming. */
export function armingStep(parts: StepParts): BenchStep {
  return benchStep({ ...parts, check: CHECK });
}
