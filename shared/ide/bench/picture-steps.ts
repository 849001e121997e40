/** The picture in the goggles beside ours, and the transmitter that sends it. */
import type { Placed } from "../../model/craft.ts";
import { videoOf } from "../../numbers/radio-of.ts";
import type { BenchStep } from "../../protocol/bench.ts";
import { joinWithAnd } from "../../text/list.ts";
import { formatCount, formatNumber } from "../context/format.ts";
import { benchStep, sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";

const CHECK = "bench.picture-checked";

export function pictureSteps(view: BenchView): BenchStep[] {
  return [...pageSteps(view), ...alertSteps(view), ...channelSteps(view)];
}

function pageSteps(view: BenchView): BenchStep[] {
  const [osd, second] = [view.placed("osd"), view.placed("osd-second")];
  const steps: BenchStep[] = [];
  const [grid, viewerGrid] = [view.text("osd.grid"), view.text("video.viewer-grid")];
  const gridWords = sentences(
    grid !== null && `The grid is ${grid}.`,
    viewerGrid !== null && viewerGrid !== "same" && viewerGrid !== grid && `The viewer draws ${viewerGrid}.`,
  );
  if (osd.length > 0) {
    const hide = view.reached("osd-hide");
    if (grid === null) view.asked("osd.grid", "on which grid the elements stand");
    steps.push(
      benchStep({
        id: "picture.osd",
        what: "Hold the goggles beside our picture, and go through the elements.",
        expect: sentences(
          `${formatCount(osd.length, "element")}, each in its place and none cut off: ${namesOf(osd)}.`,
          gridWords,
          hide && `All of it goes when osd-hide is on (${hide.text}).`,
        ),
        risk: "powered",
        check: CHECK,
        picture: "osd",
        from: [...view.from("osd.grid", "video.viewer-grid"), ...osd.map(({ source }) => source)],
      }),
    );
  }
  const change = view.reached("osd-second");
  if (second.length > 0)
    steps.push(
      benchStep({
        id: "picture.osd-second",
        what: change
          ? `Change to the second page (${change.text}), and hold it beside our picture.`
          : "Change to the second page, and hold it beside our picture.",
        expect: `${formatCount(second.length, "element")}: ${namesOf(second)}.`,
        risk: "powered",
        check: CHECK,
        picture: "osd-second",
        from: [...view.modeLines("osd-second"), ...second.map(({ source }) => source)],
      }),
    );
  return steps;
}

function namesOf(elements: readonly Placed[]): string {
  return joinWithAnd(elements.map(({ name }) => name));
}

/** What lets each alert come on the bench; of the others only their threshold is told. */
const ALERTS: Readonly<Record<string, { readonly how: string; readonly limits: readonly string[] }>> = {
  "low-pack": { how: "a pack that is nearly flown down", limits: ["pack.warn-at", "pack.land-at"] },
  "used-up": { how: "charge drawn", limits: ["pack.warn-after"] },
  "weak-link": { how: "the handset carried away, or switched off", limits: ["osd.link-alert"] },
  "weak-signal": { how: "the handset carried away, or switched off", limits: ["osd.signal-alert"] },
  "no-fix": { how: "indoors, without satellites", limits: ["navigation.fix-needs"] },
  "hot-esc": { how: "a hot controller", limits: ["osd.heat-alert"] },
  "cannot-arm": { how: "the arm switch on while something refuses it", limits: [] },
  high: { how: "in flight only", limits: ["osd.height-alert"] },
  far: { how: "in flight only", limits: ["osd.distance-alert"] },
};

function alertSteps(view: BenchView): BenchStep[] {
  const on = view.said("osd.alert-on");
  const shows = [...view.placed("osd"), ...view.placed("osd-second")].some(({ name }) => name === "alerts");
  if (on?.value?.kind !== "list" || !shows) return [];
  const words = on.value.items.flatMap((item) => (item.kind === "choice" ? [item.word] : []));
  const told = words.map((word) => {
    const limits = (ALERTS[word]?.limits ?? []).flatMap((name) => {
      const text = view.text(name);
      return text === null ? [] : [`${name.split(".")[1]} ${text}`];
    });
    const parts = [ALERTS[word]?.how, ...limits].filter((each) => each);
    return parts.length === 0 ? word : `${word} (${parts.join("; ")})`;
  });
  return [
    benchStep({
      id: "picture.alerts",
      what: "Make those alerts come that the bench can make, and see each in the goggles.",
      expect: `${told.join(", ")}.`,
      risk: "powered",
      check: CHECK,
      from: view.from("osd.alert-on", ...words.flatMap((word) => ALERTS[word]?.limits ?? [])),
    }),
  ];
}

function channelSteps(view: BenchView): BenchStep[] {
  const { carrierMhz, powerMw, most } = videoOf(view.craft, view.catalogue);
  const [frequency, power] = [view.text("video.frequency"), view.text("video.power")];
  if (!view.says("video") || power === "off") return [];
  if (frequency === null) view.asked("video.frequency", "on which frequency the picture is sent");
  if (power === null) view.asked("video.power", "with which power the picture is sent");
  const label = view.text("video.channel-label");
  const [low, high] = [view.reached("video-low"), view.reached("video-high")];
  const limit =
    most !== null && powerMw !== null && carrierMhz !== null
      ? `The region that the script names allows ${formatNumber(most.powerMw, 4)} mW there${powerMw > most.powerMw ? ", which is less than this" : ""}.`
      : null;
  return [
    benchStep({
      id: "picture.channel",
      what: "Before others fly: read frequency and power of the video transmitter, and set the viewer to it.",
      expect: sentences(
        frequency !== null && `${frequency}${label === null ? "" : `, called ${label.replace(/^"(.*)"$/, "“$1”")}`}.`,
        power !== null && `It sends ${power}.`,
        low && `It sends its least with video-low (${low.text}).`,
        high && `It sends its most with video-high (${high.text}).`,
        limit,
        "What may be sent is the law of the place and of the licence held.",
      ),
      risk: "powered",
      from: [
        ...view.from("video.frequency", "video.power", "video.channel-label", "video.region"),
        ...view.modeLines("video-low"),
        ...view.modeLines("video-high"),
      ],
    }),
  ];
}
