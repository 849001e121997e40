/** Where the places of motors lie above a frame: x to the right, y forwards, the arms one unit long. */
import type { MotorPoint } from "../../protocol/motors.ts";
import { type Arrangement, isUnder, upperPlace } from "../../rules/lib/motor-arrangements.ts";

/** The angle of an arm, anticlockwise from the right, for frames whose arms are not evenly spread. */
const AXES: Readonly<Record<string, number>> = { right: 0, front: 90, left: 180, rear: -90 };

/**
 * Half the angle between the two front arms of four that are no true X. The script says no measure of it; a third
 * longer one way than the other is a usual frame (common practice, no source).
 */
const HALF_FRONT_DEG: Readonly<Record<string, number>> = { "wide-x": 53, "stretched-x": 37 };

/** Where a place lies on a frame of which no arrangement is known, by its word alone. */
const LONE_DEG: Readonly<Record<string, number>> = {
  ...AXES,
  "front-right": 45,
  "front-left": 135,
  "rear-left": -135,
  "rear-right": -45,
  "right-front": 22,
  "left-front": 158,
  "left-rear": -158,
  "right-rear": -22,
};

/** The point of a place in an arrangement, or by its word alone where it has none there; null for a word that is no place. */
export function pointOf(place: string, arrangement: Arrangement | null, layout: string | null): MotorPoint | null {
  const arm = isUnder(place) ? upperPlace(place) : place;
  const index = arrangement?.arms.indexOf(arm) ?? -1;
  const deg = index < 0 || !arrangement ? LONE_DEG[arm] : armDeg(index, arrangement, layout);
  if (deg === undefined) return null;
  const rad = (deg * Math.PI) / 180;
  return { x: exact(Math.cos(rad)), y: exact(Math.sin(rad)) };
}

/** Arms are counted clockwise: evenly spread, from straight ahead or from the left of it. */
function armDeg(index: number, { arms }: Arrangement, layout: string | null): number {
  const arm = arms[index]!;
  if (arms.every((each) => each in AXES)) return AXES[arm]!;
  const half = layout === null ? undefined : HALF_FRONT_DEG[layout];
  if (half !== undefined && arms.length === 4) {
    const fromAhead = arm.startsWith("front") ? half : 180 - half;
    return 90 + (arm.endsWith("left") ? fromAhead : -fromAhead);
  }
  const step = 360 / arms.length;
  return 90 + (arms[0] === "front" ? 0 : step / 2) - index * step;
}

/** Without the dust of the computation, so that equal places are equal. */
function exact(value: number): number {
  return Math.round(value * 1e6) / 1e6 + 0;
}
