import type { Craft, Setting } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { CraftRule, Location, Report } from "../engine/rule.ts";
import { headLocation, restingOn, valueLocation } from "../lib/locations.ts";
import type { Arrangement } from "../lib/motor-arrangements.ts";
import { type FrameCounts, frameCounts, possibleArrangements } from "../lib/motor-counts.ts";
import { faultCount, isTurning, otherWay, type TurningFault, turningOf } from "../lib/motor-turning.ts";
import { MOTORS, type SaidMotor, saidMotors } from "../lib/said-motors.ts";
import { lineInWords } from "../lib/words-of-place.ts";

/** Makes a report of which further settings are part, and words for their lines. */
interface Reporting {
  report(at: Location, message: string, others: readonly Setting[]): Report;
  /** “motor2 (front-left, line 12)” */
  named(motor: SaidMotor): string;
  line(setting: Setting): string;
  head(motor: SaidMotor): Location;
}

function reportingOf(craft: Craft, workspace: Workspace): Reporting {
  const line = ({ source }: Pick<Location, "source">) => lineInWords(source, craft);
  return {
    report: (at, message, others) => ({ at, message, ...restingOn(others, workspace) }),
    named: ({ name, place, setting }) => `${name} (${place ? `${place.is}, ` : ""}${line(place?.at ?? setting)})`,
    line,
    head: ({ setting }) => headLocation(workspace, setting.source),
  };
}

/** Number against layout, and motors for which neither has room. */
function countFaults(craft: Craft, workspace: Workspace, frame: FrameCounts, said: readonly SaidMotor[]): Report[] {
  const { report, line, head } = reportingOf(craft, workspace);
  const { count, layout, fitting, differ, most } = frame;
  const reports: Report[] = [];
  if (count && layout && differ)
    reports.push(
      report(
        valueLocation(workspace, count.setting.source),
        `The frame is said to have ${count.is} motors, and arm-layout ${layout.is} (${line(layout.setting)}) has ${fitting.join(" or ")}: correct the one that is not so.`,
        [layout.setting],
      ),
    );
  const beyond = said.filter(({ number }) => most !== null && number > most);
  const [first] = beyond;
  const limit = count ?? layout;
  if (first && limit)
    reports.push(
      report(
        head(first),
        `The frame has ${most} motors (frame.${limit.setting.name}, ${line(limit.setting)}), and ${joinWithAnd(beyond.map(({ name }) => name))} ${beyond.length === 1 ? "is" : "are"} said beyond them: correct the number, or take away what is not there.`,
        [limit.setting, ...beyond.slice(1).map(({ setting }) => setting)],
      ),
    );
  return reports;
}

/** Two motors at one place or on one output, the later one at fault. */
function sharedFaults({ report, named }: Reporting, said: readonly SaidMotor[]): Report[] {
  return said.flatMap((motor, i) => {
    const before = said.slice(0, i);
    const { place, output } = motor;
    const there = place && before.find((each) => each.place?.is === place.is);
    const wired = output && before.find((each) => each.output?.is === output.is);
    return [
      ...(place && there
        ? [
            report(
              place.at,
              `${motor.name} stands at ${place.is}, where ${named(there)} stands already: look which of them turns when it is spun alone, with the propellers off.`,
              [there.setting],
            ),
          ]
        : []),
      ...(output && wired
        ? [
            report(
              output.at,
              `${motor.name} is wired to output ${output.is}, as ${named(wired)} is: both would do the same, so look which wire goes where.`,
              [wired.setting],
            ),
          ]
        : []),
    ];
  });
}

/** Motors at places that no frame of this number and layout has. `nearest` has the most of their places. */
function misplaced(
  { report, line }: Reporting,
  { count, layout }: FrameCounts,
  placed: readonly SaidMotor[],
  nearest: Arrangement,
): Report[] {
  const astray = placed.filter(({ place }) => place && !nearest.places.has(place.is));
  const [first] = astray;
  const settings = [count?.setting, layout?.setting].filter((each) => each !== undefined);
  if (!first?.place || settings.length === 0) return [];
  const others = astray.slice(1).map(({ name, place }) => `${name} at ${place!.is}`);
  const besides = others.length > 0 ? `, nor ${joinWithAnd(others)}` : "";
  const frame = joinWithAnd(settings.map((each) => `${each.name} ${each.text} (${line(each)})`));
  return [
    report(
      first.place.at,
      `With ${frame} and the other motors where they stand, ${first.name} has no place at ${first.place.is}${besides}: such a frame has ${joinWithAnd([...nearest.places])}.`,
      [...settings, ...astray.slice(1).map(({ setting }) => setting)],
    ),
  ];
}

