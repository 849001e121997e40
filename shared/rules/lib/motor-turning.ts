/**
 * Which motors of an arrangement turn the wrong way: against their neighbours, against the other motor of
 * their arm, or all of them against what is said of the whole set.
 */
import { type Arrangement, underPlace } from "./motor-arrangements.ts";
import type { MotorFact, SaidMotor } from "./said-motors.ts";

/** A motor whose place and direction are said. */
export interface TurningMotor extends SaidMotor {
  readonly place: MotorFact<string>;
  readonly direction: MotorFact<string>;
}

/** `one` turns as `others` do not let it. */
export interface TurningFault {
  /** Besides neighbours and the two of an arm: motors further apart that must turn alike, or against each other. */
  readonly kind: "neighbours" | "pair" | "same-way" | "other-way";
  readonly one: TurningMotor;
  readonly others: readonly TurningMotor[];
}

export interface Turning {
  readonly faults: readonly TurningFault[];
  /** A motor that turns against what is said of the whole set, where most of them do. */
  readonly againstSpin: TurningMotor | null;
}

const ANTICLOCKWISE = "anticlockwise";
const FRONT = ["front-left", "front-right"] as const;

export function faultCount({ faults, againstSpin }: Turning): number {
  return faults.length + (againstSpin ? 1 : 0);
}

export function isTurning(motor: SaidMotor): motor is TurningMotor {
  return motor.place !== null && motor.direction !== null;
}

/** The other way to turn. */
export function otherWay(direction: string): string {
  return direction === ANTICLOCKWISE ? "clockwise" : ANTICLOCKWISE;
}

/** The way in which a motor at the front left turns, seen from above: its inner side is its right one. */
export function frontLeftTurns(spin: string): string {
  return spin === "props-in" ? "clockwise" : ANTICLOCKWISE;
}

/** Which way a motor at a place turns by what is said of the whole set; null where that does not tell. */
export function turnBySpin({ arms, alternates }: Arrangement, place: string, spin: string): string | null {
  const index = arms.indexOf(place);
  if (!alternates || index < 0 || arms[0] !== FRONT[0] || arms[1] !== FRONT[1]) return null;
  return index % 2 === 0 ? frontLeftTurns(spin) : otherWay(frontLeftTurns(spin));
}

/** The faults of motors that stand in an arrangement, each at another of its places. `spin` is that of the whole set. */
export function turningOf(motors: readonly TurningMotor[], arrangement: Arrangement, spin: string | null): Turning {
  if (arrangement.stacked) return { faults: pairFaults(motors, arrangement), againstSpin: stackedSpin(motors, spin) };
  return arrangement.alternates ? ringTurning(motors, arrangement, spin) : { faults: [], againstSpin: null };
}

/** The two motors of an arm must turn against each other. */
function pairFaults(motors: readonly TurningMotor[], { arms }: Arrangement): TurningFault[] {
  return arms.flatMap((arm): TurningFault[] => {
    const upper = motors.find(({ place }) => place.is === arm);
    const lower = motors.find(({ place }) => place.is === underPlace(arm));
    if (!upper || !lower || upper.direction.is !== lower.direction.is) return [];
    return [{ kind: "pair", one: lower, others: [upper] }];
  });
}

/** Of stacked motors the upper ones count, and only two that turn against each other: on some frames all upper ones turn alike. */
function stackedSpin(motors: readonly TurningMotor[], spin: string | null): TurningMotor | null {
  const [left, right] = FRONT.map((place) => motors.find((motor) => motor.place.is === place));
  if (!left || !right || spin === null || left.direction.is === right.direction.is) return null;
  return left.direction.is === frontLeftTurns(spin) ? null : left;
}

/** Round the frame the motors turn one way and the other by turns. */
function ringTurning(motors: readonly TurningMotor[], { arms }: Arrangement, spin: string | null): Turning {
  const at = (motor: TurningMotor) => arms.indexOf(motor.place.is);
  /** How the first arm would turn by this motor. */
  const firstArm = (motor: TurningMotor) => (at(motor) % 2 === 0 ? motor.direction.is : otherWay(motor.direction.is));
  const bySpin = spin !== null && arms[0] === FRONT[0] && arms[1] === FRONT[1] ? frontLeftTurns(spin) : null;
  const ways = new Map<string, TurningMotor[]>();
  for (const motor of motors) ways.set(firstArm(motor), [...(ways.get(firstArm(motor)) ?? []), motor]);
  const [some = [], rest = []] = [...ways.values()].sort((a, b) => b.length - a.length);
  const tied = some.length === rest.length && some.length > 0;
  const [rightOnes, wrongOnes] = tied && bySpin !== null && firstArm(some[0]!) !== bySpin ? [rest, some] : [some, rest];
  // What is said of the set speaks of the front.
  const first = rightOnes.find((each) => at(each) < 2) ?? rightOnes[0];
  const againstSpin = first && bySpin !== null && firstArm(first) !== bySpin ? first : null;
  const distance = (a: TurningMotor, b: TurningMotor) => Math.abs(at(a) - at(b));
  const areNeighbours = (a: TurningMotor, b: TurningMotor) => [1, arms.length - 1].includes(distance(a, b));
  const faultOf = (one: TurningMotor): TurningFault => {
    const neighbours = rightOnes.filter((each) => areNeighbours(one, each));
    if (neighbours.length > 0) return { kind: "neighbours", one, others: neighbours };
    const [other] = rightOnes;
    return { kind: distance(one, other!) % 2 === 0 ? "same-way" : "other-way", one, others: [other!] };
  };
  // Of as many that turn one way as the other nobody knows which are wrong: one finding for them all.
  const reported = tied && bySpin === null ? wrongOnes.slice(-1) : wrongOnes;
  return { faults: reported.map(faultOf), againstSpin };
}
