/** Where the motors of a craft lie in a drawing of a width, and which corner is next to where. */
import type { MotorCorner, MotorPoint, MotorsPicture, PlacedMotor } from "../protocol/motors.ts";

/** A spot of the drawing, in its own units. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

export interface CornerSpot extends Spot {
  readonly corner: MotorCorner;
}

export interface MotorSpot extends Spot {
  readonly motor: PlacedMotor;
  /** Of the circle that its propeller sweeps. */
  readonly radius: number;
}

export interface MotorsLayout {
  readonly width: number;
  /** Of the frame with its corners; what has no corner is below it. */
  readonly frameHeight: number;
  readonly height: number;
  readonly centre: Spot;
  /** The length of an arm. */
  readonly armLength: number;
  /** Of the circle that a propeller sweeps. */
  readonly radius: number;
  readonly corners: readonly CornerSpot[];
  /** In the order of their numbers. */
  readonly motors: readonly MotorSpot[];
  /** The top of the row of motors without a corner; null where each has one. */
  readonly trayTop: number | null;
}

/** Above the frame, for the word “forward”, and between the edge and what is drawn. */
const TOP = 20;
const MARGIN = 6;
/** A line of a label. */
const LABEL_LINE = 14;
/** The widest that a frame is drawn. */
const MOST_WIDTH = 420;
const TRAY_RADIUS = 15;
const TRAY_STEP = 38;
const TRAY_HEAD = 20;
/** How much further out a lower motor is drawn than the one above it, in radii, so that both can be read. */
const UNDER_SHIFT = 1.3;
/** How far apart those are drawn that are said to stand at one place, from the first to the last, and their size, in radii. */
const CROWDED_SPAN = 1.1;
const CROWDED_SIZE = 0.62;

/** The layout for a width. */
export function motorsLayout(picture: MotorsPicture, width: number): MotorsLayout {
  const { corners, motors } = picture;
  const placed = motors.filter(({ place }) => place !== null);
  const points: readonly (MotorPoint & { readonly isUnder: boolean })[] = [...corners, ...placed];
  const share = radiusShare(points);
  const reach = ({ isUnder }: { readonly isUnder: boolean }) => share * (isUnder ? 1 + UNDER_SHIFT : 1);
  const out = (point: MotorPoint & { readonly isUnder: boolean }, axis: "x" | "y") =>
    Math.abs(point[axis]) * (1 + (point.isUnder ? share * UNDER_SHIFT : 0)) + share;
  const drawn = Math.min(width, MOST_WIDTH);
  const across = Math.max(1, ...points.map((each) => out(each, "x")));
  const armLength = (drawn / 2 - MARGIN) / across;
  const radius = share * armLength;
  const up = Math.max(0, ...points.filter(({ y }) => y >= 0).map((each) => out(each, "y"))) * armLength;
  const down = Math.max(0, ...points.filter(({ y }) => y <= 0).map((each) => out(each, "y"))) * armLength;
  const label = Math.max(1, ...motors.map(labelLines)) * LABEL_LINE + Math.max(8, 0.2 * radius);
  const centre = { x: width / 2, y: TOP + label + up };
  const at = (point: MotorPoint & { readonly isUnder: boolean }): Spot => {
    const far = armLength * (1 + (point.isUnder ? reach(point) - share : 0));
    return { x: centre.x + point.x * far, y: centre.y - point.y * far };
  };
  const frameHeight = points.length === 0 ? TOP : centre.y + down + label;
  const homeless = motors.filter(({ place }) => place === null);
  const perRow = Math.max(1, Math.floor((width - 2 * MARGIN) / TRAY_STEP));
  const rows = Math.ceil(homeless.length / perRow);
  const trayTop = rows === 0 ? null : frameHeight;
  const trayAt = (index: number): Spot => ({
    x: MARGIN + TRAY_RADIUS + 2 + (index % perRow) * TRAY_STEP,
    y: frameHeight + TRAY_HEAD + TRAY_RADIUS + 2 + Math.floor(index / perRow) * TRAY_STEP,
  });
  return {
    width,
    frameHeight,
    height: frameHeight + (rows === 0 ? 0 : TRAY_HEAD + rows * TRAY_STEP),
    centre,
    armLength,
    radius,
    corners: corners.map((corner) => ({ corner, ...at(corner) })),
    motors: motors.map((motor) =>
      motor.place === null
        ? { motor, radius: TRAY_RADIUS, ...trayAt(homeless.indexOf(motor)) }
        : { motor, ...beside(at(motor), motor, placed, radius) },
    ),
    trayTop,
  };
}

