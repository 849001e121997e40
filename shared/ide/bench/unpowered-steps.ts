/** Before any power: propellers off, antennas on, no short, everything where the script has it. */
import { capital } from "../../draw/words.ts";
import type { BenchStep } from "../../protocol/bench.ts";
import { joinWithAnd } from "../../text/list.ts";
import { benchStep, sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";

/** The step that comes before everything. */
export const PROPELLERS_OFF = "unpowered.propellers";
export const ANTENNAS = "unpowered.antennas";

const TAKEN_OFF: Readonly<Record<string, string>> = {
  nut: "Undo the nuts.",
  screws: "Undo the screws of each.",
  press: "Lever each off straight, so that no shaft bends.",
  folding: "Folded is not off: undo their hubs.",
};

export function unpoweredSteps(view: BenchView): BenchStep[] {
  return [
    benchStep({
      id: PROPELLERS_OFF,
      what: "Take every propeller off, and lay them out of reach.",
      expect: sentences(TAKEN_OFF[view.word("frame.propeller-fixing") ?? ""], "Not one is on the craft."),
      risk: "unpowered",
      from: view.from("frame.propeller-fixing"),
    }),
    antennaStep(view),
    benchStep({
      id: "unpowered.short",
      what: "Hold a meter, set to resistance, to the leads of the craft where the pack goes, without the pack.",
      expect:
        "Never near 0 ohm: it climbs as the capacitor fills, or stays high. A steady beep is a short; find it before any power.",
      risk: "unpowered",
    }),
    benchStep({
      id: "unpowered.wires",
      what: "Tug at each wire and plug, turn each motor by hand, and look for stray strands and bridges of solder.",
      expect:
        "Nothing moves that should not, no wire lies in the circle of a propeller, and no screw of an arm touches the windings of its motor.",
      risk: "unpowered",
    }),
    ...boardSteps(view),
    ...weightSteps(view),
  ];
}

function antennaStep(view: BenchView): BenchStep {
  const count = view.integer("link.antennas");
  const hasVideo = view.says("video");
  const receiver = count === null ? "the receiver" : count === 1 ? "the receiver (1)" : `the receiver (${count})`;
  const [craftWaves, viewerWaves] = [view.text("video.polarisation"), view.text("video.viewer-polarisation")];
  const waves =
    craftWaves === null
      ? null
      : viewerWaves === null || viewerWaves === craftWaves
        ? `The video antenna is of the kind “${craftWaves}”, and so is that of the viewer.`
        : `The video antenna is of the kind “${craftWaves}”, and that of the viewer “${viewerWaves}”: such a pair hears little.`;
  return benchStep({
    id: ANTENNAS,
    what: `Look at the antennas of ${joinWithAnd([receiver, ...(hasVideo ? ["the video transmitter"] : []), "the handset"])}.`,
    expect: sentences("Each is on, whole, and clear of carbon and of the propellers.", waves),
    caution: "A transmitter that sends without its antenna burns out: antennas first, then power.",
    risk: "unpowered",
    from: view.from("link.antennas", "video.polarisation", "video.viewer-polarisation"),
  });
}

function boardSteps(view: BenchView): BenchStep[] {
  const names = ["board.model", "board.text-edition", "board.flashed-on", "link.receiver"];
  const said = [
    part(view, "board.model", "board"),
    part(view, "board.text-edition", "edition of its text"),
    part(view, "board.flashed-on", "software written on"),
    part(view, "link.receiver", "receiver"),
  ].filter((each) => each !== null);
  const ports = [...(view.craft.settings.get("ports") ?? [])].flatMap(([name, { value }]) =>
    /^port\d+$/.test(name) && value?.kind === "choice" && value.word !== "spare"
      ? [{ name: `ports.${name}`, text: `${name} ${value.word}` }]
      : [],
  );
  const steps: BenchStep[] = [];
  if (said.length > 0)
    steps.push(
      benchStep({
        id: "unpowered.parts",
        what: "Read what is printed on the parts, and hold it against the script.",
        expect: `${capital(joinWithAnd(said))}.`,
        risk: "unpowered",
        from: view.from(...names),
      }),
    );
  if (ports.length > 0)
    steps.push(
      benchStep({
        id: "unpowered.ports",
        what: "Follow each wire from the board to its part.",
        expect: `On ${joinWithAnd(ports.map(({ text }) => text))}.`,
        risk: "unpowered",
        from: view.from(...ports.map(({ name }) => name)),
      }),
    );
  return steps;
}

function part(view: BenchView, name: string, words: string): string | null {
  const text = view.text(name);
  return text === null ? null : `${words} ${text.replace(/^"(.*)"$/, "“$1”")}`;
}

/** The craft is weighed as it flies, so its propellers lie on the scale beside it. */
function weightSteps(view: BenchView): BenchStep[] {
  const mass = view.text("frame.mass");
  if (mass === null && view.said("bench.weighed-on") === null) return [];
  return [
    benchStep({
      id: "unpowered.weight",
      what: "Weigh the craft as it takes off: with its pack, and its propellers beside it on the scale.",
      expect:
        mass === null
          ? "Write what the scale shows into “mass” of section “frame”."
          : `${mass}, as “mass” of section “frame” has it; write down what the scale shows.`,
      risk: "unpowered",
      check: "bench.weighed-on",
      from: view.from("frame.mass"),
    }),
  ];
}
