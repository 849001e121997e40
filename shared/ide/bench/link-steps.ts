/** The link: handset and receiver find each other. */

import { boardOf } from "../../logic/from-craft.ts";
import type { BenchStep } from "../../protocol/bench.ts";
import { bandsMeet } from "../../rules/lib/bands-meet.ts";
import { joinWithAnd } from "../../text/list.ts";
import { armedAtRest } from "./armed-at-rest.ts";
import { benchStep, sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";

export function linkSteps(view: BenchView): BenchStep[] {
  const [band, ofHandset] = [view.text("link.band"), view.text("transmitter.band")];
  const [bandMhz, handsetMhz] = [view.amount("link.band", "MHz"), view.amount("transmitter.band", "MHz")];
  const bands =
    band === null
      ? null
      : ofHandset === null
        ? `The receiver is in the ${band} band; the script does not say in which the handset is.`
        : bandMhz !== null && handsetMhz !== null && !bandsMeet(bandMhz, handsetMhz)
          ? `STOP: the receiver is on ${band} and the handset on ${ofHandset}: the two never bind.`
          : `Receiver and handset are both in the ${band} band.`;
  const atRest = armedAtRest(view);
  const rate = view.text("link.packet-rate");
  const channels = view.integer("link.channels");
  return [
    benchStep({
      id: "link.bound",
      what: "Switch the handset on, then the craft, and wait for the link; bind the two if they never met.",
      expect: sentences(
        bands,
        "The receiver shows that it hears the handset, and the board's figures follow the sticks.",
        rate !== null && `The handset sends ${rate.replace(" Hz", "")} packets a second.`,
        channels !== null && `${channels} channels arrive.`,
        channels !== null && beyondInWords(view, channels),
      ),
      caution: atRest,
      risk: atRest === null ? "powered" : "may-arm",
      from: [
        ...view.from("link.band", "transmitter.band", "link.packet-rate", "link.channels"),
        ...(atRest === null ? [] : view.modeLines("arm")),
      ],
    }),
    ...startCheckSteps(view),
    ...telemetrySteps(view),
  ];
}

/** Controls on channels that never reach the craft: nothing that hangs on them can be seen. */
function beyondInWords({ craft, workspace }: BenchView, channels: number): string | null {
  const board = boardOf(craft, workspace);
  // A spare control is no fault.
  const named = new Set(
    board.input.conditions.flatMap(({ name }) => {
      const set = board.selected(name);
      return set === null ? [] : board.sets.dependsOn(set);
    }),
  );
  const beyond = [...craft.controls].flatMap(([name, { value }]) =>
    value && value.channel > channels && named.has(name) ? `${name} (ch${value.channel})` : [],
  );
  if (beyond.length === 0) return null;
  return `STOP: ${joinWithAnd(beyond)} ${beyond.length === 1 ? "lies" : "lie"} beyond them, so nothing that hangs on ${beyond.length === 1 ? "it" : "them"} works.`;
}

function startCheckSteps(view: BenchView): BenchStep[] {
  // Where something arms the craft this is tried with the arming.
  if (view.word("transmitter.start-check") !== "yes" || view.mode("arm")) return [];
  return [
    benchStep({
      id: "link.start-check",
      what: "Switch the handset on with its throttle open, and once more with a switch away from its rest.",
      expect: "Both times it complains, and sends nothing until all is at rest.",
      risk: "powered",
      from: view.from("transmitter.start-check"),
    }),
  ];
}

function telemetrySteps(view: BenchView): BenchStep[] {
  if (view.word("link.telemetry") !== "yes") return [];
  return [
    benchStep({
      id: "link.telemetry",
      what: "Look at what the craft tells the handset.",
      expect: "The handset shows the volts of the pack and the quality of the link.",
      risk: "powered",
      from: view.from("link.telemetry"),
    }),
  ];
}
