/** The motors of a craft as they stand round it: corners, numbers, directions, and what cannot be so. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft } from "../../model/craft.ts";
import { knownPart } from "../../model/known-part.ts";
import { oncePer } from "../../model/memo.ts";
import { choiceOf, settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { MotorConflict, MotorCorner, MotorsPicture, MotorTurn, PlacedMotor } from "../../protocol/motors.ts";
import { type Arrangement, isUnder } from "../../rules/lib/motor-arrangements.ts";
import { type MotorFault, type MotorStand, motorStand } from "../../rules/lib/motor-faults.ts";
import { turnBySpin } from "../../rules/lib/motor-turning.ts";
import { MOTORS, motorNumber, type SaidMotor } from "../../rules/lib/said-motors.ts";
import { lineInWords } from "../../rules/lib/words-of-place.ts";
import { pointOf } from "./motor-corners.ts";
import { unknownOfMotors } from "./motors-unknown.ts";

/**
 * Computed once for each craft; null where nothing is said of its motors' number, layout or places. Faults are those
 * of the rule `motor-layout`; where a used file is missing, only those that do not depend on it.
 */
export function motorsPicture(craft: Craft, { catalogue }: Pick<Workspace, "catalogue">): MotorsPicture | null {
  return drawable(craft, catalogue);
}

const drawable = oncePer((craft: Craft, catalogue: Catalogue): MotorsPicture | null => {
  const stand = motorStand(craft);
  const numbers = MOTORS.names(catalogue).flatMap((path) => motorNumber(path.slice("motors.".length)) ?? []);
  const unread = unreadMotors(craft);
  if (!stand.frame.count && !stand.frame.layout && stand.said.length === 0 && unread.length === 0) return null;
  const faults = certainFaults(stand, craft, catalogue);
  const spin = choiceOf(craft, "motors.spin") ?? null;
  const layout = layoutOf(stand);
  const corners = cornersOf(stand, layout, faults.some(({ kind }) => UNSETTLING.has(kind)) ? null : spin);
  const count = motorCount(stand);
  const listed = new Set([
    ...stand.said.map(({ number }) => number),
    ...unread,
    ...numbers.filter((number) => number <= (count ?? stand.arrangement?.places.size ?? 0)),
  ]);
  const motors = [...listed]
    .sort((a, b) => a - b)
    .map((number): PlacedMotor => {
      const said = stand.said.find((each) => each.number === number);
      if (said) return placedMotor(said, stand, corners, layout, faults);
      const setting = settingOf(craft, `motors.motor${number}`);
      const why = setting && [`The line of motor${number} (${lineInWords(setting.source, craft)}) cannot be read.`];
      return { ...UNPLACED, number, faults: why ?? [], at: setting?.source ?? null, isRead: setting === undefined };
    });
  return {
    layout,
    corners,
    motors,
    spin,
    spinAt: settingOf(craft, "motors.spin")?.source ?? null,
    conflicts: faults.flatMap(conflictsOf),
    faults: faults.filter((each) => each.motors.length === 0).map(({ message }) => message),
    unknown: unknownOfMotors({ stand, corners, motors, spin, count, most: Math.max(...numbers) }),
  };
});

/** Faults with which nothing follows from what is said of the whole set. */
const UNSETTLING: ReadonlySet<MotorFault["kind"]> = new Set(["count", "astray", "direction", "spin"]);

const UNPLACED = {
  place: null,
  x: 0,
  y: 0,
  isUnder: false,
  direction: null,
  directionFrom: null,
  output: null,
  limitPercent: null,
} as const;

/** The motors whose lines have a fault. */
function unreadMotors(craft: Craft): number[] {
  return [...(craft.settings.get("motors")?.values() ?? [])].flatMap(({ name, value }) => {
    const number = motorNumber(name);
    return number === null || value !== null ? [] : [number];
  });
}

/** Without those that what is missing may make good. */
function certainFaults(stand: MotorStand, craft: Craft, catalogue: Catalogue): readonly MotorFault[] {
  if (craft.gaps.length === 0 || stand.faults.length === 0) return stand.faults;
  const known = new Set(motorStand(knownPart(craft, catalogue)).faults.map(({ message }) => message));
  return stand.faults.filter(({ message }) => known.has(message));
}

/** As it is said; else the one that has these places, where there is but one. */
function layoutOf({ frame, arrangement, isOneOfSeveral }: MotorStand): string | null {
  if (frame.layout) return frame.layout.is;
  const [only, ...others] = arrangement?.layouts ?? [];
  return only === undefined || others.length > 0 || isOneOfSeveral ? null : only;
}

/** How many motors the frame has, as far as that follows; null where it does not. */
function motorCount({ frame, arrangement, isOneOfSeveral }: MotorStand): number | null {
  if (frame.count) return frame.count.is;
  if (frame.fitting.length === 1) return frame.fitting[0]!;
  return arrangement && !isOneOfSeveral && frame.fitting.length > 0 ? arrangement.places.size : null;
}

function cornersOf({ arrangement, isOneOfSeveral }: MotorStand, layout: string | null, spin: string | null) {
  return [...(arrangement?.places ?? [])]
    .map((place): MotorCorner => {
      const known = spin !== null && !isOneOfSeveral;
      const turn = known && arrangement ? turnBySpin(arrangement, place, spin) : null;
      const point = pointOf(place, arrangement, layout)!;
      return { place, ...point, isUnder: isUnder(place), direction: turnOf(turn) };
    })
    .sort((a, b) => Number(a.isUnder) - Number(b.isUnder));
}

function turnOf(word: string | null | undefined): MotorTurn | null {
  return word === "clockwise" || word === "anticlockwise" ? word : null;
}

function placedMotor(
  said: SaidMotor,
  { arrangement }: { readonly arrangement: Arrangement | null },
  corners: readonly MotorCorner[],
  layout: string | null,
  faults: readonly MotorFault[],
): PlacedMotor {
  const { number, setting } = said;
  const place = said.place?.is ?? null;
  const own = turnOf(said.direction?.is);
  const bySpin = corners.find((corner) => corner.place === place)?.direction ?? null;
  return {
    ...UNPLACED,
    number,
    ...(place !== null && { place, ...pointOf(place, arrangement, layout), isUnder: isUnder(place) }),
    direction: own ?? bySpin,
    directionFrom: own ? "own" : bySpin ? "spin" : null,
    output: said.output?.is ?? null,
    limitPercent: said.limitPercent?.is ?? null,
    faults: faults.filter(({ motors }) => motors.includes(number)).map(({ message }) => message),
    at: said.place?.at.source ?? setting.source,
    isRead: true,
  };
}

function conflictsOf({ kind, motors, against }: MotorFault): MotorConflict[] {
  if (kind !== "corner" && kind !== "output" && kind !== "direction") return [];
  return motors.flatMap((one) => against.map((other): MotorConflict => ({ kind, motors: [other, one] })));
}
