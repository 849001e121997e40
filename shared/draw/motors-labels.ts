/** The words beside the corners of a frame, where there is room for them. */
import type { MotorsPicture, PlacedMotor } from "../protocol/motors.ts";
import type { MotorsLayout, Spot } from "./motors-layout.ts";
import { placeWords } from "./motors-words.ts";
import type { Box, SceneNode } from "./scene.ts";
import { lineHeight, textLines, textWidth } from "./writing.ts";

const SIZE = 11;

interface Labelled extends Spot {
  readonly radius: number;
  /** From the body; forwards is above. */
  readonly isAhead: boolean;
  readonly lines: readonly string[];
}

/** A label for each corner, and what else is said of its motor; one that would lie over something is left out. */
export function motorLabels(picture: MotorsPicture, layout: MotorsLayout): SceneNode[] {
  const circles = [...layout.motors, ...layout.corners.map((corner) => ({ ...corner, radius: layout.radius }))];
  // The word “forward”, the body with its handle, and the line from the spout forwards.
  const { x: middle, y: level } = layout.centre;
  const body = 0.28 * layout.armLength;
  const taken: Box[] = [
    { x: middle - 22, y: 0, width: 44, height: 16 },
    { x: middle - body, y: level - 1.5 * body, width: 2 * body, height: 3.1 * body },
  ];
  if (!circles.some(({ x, y }) => Math.abs(x - middle) < 1 && y < level))
    taken.push({ x: middle - 3, y: 0, width: 6, height: level });
  return labelled(picture, layout).flatMap((one) => {
    const width = Math.max(...one.lines.map((line) => textWidth(line, SIZE)));
    const height = one.lines.length * lineHeight(SIZE);
    const far = one.radius + Math.max(5, 0.15 * one.radius);
    const [above, below] = [one.y - far - height, one.y + far];
    const beside = one.isAhead ? one.y - one.radius - 4 : one.y + one.radius - 8;
    const asides = [
      { side: 1, x: one.x + 0.8 * one.radius },
      { side: -1, x: one.x - 0.8 * one.radius - width },
    ];
    const places = [
      { x: one.x - width / 2, y: one.isAhead ? above : below },
      { x: one.x - width / 2, y: one.isAhead ? below : above },
      ...asides.filter(({ side }) => (one.x - middle) * side > -1).map(({ x }) => ({ x, y: beside })),
    ];
    const box = places
      .map((place) => ({ ...place, width, height }))
      .find(
        (each) =>
          each.x >= 0 &&
          each.x + width <= layout.width &&
          each.y >= 0 &&
          each.y + height <= layout.frameHeight &&
          !taken.some((other) => overlap(each, other)) &&
          !circles.some((circle) => touches(each, circle)),
      );
    if (!box) return [];
    taken.push(box);
    return textLines("small", box.x + width / 2, box.y + SIZE, SIZE, one.lines).map((line) => ({
      ...line,
      attributes: { ...line.attributes, "text-anchor": "middle" },
    }));
  });
}

function labelled({ motors }: MotorsPicture, layout: MotorsLayout): Labelled[] {
  const upper = layout.corners.filter(({ corner }) => !corner.isUnder);
  const strangers = layout.motors.filter(
    ({ motor }) => motor.place !== null && !layout.corners.some(({ corner }) => corner.place === motor.place),
  );
  return [
    ...upper.map(({ corner, x, y }) => {
      const there = motors.filter(({ place }) => place === corner.place);
      const [only] = there.length === 1 ? there : [];
      return { x, y, radius: layout.radius, isAhead: corner.y > 0.01, lines: linesOf(corner.place, only) };
    }),
    ...strangers.map(({ motor, x, y, radius }) => ({
      x,
      y,
      radius,
      isAhead: motor.y > 0.01,
      lines: linesOf(motor.place!, motor),
    })),
  ];
}

function linesOf(place: string, motor: PlacedMotor | undefined): string[] {
  if (!motor) return [placeWords(place)];
  const { output, limitPercent, direction } = motor;
  return [
    placeWords(place),
    ...(output === null ? [] : [`output ${output}`]),
    ...(limitPercent === null ? [] : [`${limitPercent} % at most`]),
    ...(direction === null ? ["which way?"] : []),
  ].slice(0, 3);
}

function overlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

function touches(box: Box, { x, y, radius }: { readonly x: number; readonly y: number; readonly radius: number }) {
  const nearest = {
    x: Math.max(box.x, Math.min(x, box.x + box.width)),
    y: Math.max(box.y, Math.min(y, box.y + box.height)),
  };
  return Math.hypot(nearest.x - x, nearest.y - y) < radius - 1;
}
