/**
 * The motors from above: a jug with its spout forward as the body, arms, and at their ends the propellers, each with
 * its number, the way it turns and which edge of a blade goes first. What cannot be so is hatched.
 */
import type { MotorConflict, MotorsPicture, PlacedMotor } from "../protocol/motors.ts";
import { motorLabels } from "./motors-labels.ts";
import { type CornerSpot, type MotorSpot, type MotorsLayout, motorsLayout, type Spot } from "./motors-layout.ts";
import { turningNotes } from "./motors-words.ts";
import { blades, turningMark } from "./propeller.ts";
import { node, path, rounded, type SceneNode } from "./scene.ts";
import { lineHeight, text, textLines, wrappedWords } from "./writing.ts";

const SIZE = 11;

export interface MotorsOptions {
  readonly width?: number;
  /** `none` if the page has a heading of its own. */
  readonly heading?: "drawn" | "none";
  /** What stands below it: what the drawing means, with all what is wrong or not said as well; `none` if the page says it. */
  readonly notes?: "all" | "meaning" | "none";
  /** A motor that is being moved, where it is drawn then, and the corner on which it would come to stand. */
  readonly held?: { readonly number: number; readonly at: Spot; readonly over: string | null };
}

/** The drawing. Groups of `data-motor` lie on top, in the order of the numbers, for a page to make them buttons. */
export function motorsScene(
  picture: MotorsPicture,
  { width = 360, heading = "none", notes = "none", held }: MotorsOptions = {},
): SceneNode {
  const layout = motorsLayout(picture, width);
  const top = heading === "drawn" ? 22 : 0;
  const notesTop = layout.height + 14;
  const lines = notes === "none" ? [] : noteLines(picture, width, notes);
  const height = lines.length === 0 ? layout.height : notesTop + lines.length * lineHeight(SIZE);
  const isStacked = picture.corners.some(({ isUnder }) => isUnder);
  const spots = layout.motors.map((spot) =>
    held && spot.motor.number === held.number ? { ...spot, ...held.at } : spot,
  );
  return node("svg", { viewBox: `0 ${-top} ${Math.ceil(width)} ${Math.ceil(height + top)}`, class: "motors" }, [
    HATCH,
    ...(heading === "drawn" ? [text("chart-title", 0, 13 - top, 13, "Motors from above")] : []),
    node("g", { class: "chart", role: "group", "aria-label": "Motors from above" }, [
      ...frame(layout),
      ...layout.corners.flatMap((corner) => emptyCorner(corner, layout, picture, held?.over ?? null)),
      ...crowded(picture, layout),
      ...motorLabels(picture, layout),
      ...byDepth(spots, held?.number).map((spot) => motorArt(spot, isStacked)),
      ...picture.conflicts.flatMap((conflict) => band(conflict, spots)),
      ...byDepth(spots, held?.number).map((spot) => hub(spot)),
      ...tray(layout),
      ...spots.map(({ motor, x, y, radius }) =>
        node("g", { class: "motor-reach", "data-motor": motor.number }, [
          node("circle", { class: "reach", cx: x, cy: y, r: radius }),
        ]),
      ),
    ]),
    ...textLines("small", 0, notesTop, SIZE, lines),
  ]);
}

