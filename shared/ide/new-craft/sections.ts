/** The sections of a new craft; a note gives the reason for an entry. */
import type { Craft } from "../../model/craft.ts";
import type { Answers } from "../../protocol/new-craft.ts";
import { type EntryWriter, entryWriterOver } from "./entry-writer.ts";
import {
  chemistryFacts,
  DUCTED_MASS,
  PILOT_FACTS,
  type PilotFacts,
  SIZE_FACTS,
  type SizeFacts,
  USUAL_CAPACITY,
} from "./facts.ts";
import { type Habits, planModes } from "./modes.ts";
import { osdSection } from "./osd.ts";
import type { CraftSize } from "./questions.ts";
import { entry, type ScriptLine, type ScriptSection } from "./script-text.ts";

/** The input for a new craft. */
export interface CraftToWrite {
  readonly answers: Answers;
  /** The craft made of the handset and the layers alone. */
  readonly below: Craft;
  /** The band of the link from the answers; null where the handset does not give one. */
  readonly band: string | null;
  readonly habits: Habits;
}

/** The input, with the values that follow from the answers. */
interface CraftPlan extends CraftToWrite {
  readonly size: SizeFacts;
  readonly pilot: PilotFacts;
  readonly gps: boolean;
  writer(section: string): EntryWriter;
}

/** The sections. Values of layers are not repeated, except where an answer differs from them. */
export function sectionsOf(craft: CraftToWrite): readonly ScriptSection[] {
  const { answers, below, habits } = craft;
  const plan: CraftPlan = {
    ...craft,
    size: SIZE_FACTS[answers.size as CraftSize],
    pilot: PILOT_FACTS[answers.pilot as string]!,
    gps: answers.gps === "yes",
    writer: (section) => entryWriterOver(below, section),
  };
  const { levelAtRest, turtle } = plan.pilot;
  const modes = planModes({ below, habits, levelAtRest, returnHome: plan.gps, turtle });
  const sections = [
    frame(plan),
    pack(plan),
    link(plan),
    section("modes", null, modes),
    safety(plan),
    failsafe(plan),
    ...(plan.gps ? [navigation(plan), section("ports", null, portLines(below, answers))] : []),
    osdSection(answers, below, plan.writer("osd")),
    video(plan),
    rates(plan),
    camera(plan),
  ];
  return sections.filter(({ lines }) => lines.length > 0);
}

function section(name: string, note: string | null, lines: readonly ScriptLine[]): ScriptSection {
  return { name, note, lines };
}

function frame({ answers, size, writer }: CraftPlan): ScriptSection {
  const { answered, isSet, unknown } = writer("frame");
  const ducted = answers.ducts === "yes";
  const mass = (ducted ? DUCTED_MASS[answers.size as CraftSize] : undefined) ?? size.mass;
  const fingers = "They soften a knock and still let fingers through: no leave to fly at people.";
  return section("frame", null, [
    ...answered("propeller-diameter", size.propeller),
    ...(ducted ? answered("ducts", "yes", fingers) : isSet("ducts") ? answered("ducts", "no") : []),
    ...unknown("mass", mass, "Weigh it ready to fly, write the figure here and remove the #:"),
  ]);
}

function pack({ answers, writer }: CraftPlan): ScriptSection {
  const { answered, usual, unknown } = writer("pack");
  const [cells = "", chemistry = ""] = (answers.pack as string).split(/-(.+)/);
  const volts = chemistryFacts(chemistry, Number(cells));
  return section("pack", "Never charge a pack unattended, and never fly one that is swollen.", [
    ...answered("chemistry", chemistry),
    ...answered("cells", cells),
    ...usual("full-at", volts.fullAt, "Set the charger to the same."),
    ...usual("warn-at", volts.warnAt, "Turn back at this, measured in flight …"),
    ...usual("land-at", volts.landAt, "… and be on the ground at this: below it the cells suffer."),
    ...unknown("capacity", USUAL_CAPACITY[answers.size as CraftSize], "As printed on the pack:"),
  ]);
}

