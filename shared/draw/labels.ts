/** Where the label of a box stands: where it hides least of what is drawn. */
import type { Box } from "./scene.ts";

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Between a box and a label beside it. */
const GAP = 2;

/**
 * A place for a label: in the box, below, above, right or left of it, inside the screen; the first of those that
 * covers nothing of `taken`, else the one that covers least.
 */
export function labelPlace(of: Box, size: Size, taken: readonly Box[], screen: Box, first: "inside" | "beside"): Box {
  const { x, y, width, height } = of;
  const middle = y + (height - size.height) / 2;
  const places = [
    ...(first === "inside" ? [[x + 1, y + 1]] : []),
    [x, y + height + GAP],
    [x, y - size.height - GAP],
    [x + width - size.width, y + height + GAP],
    [x + width - size.width, y - size.height - GAP],
    [x + width + GAP, middle],
    [x - size.width - GAP, middle],
  ] as const;
  const candidates = places.map(([left, top]) => inside({ x: left!, y: top!, ...size }, screen));
  const covered = candidates.map((each) => taken.reduce((sum, other) => sum + sharedArea(each, other), 0));
  return candidates[covered.indexOf(Math.min(...covered))]!;
}

function inside(box: Box, screen: Box): Box {
  const most = (at: number, size: number, room: number) => Math.max(0, Math.min(at, room - size));
  return { ...box, x: most(box.x, box.width, screen.width), y: most(box.y, box.height, screen.height) };
}

function sharedArea(a: Box, b: Box): number {
  const across = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const down = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return across > 0 && down > 0 ? across * down : 0;
}
