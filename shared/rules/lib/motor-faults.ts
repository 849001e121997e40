/** Where what a craft says of its motors does not agree: the findings of a rule, and what a drawing of them marks. */
import type { Craft, Setting } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { Location } from "../engine/rule.ts";
import type { Arrangement } from "./motor-arrangements.ts";
import { type FrameCounts, frameCounts, possibleArrangements } from "./motor-counts.ts";
import { faultCount, isTurning, otherWay, type TurningFault, turningOf } from "./motor-turning.ts";
import { type SaidMotor, saidMotors } from "./said-motors.ts";
import { lineInWords } from "./words-of-place.ts";

/** A fault among motors. */
export interface MotorFault {
  /** What does not agree: number and layout, one motor too many, a corner, an output, a place or a direction. */
  readonly kind: "count" | "beyond" | "corner" | "output" | "astray" | "direction" | "spin";
  /** In a sentence or two: what is wrong and what to do. */
  readonly message: string;
  /** A known part of a line, or all that a setting or a motor says there. */
  readonly at: Location | { readonly valueOf: Setting } | { readonly headOf: Setting };
  /** Other settings that it rests on. */
  readonly others: readonly Setting[];
  /** The numbers of the motors that are at fault; none where it is none of theirs. */
  readonly motors: readonly number[];
  /** The numbers of those that they are at odds with. */
  readonly against: readonly number[];
}

/** How motors stand, as far as it follows from what is said. */
export interface MotorStand {
  readonly said: readonly SaidMotor[];
  readonly frame: FrameCounts;
  /** The arrangement that what is said agrees with best; null for frames of which none is known. */
  readonly arrangement: Arrangement | null;
  /** Whether others would do as well. */
  readonly isOneOfSeveral: boolean;
  readonly faults: readonly MotorFault[];
}

/** Makes words for the lines of motors. */
interface Naming {
  /** “motor2 (front-left, line 12)” */
  named(motor: SaidMotor): string;
  line(setting: Setting): string;
}

function namingFor(craft: Craft): Naming {
  const line = ({ source }: Pick<Location, "source">) => lineInWords(source, craft);
  return {
    named: ({ name, place, setting }) => `${name} (${place ? `${place.is}, ` : ""}${line(place?.at ?? setting)})`,
    line,
  };
}

/** Everything that follows from what a craft says of its motors, faults first to last in the order of a reader. */
export function motorStand(craft: Craft): MotorStand {
  const said = saidMotors(craft);
  const frame = frameCounts(craft);
  const naming = namingFor(craft);
  const faults = countFaults(naming, frame, said);
  const within = said.filter(({ number }) => number <= (frame.most ?? number));
  faults.push(...sharedFaults(naming, within));
  const places = within.map(({ place }) => place?.is);
  const placed = within.filter(({ place }, i) => place && places.indexOf(place.is) === i);
  const possible = possibleArrangements(frame, within);
  const astray = ({ places: has }: Arrangement) => placed.filter(({ place }) => !has.has(place!.is)).length;
  const [nearest] = [...possible].sort((a, b) => astray(a) - astray(b));
  if (!nearest) return { said, frame, arrangement: null, isOneOfSeveral: false, faults };
  if (astray(nearest) > 0) {
    faults.push(...misplaced(naming, frame, placed, nearest));
    return { said, frame, arrangement: nearest, isOneOfSeveral: false, faults };
  }
  const spin = settingOf(craft, "motors.spin");
  const word = spin?.value?.kind === "choice" ? spin.value.word : null;
  const turning = placed.filter(isTurning);
  // Where the frame is not said whole, whatever is right on one that it may be is right.
  const fitting = possible.filter((each) => astray(each) === 0);
  const judged = fitting
    .map((arrangement) => ({ arrangement, ...turningOf(turning, arrangement, word) }))
    .sort((a, b) => faultCount(a) - faultCount(b));
  // Of several that are right four arms are the usual ones.
  const best = judged.find((each) => faultCount(each) === 0 && each.arrangement.arms.length === 4) ?? judged[0];
  faults.push(...best!.faults.map((fault) => turningFault(naming, fault)));
  const against = best!.againstSpin;
  if (spin && word !== null && against)
    faults.push({
      kind: "spin",
      at: { valueOf: spin },
      message: `With ${word} a motor at ${against.place.is} turns ${otherWay(against.direction.is)}, seen from above, and ${naming.named(against)} turns ${against.direction.is}: correct the one that is not so.`,
      others: [against.setting],
      motors: [against.number],
      against: [],
    });
  return { said, frame, arrangement: best!.arrangement, isOneOfSeveral: fitting.length > 1, faults };
}