function link({ answers, band, writer }: CraftPlan): ScriptSection {
  const { answered, usual, unknown } = writer("link");
  const order =
    typeof answers.order === "string" ? answered("order", answers.order, "As the handset sends the sticks.") : [];
  const unsaid = "The handset's file does not say its band; as printed on the receiver:";
  return section("link", null, [
    ...(band === null ? unknown("band", "2.4 GHz", unsaid) : answered("band", band)),
    ...order,
    ...usual("on-loss", "silent", "Set the receiver so, then try it: propellers off, and switch the handset off."),
  ]);
}

function safety({ size, pilot, gps, writer }: CraftPlan): ScriptSection {
  const { usual } = writer("safety");
  return section("safety", "What must be true before the motors may start.", [
    ...usual("arm-tilt-limit", `${size.armTiltDeg} deg`, "Not in the hand and not upside down."),
    ...usual("arm-throttle-limit", "1060 us", "Not with the throttle open."),
    ...(gps ? usual("arm-needs-fix", "yes", "Home is where it is armed, so it must know where that is.") : []),
    ...usual("idle-disarm-after", `${pilot.idleDisarmS} s`, "A craft forgotten in the grass disarms itself."),
  ]);
}

function failsafe({ pilot, gps, writer }: CraftPlan): ScriptSection {
  const { usual } = writer("failsafe");
  const then = gps
    ? [
        ...usual("then", "return", "… a longer one is: it comes home, or falls where it cannot."),
        ...usual("then-without-fix", "stop"),
      ]
    : usual("then", "stop", "… a longer one is: motors off, before it flies where nobody steers it.");
  return section("failsafe", "What it does when it no longer hears the handset.", [
    ...usual("hold-for", pilot.holdForS, "A short gap is nothing …"),
    ...then,
  ]);
}

function navigation({ size: { returnHeightM }, writer }: CraftPlan): ScriptSection {
  const { usual, unknown } = writer("navigation");
  return section("navigation", null, [
    ...usual("return-height", `${returnHeightM} m`, "Above everything between it and you: go and look."),
    ...unknown("obstacle-height", `${returnHeightM - 10} m`, "The tallest of it, and it is checked:"),
  ]);
}

function video({ answers, writer }: CraftPlan): ScriptSection {
  const { answered, usual, unknown } = writer("video");
  return section("video", "Frequency and power are a matter of local law: look it up before you raise them.", [
    ...answered("signal", answers.video as string),
    ...usual("power", "25 mW", "Aerial on before the pack goes in, always."),
    ...unknown("region", "europe", "Say where you fly, and both are checked:"),
  ]);
}

function rates({ size, pilot, writer }: CraftPlan): ScriptSection {
  const { isSet, usual } = writer("rates");
  const rate = (slope: number, end: number) =>
    `slope ${slope} deg/s  end ${Math.min(end, size.fastestDegPerS)} deg/s  bend 3`;
  const less = "Less to be frightened by; take the line away when it is too little.";
  return section("rates", isSet("roll") ? null : pilot.ratesNote, [
    ...usual("roll", rate(pilot.slopeDegPerS, pilot.endDegPerS)),
    ...usual("pitch", rate(pilot.slopeDegPerS, pilot.endDegPerS)),
    ...usual("yaw", rate(pilot.yawSlopeDegPerS, pilot.yawEndDegPerS)),
    ...(pilot.throttlePercent === null ? [] : usual("throttle-limit", `${pilot.throttlePercent} %`, less)),
  ]);
}

function camera({ pilot, writer }: CraftPlan): ScriptSection {
  const why = "The more, the faster one has to fly to see ahead.";
  return section("camera", null, writer("camera").usual("uptilt", `${pilot.uptiltDeg} deg`, why));
}

/** Entries for receiver, video and satellite receiver on ports that are still free. */
function portLines(below: Craft, answers: Answers): ScriptLine[] {
  const ports = below.settings.get("ports");
  const uses = new Set([...(ports?.values() ?? [])].map(({ text }) => text));
  const parts = ["receiver", ...(answers.video === "digital" ? ["video"] : []), "gps"].filter((use) => !uses.has(use));
  const free = [1, 2, 3, 4, 5, 6, 7, 8].map((port) => `port${port}`).filter((port) => !ports?.has(port));
  const note = "Which plug each part sits in: look, and put your own numbers.";
  return parts.flatMap((use, i) => (free[i] ? [entry(free[i], use, i === 0 ? note : null)] : []));
}