/** Stripes with a ground, so that they are seen without their colour too. */
const HATCH = node("defs", {}, [
  node(
    "pattern",
    { id: "motor-hatch", width: 7, height: 7, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
    [
      node("rect", { class: "motor-hatch-ground", x: 0, y: 0, width: 7, height: 7 }),
      node("rect", { class: "motor-hatch-line", x: 0, y: 0, width: 2, height: 7 }),
    ],
  ),
]);

function noteLines(picture: MotorsPicture, width: number, notes: "all" | "meaning"): string[] {
  const faults = picture.motors.flatMap((motor) => motor.faults);
  const more = notes === "all" ? [...new Set([...picture.faults, ...faults]), ...picture.unknown] : [];
  const sentences = [...turningNotes(picture), ...more];
  return sentences.flatMap((sentence) => wrappedWords(sentence, width, SIZE));
}

/** Lower motors first, so that the upper ones lie over them, and the one in the hand over all. */
function byDepth(spots: readonly MotorSpot[], held: number | undefined): MotorSpot[] {
  const depth = ({ motor }: MotorSpot) => (motor.number === held ? 2 : motor.isUnder ? 0 : 1);
  return [...spots].sort((a, b) => depth(a) - depth(b));
}

/** The body, a jug seen from above, with an arm to every corner or motor; nothing where no place is known. */
function frame({ centre, armLength, corners, motors, radius }: MotorsLayout): SceneNode[] {
  const ends = [...corners.map(({ corner }) => corner), ...motors.flatMap(({ motor }) => (motor.place ? [motor] : []))];
  if (ends.length === 0) return [];
  const { x, y } = centre;
  // A motor in the middle of the front says as much as a line would.
  const isAhead = ends.some((end) => end.y > 0 && Math.abs(end.x) < 0.01);
  const body = Math.min(0.26 * armLength, armLength - radius - 6);
  const arms = [
    ...new Set(ends.map((end) => `M${point(x, y)}L${point(x + end.x * armLength, y - end.y * armLength)}`)),
  ];
  const [lip, spout] = [0.42 * body, 1.5 * body];
  const jug = [
    `M${point(x - lip, y - 0.91 * body)}`,
    `Q${point(x - 0.2 * body, y - 1.1 * body)} ${point(x, y - spout)}`,
    `Q${point(x + 0.2 * body, y - 1.1 * body)} ${point(x + lip, y - 0.91 * body)}`,
    `A${rounded(body)} ${rounded(body)} 0 1 1 ${point(x - lip, y - 0.91 * body)}Z`,
  ].join("");
  const handle = `M${point(x - 0.3 * body, y + 0.95 * body)}C${point(x - 0.5 * body, y + 1.55 * body)} ${point(x + 0.5 * body, y + 1.55 * body)} ${point(x + 0.3 * body, y + 0.95 * body)}`;
  return [
    path("motor-arm", arms.join("")),
    path("motor-handle", handle),
    path("motor-body", jug),
    node("circle", { class: "motor-mouth", cx: x, cy: y, r: 0.68 * body }),
    ...(isAhead ? [] : [path("motor-ahead", `M${point(x, y - spout - 3)}V18`)]),
    text("small", x, 13, SIZE, "forward", "middle"),
  ];
}

/** A corner at which no motor is said to stand, or over which one is held. */
function emptyCorner(
  { corner, x, y }: CornerSpot,
  layout: MotorsLayout,
  { motors }: MotorsPicture,
  over: string | null,
): SceneNode[] {
  const isTaken = motors.some(({ place }) => place === corner.place);
  const isOver = corner.place === over;
  if (isTaken && !isOver) return [];
  const { radius } = layout;
  const own = [
    node("circle", { class: isOver ? "motor-target" : "motor-free", cx: x, cy: y, r: isOver ? radius : 0.6 * radius }),
    ...(isTaken || corner.direction === null
      ? []
      : [turningMark({ x, y }, 0.6 * radius, outward(corner), corner.direction, "follows")]),
  ];
  return [node("g", { class: "motor-corner", "data-corner": corner.place }, own)];
}

/** A hatched ground below the motors that are said to stand at one place. */
function crowded({ motors, conflicts }: MotorsPicture, { motors: spots, radius }: MotorsLayout): SceneNode[] {
  const places = new Set(
    conflicts.flatMap(({ kind, motors: [one] }) =>
      kind === "corner" ? (motors.find(({ number }) => number === one)?.place ?? []) : [],
    ),
  );
  return [...places].flatMap((place) => {
    const there = spots.filter(({ motor }) => motor.place === place);
    const [cx, cy] = [mean(there.map(({ x }) => x)), mean(there.map(({ y }) => y))];
    return [node("circle", { class: "motor-clash", cx, cy, r: 1.05 * radius })];
  });
}

/** One motor: the circle that its propeller sweeps, the propeller and its turning, where two share an arm each on its own side. */
function motorArt({ motor, x, y, radius }: MotorSpot, isStacked: boolean): SceneNode {
  const { number, direction, directionFrom, faults, isUnder } = motor;
  const classes = ["motor", ...(isUnder ? ["under"] : []), ...(faults.length > 0 ? ["amiss"] : [])];
  if (motor.place === null)
    return node("g", { class: classes.join(" "), "data-art": number }, [
      node("circle", { class: faults.length > 0 ? "motor-clash" : "motor-free", cx: x, cy: y, r: radius }),
    ]);
  const hubRadius = hubOf(motor, radius).radius;
  const out = outward(motor);
  const said = directionFrom === "spin" ? "follows" : "said";
  return node("g", { class: classes.join(" "), "data-art": number }, [
    node("circle", { class: "motor-disc", cx: x, cy: y, r: radius }),
    ...(faults.length > 0 ? [node("circle", { class: "motor-clash", cx: x, cy: y, r: radius })] : []),
    ...(direction === null ? [] : [...blades({ x, y }, { from: hubRadius, to: 0.84 * radius }, out, direction, said)]),
    ...(direction === null
      ? []
      : [turningMark({ x, y }, radius, isStacked && !isUnder ? out + Math.PI : out, direction, said)]),
  ]);
}

/** The plate with the number, over everything that could hide it. */
function hub({ motor, x, y, radius }: MotorSpot): SceneNode {
  const { radius: r, size } = hubOf(motor, radius);
  return node("g", { class: motor.isUnder ? "motor-hub under" : "motor-hub" }, [
    node("circle", { class: "motor-plate", cx: x, cy: y, r }),
    text("motor-number", x, y + 0.36 * size, size, String(motor.number), "middle"),
  ]);
}

/** Numbers are readable from across a bench: on paper 3 mm high and more where the drawing is 8 cm wide. */
function hubOf({ place }: PlacedMotor, radius: number): { readonly radius: number; readonly size: number } {
  const size = place === null ? 17 : Math.max(17, Math.min(30, 0.62 * radius));
  return { radius: 0.66 * size, size };
}

/** What two motors have against each other, as a hatched band between them. */
function band({ kind, motors: [one, other] }: MotorConflict, spots: readonly MotorSpot[]): SceneNode[] {
  const [a, b] = [one, other].map((number) => spots.find(({ motor }) => motor.number === number));
  if (kind === "corner" || !a || !b || (a.x === b.x && a.y === b.y)) return [];
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const aside = { x: (-(b.y - a.y) / length) * 5, y: ((b.x - a.x) / length) * 5 };
  const corners = [
    [a.x + aside.x, a.y + aside.y],
    [b.x + aside.x, b.y + aside.y],
    [b.x - aside.x, b.y - aside.y],
    [a.x - aside.x, a.y - aside.y],
  ] as const;
  return [path("motor-clash", `M${corners.map(([x, y]) => point(x, y)).join("L")}Z`)];
}

/** The heading of the row of motors that have no corner; their numbers are drawn with all others. */
function tray({ trayTop }: MotorsLayout): SceneNode[] {
  return trayTop === null ? [] : [text("small", 0, trayTop + 12, SIZE, "without a corner")];
}

/** The angle in which a place lies from the body, anticlockwise from the right, in radians. */
function outward({ x, y }: { readonly x: number; readonly y: number }): number {
  return Math.atan2(y, x);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
}

function point(x: number, y: number): string {
  return `${rounded(x)} ${rounded(y)}`;
}