/** The largest circles that leave each other room, as a share of the arms' length. */
function radiusShare(points: readonly (MotorPoint & { readonly isUnder: boolean })[]): number {
  const apart = points.flatMap((one, index) =>
    points.slice(index + 1).map((other) => Math.hypot(one.x - other.x, one.y - other.y)),
  );
  const least = Math.min(1.3, ...apart.filter((distance) => distance > 0.01));
  return least * (points.some(({ isUnder }) => isUnder) ? 0.36 : 0.46);
}

/** Of several at one place each is drawn smaller and a little aside, along the circle round the frame. */
function beside(
  spot: Spot,
  motor: PlacedMotor,
  placed: readonly PlacedMotor[],
  radius: number,
): Spot & { radius: number } {
  const there = placed.filter(({ place }) => place === motor.place);
  if (there.length < 2) return { ...spot, radius };
  const aside = (there.indexOf(motor) / (there.length - 1) - 0.5) * CROWDED_SPAN * radius;
  return { x: spot.x + motor.y * aside, y: spot.y + motor.x * aside, radius: CROWDED_SIZE * radius };
}

/** The lines of the label of a motor's corner: its place, and what else is said of it or missing. */
function labelLines({ output, limitPercent, direction, place }: PlacedMotor): number {
  if (place === null) return 1;
  return 1 + [output !== null, limitPercent !== null, direction === null].filter(Boolean).length;
}

/** The corner under a spot, where one is near enough to be meant. */
export function cornerAt({ corners, radius }: MotorsLayout, spot: Spot): CornerSpot | null {
  const [nearest] = [...corners].sort((a, b) => distance(a, spot) - distance(b, spot));
  return nearest && distance(nearest, spot) <= radius * 1.15 ? nearest : null;
}

export type Direction = "up" | "down" | "left" | "right";

const STEPS: Readonly<Record<Direction, Spot>> = {
  up: { x: 0, y: -1 },
  down: { x: 0, y: 1 },
  left: { x: -1, y: 0 },
  right: { x: 1, y: 0 },
};

/**
 * The next corner in a direction from where a motor is, among those of the same storey; from below the frame those
 * that are free. Null where there is none.
 */
export function nextCorner(layout: MotorsLayout, number: number, direction: Direction): CornerSpot | null {
  const from = layout.motors.find(({ motor }) => motor.number === number);
  if (!from) return null;
  const { motor } = from;
  const home = layout.corners.find(({ corner }) => corner.place === motor.place) ?? from;
  const taken = new Set(layout.motors.map((each) => each.motor.place));
  const step = STEPS[direction];
  const candidates = layout.corners.filter(({ corner }) =>
    motor.place === null ? !taken.has(corner.place) : corner.place !== motor.place && corner.isUnder === motor.isUnder,
  );
  const ranked = candidates.flatMap((corner) => {
    const [dx, dy] = [corner.x - home.x, corner.y - home.y];
    const along = dx * step.x + dy * step.y;
    const aside = Math.abs(dx * step.y) + Math.abs(dy * step.x);
    // Within sixty degrees of the way, and the less aside the better.
    return along > 1 && aside <= along * 1.75 ? [{ corner, cost: along + 2 * aside }] : [];
  });
  return ranked.sort((a, b) => a.cost - b.cost)[0]?.corner ?? null;
}

/** The corner of the other storey on the same arm; null where there is none. */
export function otherStorey(layout: MotorsLayout, number: number): CornerSpot | null {
  const motor = layout.motors.find((each) => each.motor.number === number)?.motor;
  const here = layout.corners.find(({ corner }) => corner.place === motor?.place)?.corner;
  if (!here) return null;
  return (
    layout.corners.find(({ corner }) => corner.place !== here.place && corner.x === here.x && corner.y === here.y) ??
    null
  );
}

function distance(a: Spot, b: Spot): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

/** The picture with a motor at another corner, and what stood there in its place, until the script says so. */
export function withMoved(picture: MotorsPicture, number: number, place: string): MotorsPicture {
  const motor = picture.motors.find((each) => each.number === number);
  const corner = picture.corners.find((each) => each.place === place);
  if (!motor || !corner || motor.place === place) return picture;
  const [other, ...more] = picture.motors.filter((each) => each.place === place);
  // That will be refused: it is not known where what stands there should go.
  if (more.length > 0 || (other && motor.place === null)) return picture;
  const motors = picture.motors.map((each) => {
    if (each === motor) return { ...each, place, x: corner.x, y: corner.y, isUnder: corner.isUnder };
    if (each === other) return { ...each, place: motor.place, x: motor.x, y: motor.y, isUnder: motor.isUnder };
    return each;
  });
  return { ...picture, motors };
}