/** Number against layout, and motors for which neither has room. */
function countFaults({ line }: Naming, frame: FrameCounts, said: readonly SaidMotor[]): MotorFault[] {
  const { count, layout, fitting, differ, most } = frame;
  const faults: MotorFault[] = [];
  if (count && layout && differ)
    faults.push({
      kind: "count",
      at: { valueOf: count.setting },
      message: `The frame is said to have ${count.is} motors, and arm-layout ${layout.is} (${line(layout.setting)}) has ${fitting.join(" or ")}: correct the one that is not so.`,
      others: [layout.setting],
      motors: [],
      against: [],
    });
  const beyond = said.filter(({ number }) => most !== null && number > most);
  const [first] = beyond;
  const limit = count ?? layout;
  if (first && limit)
    faults.push({
      kind: "beyond",
      at: { headOf: first.setting },
      message: `The frame has ${most} motors (frame.${limit.setting.name}, ${line(limit.setting)}), and ${joinWithAnd(beyond.map(({ name }) => name))} ${beyond.length === 1 ? "is" : "are"} said beyond them: correct the number, or take away what is not there.`,
      others: [limit.setting, ...beyond.slice(1).map(({ setting }) => setting)],
      motors: beyond.map(({ number }) => number),
      against: [],
    });
  return faults;
}

/** Two motors at one place or on one output, the later one at fault. */
function sharedFaults({ named }: Naming, said: readonly SaidMotor[]): MotorFault[] {
  return said.flatMap((motor, i) => {
    const before = said.slice(0, i);
    const { place, output, number } = motor;
    const there = place && before.find((each) => each.place?.is === place.is);
    const wired = output && before.find((each) => each.output?.is === output.is);
    const faults: MotorFault[] = [];
    if (place && there)
      faults.push({
        kind: "corner",
        at: place.at,
        message: `${motor.name} stands at ${place.is}, where ${named(there)} stands already: look which of them turns when it is spun alone, with the propellers off.`,
        others: [there.setting],
        motors: [number],
        against: [there.number],
      });
    if (output && wired)
      faults.push({
        kind: "output",
        at: output.at,
        message: `${motor.name} is wired to output ${output.is}, as ${named(wired)} is: both would do the same, so look which wire goes where.`,
        others: [wired.setting],
        motors: [number],
        against: [wired.number],
      });
    return faults;
  });
}

/** Motors at places that no frame of this number and layout has. `nearest` has the most of their places. */
function misplaced(
  { line }: Naming,
  { count, layout }: FrameCounts,
  placed: readonly SaidMotor[],
  nearest: Arrangement,
): MotorFault[] {
  const astray = placed.filter(({ place }) => place && !nearest.places.has(place.is));
  const [first] = astray;
  const settings = [count?.setting, layout?.setting].filter((each) => each !== undefined);
  if (!first?.place || settings.length === 0) return [];
  const others = astray.slice(1).map(({ name, place }) => `${name} at ${place!.is}`);
  const besides = others.length > 0 ? `, nor ${joinWithAnd(others)}` : "";
  const frame = joinWithAnd(settings.map((each) => `${each.name} ${each.text} (${line(each)})`));
  return [
    {
      kind: "astray",
      at: first.place.at,
      message: `With ${frame} and the other motors where they stand, ${first.name} has no place at ${first.place.is}${besides}: such a frame has ${joinWithAnd([...nearest.places])}.`,
      others: [...settings, ...astray.slice(1).map(({ setting }) => setting)],
      motors: astray.map(({ number }) => number),
      against: [],
    },
  ];
}

const WHY: Readonly<Record<TurningFault["kind"], string>> = {
  neighbours: "neighbours must turn against each other",
  pair: "the two motors of one arm must turn against each other",
  "same-way": "round the frame every second motor turns the same way",
  "other-way": "round the frame every second motor turns the other way",
};

function turningFault({ named }: Naming, { kind, one, others }: TurningFault): MotorFault {
  const turn = others.length === 1 ? "turns" : "turn";
  const how = others[0]!.direction.is;
  return {
    kind: "direction",
    at: one.direction.at,
    message: `${one.name} at ${one.place.is} turns ${one.direction.is}, and ${joinWithAnd(others.map(named))} ${turn} ${how === one.direction.is ? "so too" : how}: ${WHY[kind]}, or the craft spins as it leaves the ground. Look which of them turns the other way.`,
    others: others.map(({ setting }) => setting),
    motors: [one.number],
    against: others.map(({ number }) => number),
  };
}
