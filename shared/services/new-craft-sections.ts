/** The sections of a new craft, each entry with the reason why it stands there. */
import type { Craft } from "../model/craft.ts";
import type { Answers } from "../protocol/new-craft.ts";
import { chemistryFacts, PILOT_FACTS, SIZE_FACTS, USUAL_CAPACITY } from "./new-craft-facts.ts";
import { entry, off, type ScriptLine, type ScriptSection } from "./new-craft-lines.ts";
import { type Habits, planModes } from "./new-craft-modes.ts";
import { osdSection } from "./new-craft-osd.ts";
import type { Size } from "./new-craft-questions.ts";

export interface CraftToWrite {
  readonly answers: Answers;
  /** What has been said below it: the handset and the layers that it uses. */
  readonly below: Craft;
  /** The link's band as the answers give it; null where the handset does not say. */
  readonly band: string | null;
  readonly habits: Habits;
}

export interface Written {
  readonly sections: readonly ScriptSection[];
  readonly leavesPosition: boolean;
}

/** The sections, with what layers say left to the layers, except for what was answered. */
export function sectionsOf({ answers, below, band, habits }: CraftToWrite): Written {
  const size = answers.size as Size;
  const { propeller, mass, fastestDegPerS, armTiltDeg, returnHeightM } = SIZE_FACTS[size];
  const pilot = PILOT_FACTS[answers.pilot as string]!;
  const gps = answers.gps === "yes";
  const isSaid = (section: string, name: string) => below.settings.get(section)?.has(name) === true;
  /** What was answered: said again only where a layer says something else. */
  const answered = (section: string, name: string, value: string, note: string | null = null): ScriptLine[] =>
    below.settings.get(section)?.get(name)?.text === value ? [] : [entry(name, value, note)];
  /** What is only usual: a layer knows better. */
  const usual = (section: string, name: string, value: string, note: string | null = null): ScriptLine[] =>
    isSaid(section, name) ? [] : [entry(name, value, note)];
  const unknown = (section: string, name: string, value: string, note: string): ScriptLine[] =>
    isSaid(section, name) ? [] : [off(name, value, note)];

  const { levelAtRest, turtle } = pilot;
  const modes = planModes({ below, habits, levelAtRest, returnHome: gps, turtle });

  const [cells = "", chemistry = ""] = (answers.pack as string).split(/-(.+)/);
  const volts = chemistryFacts(chemistry, Number(cells));
  const end = Math.min(pilot.endDegPerS, fastestDegPerS);
  const yawEnd = Math.min(pilot.yawEndDegPerS, fastestDegPerS);
  const rate = (slope: number, full: number) => `slope ${slope} deg/s  end ${full} deg/s  bend 3`;

  const sections: ScriptSection[] = [
    section("frame", null, [
      ...answered("frame", "propeller-diameter", propeller),
      ...unknown("frame", "mass", mass, "Weigh it ready to fly, write the figure here and take away the #:"),
    ]),
    section("pack", "Never charge a pack unattended, and never fly one that is swollen.", [
      ...answered("pack", "chemistry", chemistry),
      ...answered("pack", "cells", cells),
      ...usual("pack", "full-at", volts.fullAt, "Set the charger to the same."),
      ...usual("pack", "warn-at", volts.warnAt, "Turn back at this, measured in flight …"),
      ...usual("pack", "land-at", volts.landAt, "… and be on the ground at this: below it the cells suffer."),
      ...unknown("pack", "capacity", USUAL_CAPACITY[size], "As printed on the pack:"),
    ]),
    section("link", null, [
      ...(band === null
        ? unknown("link", "band", "2.4 GHz", "The handset's file does not say its band; as printed on the receiver:")
        : answered("link", "band", band)),
      ...usual(
        "link",
        "on-loss",
        "silent",
        "Set the receiver so, then try it: propellers off, and switch the handset off.",
      ),
    ]),
    section("modes", null, modes.lines),
    section("safety", "What must be true before the motors may start.", [
      ...usual("safety", "arm-tilt-limit", `${armTiltDeg} deg`, "Not in the hand and not upside down."),
      ...usual("safety", "arm-throttle-limit", "1050 us", "Not with the throttle open."),
      ...(gps
        ? usual("safety", "arm-needs-fix", "yes", "Home is where it is armed, so it must know where that is.")
        : []),
      ...usual(
        "safety",
        "idle-disarm-after",
        `${pilot.idleDisarmS} s`,
        "A craft forgotten in the grass disarms itself.",
      ),
    ]),
    section("failsafe", "What it does when it no longer hears the handset.", [
      ...usual("failsafe", "hold-for", pilot.holdForS, "A short gap is nothing …"),
      ...(gps
        ? [
            ...usual("failsafe", "then", "return", "… a longer one is: it comes home, or falls where it cannot."),
            ...usual("failsafe", "then-without-fix", "stop"),
          ]
        : usual("failsafe", "then", "stop", "… a longer one is: motors off, before it flies where nobody steers it.")),
    ]),
    ...(gps
      ? [
          section("navigation", null, [
            ...usual(
              "navigation",
              "return-height",
              `${returnHeightM} m`,
              "Above everything between it and you: go and look.",
            ),
            ...unknown(
              "navigation",
              "obstacle-height",
              `${returnHeightM - 10} m`,
              "The tallest of it, and it is checked:",
            ),
          ]),
        ]
      : []),
    ...(gps ? [section("ports", null, portLines(below, answers))] : []),
    osdSection(answers, below, answered, usual),
    section("video", "Frequency and power are a matter of local law: look it up before you raise them.", [
      ...answered("video", "signal", answers.video as string),
      ...usual("video", "power", "25 mW", "Aerial on before the pack goes in, always."),
      ...unknown("video", "region", "europe", "Say where you fly, and both are checked:"),
    ]),
    section("rates", isSaid("rates", "roll") ? null : pilot.ratesNote, [
      ...usual("rates", "roll", rate(pilot.slopeDegPerS, end)),
      ...usual("rates", "pitch", rate(pilot.slopeDegPerS, end)),
      ...usual("rates", "yaw", rate(pilot.yawSlopeDegPerS, yawEnd)),
      ...(pilot.throttlePercent === null
        ? []
        : usual(
            "rates",
            "throttle-limit",
            `${pilot.throttlePercent} %`,
            "Less to be frightened by; take the line away when it is too little.",
          )),
    ]),
    section("camera", null, [
      ...usual("camera", "uptilt", `${pilot.uptiltDeg} deg`, "The more, the faster one has to fly to see ahead."),
    ]),
  ];
  return { sections: sections.filter(({ lines }) => lines.length > 0), leavesPosition: modes.leavesPosition };
}

function section(name: string, note: string | null, lines: readonly ScriptLine[]): ScriptSection {
  return { name, note, lines };
}

/** The ports of a craft that has something on them that is named by its port. */
function portLines(below: Craft, answers: Answers): ScriptLine[] {
  const said = below.settings.get("ports");
  const uses = new Set([...(said?.values() ?? [])].map(({ text }) => text));
  const wanted = ["receiver", ...(answers.video === "digital" ? ["video"] : []), "gps"].filter((use) => !uses.has(use));
  const free = [1, 2, 3, 4, 5, 6, 7, 8].map((port) => `port${port}`).filter((port) => !said?.has(port));
  const note = "Which plug each part sits in: look, and put your own numbers.";
  return wanted.flatMap((use, i) => (free[i] ? [entry(free[i], use, i === 0 ? note : null)] : []));
}
