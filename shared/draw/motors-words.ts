/** The motors in words: for a screen reader, a table, and a list to go through on the bench. */
import type { MotorsPicture, MotorTurn, PlacedMotor } from "../protocol/motors.ts";

/** “under rear left” for the catalogue's word. */
export function placeWords(place: string): string {
  return place.replaceAll("-", " ");
}

/** What tells on the bench which propeller belongs on a motor, for the way it turns as seen from above. */
export function propellerWords(turn: MotorTurn): string {
  const side = turn === "clockwise" ? "right" : "left";
  return `with a blade pointing away from you, its thicker, higher edge is on the ${side}`;
}

/** What the drawing means. */
export function turningNotes({ motors, corners, spin }: MotorsPicture): string[] {
  const turns = [...motors, ...corners].some(({ direction }) => direction !== null);
  const follows =
    motors.some(({ directionFrom }) => directionFrom === "spin") ||
    corners.some(({ place, direction }) => direction !== null && !motors.some((motor) => motor.place === place));
  return [
    turns
      ? "Seen from above. Of a blade the thick edge goes first: where it points away from you, on the right if the motor turns clockwise, else on the left. Filled blades turn clockwise, open ones anticlockwise."
      : "Seen from above.",
    ...(follows && spin !== null
      ? [`Broken lines: it follows from “spin ${spin}”, and no line says it of the motor itself.`]
      : []),
  ];
}

/** Number, corner and turning: “motor 1, rear left, clockwise”. */
export function motorInWords({
  number,
  place,
  direction,
  directionFrom,
  output,
  limitPercent,
  faults,
  isRead,
}: PlacedMotor): string {
  const facts = [
    `motor ${number}`,
    place === null ? (isRead ? "without a corner" : "its line cannot be read") : placeWords(place),
    ...(direction === null
      ? isRead
        ? ["which way it turns is not said"]
        : []
      : [`${direction}${directionFrom === "spin" ? ", as the whole set has it" : ""}`]),
    ...(output === null ? [] : [`output ${output}`]),
    ...(limitPercent === null ? [] : [`${limitPercent} % at most`]),
    ...(faults.length === 0 ? [] : ["cannot be so"]),
  ];
  return facts.join(", ");
}

/** A sentence for each motor, then what is wrong, then what is not said. */
export function motorsInWords(picture: MotorsPicture): string[] {
  const { motors, faults, unknown, corners } = picture;
  const free = corners.filter(({ place }) => !motors.some((motor) => motor.place === place));
  return [
    ...motors.map(motorSentence),
    ...(free.length === 0 || free.length === corners.length
      ? []
      : [`No motor is said to stand at ${free.map(({ place }) => placeWords(place)).join(", ")}.`]),
    ...new Set([...faults, ...motors.flatMap((motor) => motor.faults)]),
    ...unknown,
  ];
}

function motorSentence({ number, place, direction, directionFrom, output, limitPercent }: PlacedMotor): string {
  const where = place === null ? "has no corner yet" : `stands at ${placeWords(place)}`;
  const how =
    direction === null
      ? ""
      : ` and turns ${direction} as seen from above${directionFrom === "spin" ? ", which follows from the whole set" : ""}: ${propellerWords(direction)}`;
  const wired = output === null ? "" : ` It is wired to output ${output}.`;
  const held = limitPercent === null ? "" : ` It gets ${limitPercent} % at most.`;
  return `Motor ${number} ${where}${how}.${wired}${held}`;
}

/** The head of a table of motors, and a row for each; a column of which nothing is said is left out. */
export function motorsTable({ motors }: MotorsPicture): { readonly head: string[]; readonly rows: string[][] } {
  const columns: readonly (readonly [string, (motor: PlacedMotor) => string])[] = [
    ["motor", ({ number }) => String(number)],
    ["corner", ({ place, isRead }) => (place === null ? (isRead ? "not said" : "cannot be read") : placeWords(place))],
    [
      "turns",
      ({ direction, directionFrom }) =>
        direction === null ? "not said" : `${direction}${directionFrom === "spin" ? " (follows)" : ""}`,
    ],
    ["thick edge", ({ direction }) => (direction === null ? "" : direction === "clockwise" ? "right" : "left")],
    ["output", ({ output }) => (output === null ? "" : String(output))],
    ["limit", ({ limitPercent }) => (limitPercent === null ? "" : `${limitPercent} %`)],
  ];
  const told = columns.filter(([, cell]) => motors.some((motor) => cell(motor) !== ""));
  return {
    head: told.map(([head]) => head),
    rows: motors.map((motor) => told.map(([, cell]) => cell(motor))),
  };
}
