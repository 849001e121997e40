/** Outdoors: the range walk, propellers on, the hover, what flies by itself, and the way home last of all. */
import { placeWords } from "../../draw/motors-words.ts";
import { packsOf } from "../../numbers/pack-of.ts";
import { usualHover } from "../../numbers/thrust-of.ts";
import type { BenchStep } from "../../protocol/bench.ts";
import { joinWithAnd } from "../../text/list.ts";
import { formatDuration } from "../context/format.ts";
import { currentRange, throttleRange } from "../context/hover-words.ts";
import { motorsPicture } from "../panel/motors.ts";
import { armedAtRest } from "./armed-at-rest.ts";
import { benchStep, sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";

/** The step after which the craft may fly. */
export const PROPELLERS_ON = "outdoors.propellers";
export const OPEN_PLACE = "outdoors.place";

export function outdoorSteps(view: BenchView): BenchStep[] {
  return [
    rangeStep(view),
    placeStep(view),
    propellerStep(view),
    ...fixSteps(view),
    ...hoverSteps(view),
    ...modeSteps(view),
    ...fenceSteps(view),
    ...homeSteps(view),
  ];
}

function rangeStep(view: BenchView): BenchStep {
  const least = view.text("transmitter.power-least");
  return benchStep({
    id: "outdoors.range",
    what: `Still without propellers, disarmed${view.says("video") ? ", the video on" : ""}: let somebody hold the craft as high as it flies and turn it round once, and walk away with the handset at reduced power.`,
    expect: sentences(
      least === null ? null : `At its least the handset sends ${least}.`,
      "Note where the link drops out, and compare it with last time: much less is an antenna that is hurt.",
    ),
    risk: "powered",
    check: "bench.range-checked",
    from: view.from("transmitter.power-least", "transmitter.power", "link.antennas"),
  });
}

function placeStep(view: BenchView): BenchStep {
  const identification = view.word("frame.identification");
  const broadcasts = identification !== null && identification !== "none";
  return benchStep({
    id: OPEN_PLACE,
    what: "Look round: an open place, nobody near or below, the craft in sight of the unaided eye or of an observer.",
    expect: sentences(
      "Height, place and marks are as the law here asks for them.",
      view.said("frame.registration") && "Its mark of registration is on it.",
      broadcasts && `It broadcasts who it is, by ${identification === "board" ? "the board" : "a module of its own"}.`,
    ),
    risk: "unpowered",
    from: view.from("frame.registration", "frame.identification"),
  });
}

function propellerStep(view: BenchView): BenchStep {
  const motors = motorsPicture(view.whole, view.workspace)?.motors ?? [];
  const each = motors.flatMap(({ number, place, direction }) =>
    direction === null ? [] : [`motor ${number}${place === null ? "" : ` (${placeWords(place)})`} ${direction}`],
  );
  const atRest = armedAtRest(view);
  const size = ["propeller-diameter", "propeller-pitch", "propeller-blades"].map((name) => view.text(`frame.${name}`));
  return benchStep({
    id: PROPELLERS_ON,
    what: "Pull the pack, and put the propellers on.",
    expect: sentences(
      size[0] != null &&
        `${size[0]}${size[1] == null ? "" : ` with a pitch of ${size[1]}`}${size[2] == null ? "" : `, ${size[2]} blades`}.`,
      each.length > 0 ? `Seen from above: ${joinWithAnd(each)}.` : "Each as its motor was seen to turn.",
      "Of each blade the thicker, higher edge goes first. None is cracked, all are tight.",
    ),
    caution: sentences(
      atRest !== null &&
        "STOP: with every control at rest this craft is armed, or may be. No propellers before that is mended.",
      "From here on the craft can cut: pack in last, and hands off once it is.",
    ),
    risk: "unpowered",
    picture: "motors",
    from: [
      ...view.from("frame.propeller-diameter", "frame.propeller-pitch", "frame.propeller-blades", "motors.spin"),
      ...motors.flatMap(({ at }) => at ?? []),
    ],
  });
}

/** Whether a line gives a port to a satellite receiver. */
function hasSatellites({ craft }: BenchView): boolean {
  return [...(craft.settings.get("ports")?.values() ?? [])].some(
    ({ value }) => value?.kind === "choice" && value.word === "gps",
  );
}

/** A craft that knows places waits for its satellites before it starts. */
function fixSteps(view: BenchView): BenchStep[] {
  const needs = view.integer("navigation.fix-needs");
  const waits = view.word("safety.arm-needs-fix") === "yes";
  if (needs === null && !waits && !hasSatellites(view)) return [];
  return [
    benchStep({
      id: "outdoors.fix",
      what: "Set it down under the open sky, and wait for satellites.",
      expect: sentences(
        needs === null ? "Their number grows within a minute or so." : `${needs} satellites or more.`,
        waits && "Until then it does not arm.",
        view.word("navigation.home-set") === "kept" && "Home is where it was armed first since it was plugged in.",
        view.word("navigation.home-set") === "renewed" && "Home is where it was armed last.",
      ),
      risk: "powered",
      from: view.from("navigation.fix-needs", "safety.arm-needs-fix", "navigation.home-set"),
    }),
  ];
}

function hoverSteps(view: BenchView): BenchStep[] {
  const throttle = view.text("pack.hover-throttle") ?? view.text("frame.hover-throttle");
  const current = view.text("pack.hover-current");
  const [pack] = packsOf(view.craft, view.catalogue);
  const seconds = pack?.hoverS ?? null;
  const last = view.amount("bench.motor-heat-read", "degC");
  return [
    benchStep({
      id: "outdoors.hover",
      what: "Hover for half a minute at the height of a knee, over grass, and look where the throttle stands.",
      expect: sentences(
        "It stands still without help, and sounds even.",
        throttle !== null && `It hovers at ${throttle}${throttle.endsWith("%") ? " throttle" : ""}.`,
        current !== null && `It draws ${current}.`,
        seconds !== null && `By that a pack lasts ${formatDuration(seconds)} in a hover.`,
        likelyHover(view),
      ),
      caution: "At the first twitch that nobody asked for: disarm.",
      risk: "flies",
      check: "bench.hover-checked",
      from: view.from("pack.hover-throttle", "frame.hover-throttle", "pack.hover-current"),
    }),
    benchStep({
      id: "outdoors.heat",
      what: "Land, disarm, pull the pack, and feel each motor.",
      expect: sentences(
        "All alike, and none too hot to hold: two seconds of a finger are about 55 degC.",
        last !== null && `Last time the hottest had ${last} degC.`,
      ),
      risk: "unpowered",
      check: "bench.hover-checked",
      readings: [
        view.reading("motor-heat-read", {
          what: "temperature of the hottest motor",
          form: "45 degC",
          expected: "below about 55 degC",
        }),
      ],
      from: view.from("bench.motor-heat-read"),
    }),
  ];
}

/** What is to be expected of the hover by mass, propellers, motors and pack, roughly; null where that is not known. */
function likelyHover({ craft, catalogue }: BenchView): string | null {
  const hover = usualHover(craft, catalogue);
  if (!("currentA" in hover)) return null;
  const throttle = hover.throttle === null ? "" : `${throttleRange(hover.throttle)}, and `;
  return `A rough estimate from mass, propellers and pack: ${throttle}${currentRange(hover)}.`;
}

/** Modes that change how the craft flies, in the order in which one dares them. */
const FLOWN: readonly string[] = [
  "level",
  "level-blend",
  "lean-limit",
  "hold-heading",
  "heading-by-pilot",
  "rates-second",
  "gains-second",
  "hold-height",
  "hold-place",
  "camera-line",
  "launch-hold",
  "level-now",
];

function modeSteps(view: BenchView): BenchStep[] {
  const flown = FLOWN.filter((name) => view.reached(name));
  if (flown.length === 0) return [];
  return [
    benchStep({
      id: "outdoors.modes",
      what: `High enough for a mistake, try one after another: ${flown.map((name) => `${name} (${view.reached(name)!.text})`).join("; ")}.`,
      expect: "Each does what its name says, and the craft is the pilot's again as soon as it is off.",
      caution: flown.includes("hold-place") ? "Leave hold-place the moment the craft begins to circle." : null,
      risk: "flies",
      from: flown.flatMap((name) => view.modeLines(name)),
    }),
  ];
}

const FENCED: Readonly<Record<string, string>> = {
  warn: "It warns, and flies on.",
  brake: "It brakes there.",
  "return-home": "It turns round there, and flies home.",
};

function fenceSteps(view: BenchView): BenchStep[] {
  const distance = view.text("navigation.fence-distance");
  if (distance === null || distance === "none") return [];
  const does = FENCED[view.word("navigation.fence-does") ?? ""];
  if (!does) view.asked("navigation.fence-does", "what the craft does at its fence");
  return [
    benchStep({
      id: "outdoors.fence",
      what: `Fly slowly towards the fence, ${distance} from home, and a little on.`,
      expect: does ?? null,
      risk: "flies",
      check: "bench.home-checked",
      from: view.from("navigation.fence-distance", "navigation.fence-does"),
    }),
  ];
}

function homeSteps(view: BenchView): BenchStep[] {
  const mode = view.reached("return-home");
  const byLoss = view.word("failsafe.then") === "return";
  if (!mode && !byLoss) return [];
  const text = (name: string) => view.text(`navigation.${name}`);
  const [height, obstacle, distance] = [text("return-height"), text("obstacle-height"), text("start-distance")];
  if (height === null) view.asked("navigation.return-height", "how high the craft flies home");
  const trial = view.reached("loss-trial");
  return [
    benchStep({
      id: "outdoors.home",
      what: mode
        ? `Last of all: fly out${distance === null ? "" : ` beyond ${distance}`}, turn return-home on (${mode.text}), and keep both thumbs at the sticks.`
        : `Last of all: fly out${distance === null ? "" : ` beyond ${distance}`}, ${trial ? `turn loss-trial on (${trial.text})` : "switch the handset off for as long as the failsafe takes"}, and be ready to take over.`,
      expect: homeInWords(view, height, obstacle),
      caution: "Nobody below the way home; if it turns away from home, its compass is wrong: take it back at once.",
      risk: "flies",
      check: "bench.home-checked",
      from: [
        ...view.modeLines("return-home"),
        ...view.from(
          ...[
            "return-height",
            "obstacle-height",
            "return-climb",
            "return-speed",
            "start-distance",
            "home-radius",
            "arrival",
            "stick-override",
          ].map((name) => `navigation.${name}`),
          "failsafe.then",
        ),
      ],
    }),
  ];
}

const CLIMBS: Readonly<Record<string, string>> = {
  first: "climbs first",
  "on-the-way": "climbs on the way",
  "keep-if-higher": "stays as high as it is, if that is higher",
};

const ARRIVES: Readonly<Record<string, string>> = {
  land: "Over home it lands.",
  wait: "Over home it waits for the pilot.",
  stop: "Over home its motors stop, and it falls: take over before.",
};

function homeInWords(view: BenchView, height: string | null, obstacle: string | null): string {
  const speed = view.text("navigation.return-speed");
  const climb = CLIMBS[view.word("navigation.return-climb") ?? ""];
  const override = view.word("navigation.stick-override");
  const distance = view.text("navigation.start-distance");
  const [heightM, obstacleM] = [
    view.amount("navigation.return-height", "m"),
    view.amount("navigation.obstacle-height", "m"),
  ];
  const isTooLow = heightM !== null && obstacleM !== null && heightM <= obstacleM;
  const ports = [...(view.craft.settings.get("ports")?.values() ?? [])];
  return sentences(
    isTooLow && "STOP: it would fly into what stands there: raise “return-height” first.",
    !hasSatellites(view) &&
      ports.every(({ value }) => value !== null) &&
      "STOP: no port is given to a satellite receiver, so it knows no way home: write its port first.",
    height !== null &&
      `It flies home ${height} above the start${climb ? `, and ${climb}` : ""}${obstacle === null ? "" : `; the tallest obstacle there is ${obstacle}`}.`,
    speed !== null && `It comes at ${speed}.`,
    distance !== null && `Nearer than ${distance} it does not fly home.`,
    ARRIVES[view.word("navigation.arrival") ?? ""],
    view.reached("return-home") && "With the mode off the pilot has it back.",
    override === "yes" && "Moving the sticks far takes it back too.",
    override === "no" && "The sticks alone do not take it back.",
    "It takes a fix.",
  );
}
