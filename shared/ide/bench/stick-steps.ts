/** The sticks: which channel, which way, how far, and where they rest. */
import { capital } from "../../draw/words.ts";
import { linkOf, stickOrder } from "../../logic/from-craft.ts";
import { END_BEYOND_US, END_TOLERANCE_US } from "../../numbers/sticks.ts";
import { numberIn } from "../../numbers/values.ts";
import type { BenchStep } from "../../protocol/bench.ts";
import { joinWithAnd } from "../../text/list.ts";
import { formatNumber } from "../context/format.ts";
import { benchStep, sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";

interface Stick {
  readonly name: "roll" | "pitch" | "throttle" | "yaw";
  readonly low: string;
  readonly high: string;
}

const STICKS: readonly Stick[] = [
  { name: "roll", low: "hard left", high: "hard right" },
  { name: "pitch", low: "right back", high: "right forwards" },
  { name: "throttle", low: "at its bottom", high: "at its top" },
  { name: "yaw", low: "hard left", high: "hard right" },
];

/** What lies on the left and on the right stick, by the trade's numbers of stick modes. */
const STICK_MODES: Readonly<Record<number, string>> = {
  1: "pitch and yaw on the left stick, throttle and roll on the right",
  2: "throttle and yaw on the left stick, pitch and roll on the right",
  3: "pitch and roll on the left stick, throttle and yaw on the right",
  4: "throttle and roll on the left stick, pitch and yaw on the right",
};

export function stickSteps(view: BenchView): BenchStep[] {
  const order = view.isUnclear("link.order") ? null : stickOrder(view.craft);
  if (order === null) view.asked("link.order", "which stick comes on which channel");
  const armsBySticks = view.word("safety.stick-arming") === "yes";
  const caution = armsBySticks
    ? "On this craft the sticks arm as well: low throttle with full yaw may start it."
    : null;
  const risk = armsBySticks ? "may-arm" : "powered";
  return [
    benchStep({
      id: "sticks.order",
      what: "Move one stick at a time, and watch the board's figures.",
      expect: orderInWords(view, order),
      caution,
      risk,
      check: "bench.order-checked",
      from: view.from("link.order", "transmitter.stick-mode"),
    }),
    benchStep({
      id: "sticks.direction",
      what: "Push each stick once to each side, and watch which way its figure goes.",
      expect: directionInWords(view),
      risk,
      check: "bench.direction-checked",
      from: view.from("link.reversed"),
    }),
    endsStep(view, order, risk),
    middleStep(view, risk),
  ];
}

function orderInWords(view: BenchView, order: readonly string[] | null): string {
  const mode = view.integer("transmitter.stick-mode");
  return sentences(
    order === null
      ? "Each stick moves one channel and no other."
      : `${capital(joinWithAnd(order.map((stick, i) => `${stick} moves channel ${i + 1}`)))}, and each no other.`,
    order !== null && usualUnlessSaid(view, "link.order"),
    mode !== null && STICK_MODES[mode] !== undefined && `Stick mode ${mode}: ${STICK_MODES[mode]}.`,
  );
}

/** What a default says is no word of the script. */
function usualUnlessSaid(view: BenchView, path: string): string | null {
  return view.said(path) ? null : `That is what is usual: no line says it (${path}).`;
}

function directionInWords(view: BenchView): string {
  const reversed = reversedSticks(view);
  const turned =
    reversed.length === 0
      ? null
      : `The board turns ${joinWithAnd(reversed)} round (reversed): on the handset's own display ${reversed.length === 1 ? "that one runs" : "they run"} the other way.`;
  return sentences("Roll and yaw rise to the right, pitch rises forwards, throttle rises upwards.", turned);
}

function reversedSticks(view: BenchView): readonly string[] {
  const value = view.said("link.reversed")?.value;
  if (value?.kind === "order") return value.words;
  if (value?.kind === "list") return value.items.flatMap((item) => (item.kind === "choice" ? [item.word] : []));
  return value?.kind === "choice" && value.word !== "none" ? [value.word] : [];
}

function endsStep(view: BenchView, order: readonly string[] | null, risk: BenchStep["risk"]): BenchStep {
  const isKnown = !view.isUnclear("link.endpoints");
  if (!isKnown) view.asked("link.endpoints", "at which pulses the board has the ends of the sticks");
  const { fromUs, toUs } = linkOf(view.craft).endpointsUs;
  const travel = view.text("transmitter.travel");
  const limitUs = view.amount("safety.arm-throttle-limit", "us");
  return benchStep({
    id: "sticks.ends",
    what: "Hold each stick at both of its ends, into the corners too, and read the channel.",
    expect: sentences(
      isKnown && `${fromUs} us and ${toUs} us: at most ${END_TOLERANCE_US} us short of it, ${END_BEYOND_US} us beyond.`,
      isKnown && usualUnlessSaid(view, "link.endpoints"),
      travel !== null && `The handset is set to send ${travel} (travel).`,
      limitUs !== null &&
        `The bottom of throttle must lie below ${formatNumber(limitUs, 5)} us, or the craft does not arm.`,
    ),
    risk,
    check: "bench.ends-checked",
    readings: STICKS.map(({ name, low, high }) => {
      const channel = order === null ? 0 : order.indexOf(name) + 1;
      const least = fromUs - END_BEYOND_US;
      return view.reading(name, {
        what: `both ends of ${name}${channel > 0 ? `, channel ${channel}` : ""}`,
        form: "1001 us to 2000 us",
        expected: isKnown
          ? `${low} ${least} us to ${fromUs + END_TOLERANCE_US} us, ${high} ${toUs - END_TOLERANCE_US} us to ${toUs + END_BEYOND_US} us`
          : null,
      });
    }),
    from: view.from(
      "link.endpoints",
      "link.order",
      "safety.arm-throttle-limit",
      "transmitter.travel",
      ...STICKS.map(({ name }) => `bench.${name}`),
    ),
  });
}

function middleStep(view: BenchView, risk: BenchStep["risk"]): BenchStep {
  const isKnown = !view.isUnclear("link.centre");
  const centreUs = numberIn(view.craft, view.catalogue, "link", "centre", "us");
  const [band, yawBand] = [view.text("link.deadband"), view.text("link.yaw-rest-zone")];
  const step = view.text("link.resolution");
  const middle = isKnown && centreUs !== null ? `${formatNumber(centreUs, 5)} us` : null;
  const bandOf = (name: string) => (name === "yaw" ? yawBand : band);
  const within = (name: string) =>
    bandOf(name) === null ? "" : `, at most ${bandOf(name)} off (the zone in which it counts as centred)`;
  return benchStep({
    id: "sticks.middle",
    what: "Let roll, pitch and yaw snap back from either side, take the hands off, and read where they rest.",
    expect: sentences(
      middle !== null && `${middle} each, and the same from either side.`,
      middle !== null && usualUnlessSaid(view, "link.centre"),
      band !== null && `Roll and pitch count as centred up to ${band} off.`,
      yawBand !== null && `Yaw counts as centred up to ${yawBand} off.`,
      "No figure trembles by more than a step or two of the link.",
    ),
    risk,
    check: "bench.ends-checked",
    readings: [
      ...["roll", "pitch", "yaw"].map((name) =>
        view.reading(
          "centres",
          { what: `${name} with the stick let go`, form: "1501 us", expected: middle && `${middle}${within(name)}` },
          name,
        ),
      ),
      view.reading("stick-jitter", {
        what: "how far the figures tremble",
        form: "2 us",
        expected: step === null ? null : `1 or 2 steps of ${step}`,
      }),
    ],
    from: view.from("link.centre", "link.deadband", "link.yaw-rest-zone", "link.resolution", "bench.centres"),
  });
}
