/** What a craft does not say of its motors, and what to write. */
import type { MotorCorner, PlacedMotor } from "../../protocol/motors.ts";
import type { MotorStand } from "../../rules/lib/motor-faults.ts";
import { turnBySpin } from "../../rules/lib/motor-turning.ts";
import { joinWithAnd } from "../../text/list.ts";

interface Known {
  readonly stand: MotorStand;
  readonly corners: readonly MotorCorner[];
  readonly motors: readonly PlacedMotor[];
  readonly spin: string | null;
  readonly count: number | null;
  /** The highest number that a motor's line may have. */
  readonly most: number;
}

/** A sentence for each thing that is not said. */
export function unknownOfMotors({ stand, corners, motors, spin, count, most }: Known): string[] {
  return [
    ...frameUnknown(stand, count, most),
    ...placesUnknown(motors),
    ...turningUnknown(stand, corners, motors, spin),
  ];
}

function frameUnknown({ frame, arrangement, isOneOfSeveral }: MotorStand, count: number | null, most: number) {
  const sentences: string[] = [];
  const size = arrangement?.places.size ?? 4;
  if (count === null)
    sentences.push(
      `How many motors the craft has is not said, and ${size} are drawn: write it in “frame”, as in “motors ${size}”.`,
    );
  else if (count > most)
    sentences.push(`Lines can be written for ${most} motors, and the frame is said to have ${count}.`);
  if (!arrangement)
    sentences.push("No frame with that many motors is known here, so only motors whose place is said are drawn.");
  else if (frame.layout && isOneOfSeveral)
    sentences.push(
      `Frames of arm-layout ${frame.layout.is} are built in several ways, and one of them is drawn: which it is follows from the places of the motors.`,
    );
  else if (isOneOfSeveral)
    sentences.push(
      `How the arms lie is not said, so one of several ways is drawn: write it in “frame”, as in “arm-layout ${arrangement.layouts[0]}”.`,
    );
  else if (!frame.layout && arrangement.layouts.length > 1)
    sentences.push(
      `How wide the arms are spread is not said: write it in “frame”, as in “arm-layout ${arrangement.layouts[0]}”.`,
    );
  return sentences;
}

function placesUnknown(motors: readonly PlacedMotor[]): string[] {
  const homeless = motors.filter(({ place, isRead }) => place === null && isRead);
  if (homeless.length === 0) return [];
  const names = homeless.map(({ number }) => `motor${number}`);
  const stand = names.length === 1 ? "stands" : "stand";
  return [
    `Where ${joinWithAnd(names)} ${stand} is not said: with the propellers off turn each motor alone, and write which corner answers, as in “${names[0]} place rear-left”.`,
  ];
}

function turningUnknown(
  { arrangement }: MotorStand,
  corners: readonly MotorCorner[],
  motors: readonly PlacedMotor[],
  spin: string | null,
): string[] {
  const without = motors.filter(({ direction, isRead }) => direction === null && isRead);
  const follows = corners.length > 0 && corners.every(({ direction }) => direction !== null);
  if (without.length === 0 || follows) return [];
  const names = without.map(({ number }) => `motor${number}`);
  const turn = names.length === 1 ? "turns" : "turn";
  const tells = arrangement?.arms.some((arm) => turnBySpin(arrangement, arm, "props-in") !== null) ?? false;
  const ways =
    spin === null && tells
      ? "write in “motors” how the whole set turns, as in “spin props-in”, or for each motor its own"
      : "write it for each motor";
  return [`Which way ${joinWithAnd(names)} ${turn} is not said: ${ways}, as in “${names[0]} direction clockwise”.`];
}
