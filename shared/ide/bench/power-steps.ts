/** The first power: through a current limiter, with an eye on heat. */
import { packsOf } from "../../numbers/pack-of.ts";
import type { BenchStep } from "../../protocol/bench.ts";
import { formatNumber, formatVolts } from "../context/format.ts";
import { benchStep, sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";

export function powerSteps(view: BenchView): BenchStep[] {
  return [limiterStep(view), ...cableSteps(view), ...videoHeatSteps(view), ...restCurrentSteps(view)];
}

function limiterStep(view: BenchView): BenchStep {
  const limitV = view.amount("board.input-limit", "V");
  const fullest = packsOf(view.craft, view.catalogue)
    .map(({ fullV }) => fullV)
    .filter((fullV) => fullV !== null)
    .sort((a, b) => b - a)[0];
  const limit =
    limitV === null || fullest === undefined
      ? null
      : fullest <= limitV
        ? `The board bears ${formatVolts(limitV)}, and a full pack has ${formatVolts(fullest)}.`
        : `STOP: the board bears ${formatVolts(limitV)}, and a full pack has ${formatVolts(fullest)}.`;
  return benchStep({
    id: "first-power.limiter",
    what: "Connect the pack for the first time through a current limiter, or a bench supply that is set to little current.",
    expect: sentences(
      limit,
      "Nothing smokes, smells or becomes hot to the finger within a minute, and the limiter does not trip.",
    ),
    caution: "A hand at the plug, and no bench cable in: a cable plus a pack is a live craft that can arm and spin.",
    risk: "powered",
    from: view.from("board.input-limit", "pack.cells", "pack.full-at"),
  });
}

/** A bench cable alone wakes some parts; with a pack besides it is a live craft. */
function cableSteps(view: BenchView): BenchStep[] {
  const powered = view.text("ports.cable-powers");
  const onCable = view.word("safety.arm-on-cable");
  if (powered === null && onCable === null) return [];
  return [
    benchStep({
      id: "first-power.cable",
      what: "Pull the pack, plug the bench cable in, and look what wakes.",
      expect: sentences(
        powered === null ? "The board wakes." : `The board wakes, and with it: ${powered}.`,
        onCable === "yes" && "The craft arms on the cable too (arm-on-cable).",
      ),
      caution: "A bench cable plus a pack is a live craft: it can arm and spin.",
      risk: "powered",
      from: view.from("ports.cable-powers", "safety.arm-on-cable"),
    }),
  ];
}

function videoHeatSteps(view: BenchView): BenchStep[] {
  const { craft } = view;
  const usesPort = [...(craft.settings.get("ports")?.values() ?? [])].some(
    ({ value }) => value?.kind === "choice" && value.word === "video",
  );
  if ((!view.says("video") && !usesPort) || view.word("video.power") === "off") return [];
  const [disarmed, power] = [view.text("video.power-disarmed"), view.text("video.power")];
  const sends =
    disarmed === null
      ? "The script does not say what it sends while disarmed, so take it for full power."
      : disarmed === "same"
        ? `While disarmed it sends no less than in flight${power === null ? "" : `, ${power}`}.`
        : disarmed === "off"
          ? "While disarmed it sends nothing."
          : `While disarmed it sends ${disarmed === "lowest" ? "its lowest power" : disarmed}.`;
  return [
    benchStep({
      id: "first-power.video",
      what: "Turn a fan on the video transmitter before it has run for a minute, and feel it now and then.",
      expect: sends,
      caution: "Without moving air a video transmitter overheats, on the bench sooner than anywhere.",
      risk: "powered",
      from: view.from("video.power-disarmed", "video.power"),
    }),
  ];
}

function restCurrentSteps(view: BenchView): BenchStep[] {
  const read = view.amount("bench.rest-current", "A");
  const measures = ["shunt", "esc-data"].includes(view.word("pack.current-from") ?? "");
  if (read === null && !measures) return [];
  return [
    benchStep({
      id: "first-power.rest-current",
      what: "Read the current of the disarmed craft with a meter in its lead.",
      expect:
        read === null ? null : `${formatNumber(read)} A, as it was last time; twice as much is a part that fails.`,
      caution: "Do not arm with a meter in the lead: its fuse goes.",
      risk: "powered",
      readings: [view.reading("rest-current", { what: "current while disarmed", form: "0.6 A", expected: null })],
      from: view.from("bench.rest-current", "pack.current-from"),
    }),
  ];
}