const WHY: Readonly<Record<TurningFault["kind"], string>> = {
  neighbours: "neighbours must turn against each other",
  pair: "the two motors of one arm must turn against each other",
  "same-way": "round the frame every second motor turns the same way",
  "other-way": "round the frame every second motor turns the other way",
};

function turningFault({ report, named }: Reporting, { kind, one, others }: TurningFault): Report {
  const turn = others.length === 1 ? "turns" : "turn";
  const how = others[0]!.direction.is;
  return report(
    one.direction.at,
    `${one.name} at ${one.place.is} turns ${one.direction.is}, and ${joinWithAnd(others.map(named))} ${turn} ${how === one.direction.is ? "so too" : how}: ${WHY[kind]}, or the craft spins as it leaves the ground. Look which of them turns the other way.`,
    others.map(({ setting }) => setting),
  );
}

export const rule: CraftRule = {
  code: "motor-layout",
  severity: "error",
  scope: "craft",
  summary: "What is said of the motors does not agree: their number, layout, places, outputs or directions.",
  prose:
    "The board mixes thrust by what stands here. With two motors at one corner, one too many, or a neighbour that turns the wrong way, what should level the craft throws it over as it lifts, or spins it round. Take the propellers off, turn each motor alone, and write down which corner answers and which way it goes. Round a frame neighbours turn against each other, and of two on one arm each against the other.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nframe\n  motors 4\n  arm-layout true-x\n\nmotors\n  motor1 place rear-left direction clockwise\n  motor2 place front-left direction clockwise\n',
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nframe\n  motors 4\n  arm-layout true-x\n\nmotors\n  spin props-in\n  motor1 place rear-left direction anticlockwise\n  motor2 place front-left direction clockwise\n',
    },
  },
  looksAt: { settings: ["frame.motors", "frame.arm-layout", "motors.spin", MOTORS] },
  check(craft, workspace) {
    const said = saidMotors(craft);
    const frame = frameCounts(craft);
    const reports = countFaults(craft, workspace, frame, said);
    const words = reportingOf(craft, workspace);
    const within = said.filter(({ number }) => number <= (frame.most ?? number));
    reports.push(...sharedFaults(words, within));
    const places = within.map(({ place }) => place?.is);
    const placed = within.filter(({ place }, i) => place && places.indexOf(place.is) === i);
    const possible = possibleArrangements(frame, within);
    const astray = ({ places: has }: Arrangement) => placed.filter(({ place }) => !has.has(place!.is)).length;
    const [nearest] = [...possible].sort((a, b) => astray(a) - astray(b));
    if (!nearest) return reports;
    if (astray(nearest) > 0) return [...reports, ...misplaced(words, frame, placed, nearest)];
    const spin = settingOf(craft, "motors.spin");
    const word = spin?.value?.kind === "choice" ? spin.value.word : null;
    const turning = placed.filter(isTurning);
    // Where the frame is not said whole, whatever is right on one that it may be is right.
    const [best] = possible
      .filter((each) => astray(each) === 0)
      .map((each) => turningOf(turning, each, word))
      .sort((a, b) => faultCount(a) - faultCount(b));
    reports.push(...best!.faults.map((fault) => turningFault(words, fault)));
    const against = best!.againstSpin;
    if (spin && against)
      reports.push(
        words.report(
          valueLocation(workspace, spin.source),
          `With ${word} a motor at ${against.place.is} turns ${otherWay(against.direction.is)}, seen from above, and ${words.named(against)} turns ${against.direction.is}: correct the one that is not so.`,
          [against.setting],
        ),
      );
    return reports;
  },
};
