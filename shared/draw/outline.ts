/** Strokes of a round pen as outlines to be filled: the letters are made of them. */

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A corner of a stroke, rounded where its radius is not 0. */
export interface Corner extends Point {
  readonly radius: number;
}

export interface Stroke {
  readonly corners: readonly Corner[];
  readonly closed: boolean;
}

/** A closed outline: where it begins, and the rest of its path in relative commands. */
export interface Outline extends Point {
  readonly rest: string;
}

/** A straight piece, or an arc around `centre`; `turn` is 1 for clockwise on the screen, -1 for counterclockwise. */
interface PathPiece {
  readonly from: Point;
  readonly to: Point;
  readonly arc: { readonly centre: Point; readonly radius: number; readonly turn: 1 | -1 } | null;
}

/** Parses strokes from their notation (see `glyph-shapes.ts`). */
export function readStrokes(notation: string): Stroke[] {
  return notation.split("|").flatMap((stroke) => {
    const closed = stroke.startsWith("@");
    const corners = stroke
      .slice(closed ? 1 : 0)
      .split(" ")
      .filter((corner) => corner !== "")
      .map((corner) => {
        const [x = 0, y = 0, radius = 0] = corner.split(",").map(Number);
        return { x, y, radius };
      });
    return corners.length > 0 ? [{ corners, closed }] : [];
  });
}

/** The outlines of a stroke, `reach` being half its width; to be filled by the nonzero rule. */
export function outlinesOf(stroke: Stroke, reach: number): Outline[] {
  const pieces = piecesOf(stroke);
  const [first] = pieces;
  if (!first) return [dot(stroke.corners[0]!, reach)];
  const back = pieces.toReversed().map(reversed);
  if (stroke.closed) {
    return [pieces, back].map((loop) => {
      const pen = penAt(leftOf(loop[0]!, "from", reach));
      drawSide(pen, loop, reach, loop[0]!);
      return pen.outline();
    });
  }
  const pen = penAt(leftOf(first, "from", reach));
  drawSide(pen, pieces, reach, null);
  pen.arc(reach, 1, leftOf(back[0]!, "from", reach));
  drawSide(pen, back, reach, null);
  pen.arc(reach, 1, leftOf(first, "from", reach));
  return [pen.outline()];
}

function dot({ x, y }: Point, reach: number): Outline {
  const pen = penAt({ x: x - reach, y });
  pen.arc(reach, 1, { x: x + reach, y });
  pen.arc(reach, 1, { x: x - reach, y });
  return pen.outline();
}

function piecesOf({ corners, closed }: Stroke): PathPiece[] {
  const count = corners.length;
  const cuts = corners.map((corner, index) => {
    const before = corners[index - 1] ?? (closed ? corners[count - 1] : undefined);
    const after = corners[index + 1] ?? (closed ? corners[0] : undefined);
    return before && after ? cutCorner(before, corner, after) : { from: corner, to: corner, arc: null };
  });
  const pieces: PathPiece[] = [];
  for (const [index, cut] of cuts.entries()) {
    if (cut.arc) pieces.push(cut);
    const next = cuts[index + 1] ?? (closed ? cuts[0] : undefined);
    if (next && distance(cut.to, next.from) > 1e-6) pieces.push({ from: cut.to, to: next.from, arc: null });
  }
  return pieces;
}

/** The arc that rounds a corner, limited by the length of its sides. */
function cutCorner(before: Corner, at: Corner, after: Corner): PathPiece {
  const [toBefore, toAfter] = [distance(at, before), distance(at, after)];
  const a = { x: (before.x - at.x) / toBefore, y: (before.y - at.y) / toBefore };
  const b = { x: (after.x - at.x) / toAfter, y: (after.y - at.y) / toAfter };
  const half = Math.acos(Math.max(-1, Math.min(1, a.x * b.x + a.y * b.y))) / 2;
  if (at.radius === 0 || half > Math.PI / 2 - 1e-3) return { from: at, to: at, arc: null };
  const room = (side: number, other: Corner) => (other.radius > 0 ? side / 2 : side);
  const cut = Math.min(at.radius / Math.tan(half), room(toBefore, before), room(toAfter, after));
  const radius = cut * Math.tan(half);
  const reach = Math.hypot(cut, radius) / Math.hypot(a.x + b.x, a.y + b.y);
  const centre = { x: at.x + (a.x + b.x) * reach, y: at.y + (a.y + b.y) * reach };
  const turn = a.x * b.y - a.y * b.x < 0 ? 1 : -1;
  return {
    from: { x: at.x + a.x * cut, y: at.y + a.y * cut },
    to: { x: at.x + b.x * cut, y: at.y + b.y * cut },
    arc: { centre, radius, turn },
  };
}

function reversed({ from, to, arc }: PathPiece): PathPiece {
  return { from: to, to: from, arc: arc && { ...arc, turn: arc.turn === 1 ? -1 : 1 } };
}

/** Draws the left side of a run of pieces; `onward` is the piece that follows the last one if the run is closed. */
function drawSide(pen: Pen, run: readonly PathPiece[], reach: number, onward: PathPiece | null): void {
  for (const [index, piece] of run.entries()) {
    const end = leftOf(piece, "to", reach);
    if (piece.arc) {
      const radius = piece.arc.radius + piece.arc.turn * reach;
      if (radius > 0.01) pen.arc(radius, piece.arc.turn, end);
      else pen.line(end);
    } else pen.line(end);
    const next = run[index + 1] ?? onward;
    if (next) join(pen, piece, next, reach);
  }
}

/** Rounds the outside of a bend. On the inside the outline passes through the corner, which is always filled. */
function join(pen: Pen, piece: PathPiece, next: PathPiece, reach: number): void {
  const [along, onward] = [heading(piece, "to"), heading(next, "from")];
  const turn = along.x * onward.y - along.y * onward.x;
  if (Math.abs(turn) < 1e-6 && along.x * onward.x + along.y * onward.y > 0) return;
  const start = leftOf(next, "from", reach);
  if (turn > 0) pen.arc(reach, 1, start);
  else {
    pen.line(piece.to);
    pen.line(start);
  }
}

function heading({ from, to, arc }: PathPiece, end: "from" | "to"): Point {
  if (!arc) {
    const length = distance(from, to);
    return { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  }
  const at = end === "from" ? from : to;
  const { centre, radius, turn } = arc;
  return { x: (-(at.y - centre.y) / radius) * turn, y: ((at.x - centre.x) / radius) * turn };
}

function leftOf(piece: PathPiece, end: "from" | "to", reach: number): Point {
  const { x, y } = heading(piece, end);
  return { x: piece[end].x + y * reach, y: piece[end].y - x * reach };
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

/** Writes a path in relative commands. */
interface Pen {
  line(to: Point): void;
  /** An arc of at most half a turn. */
  arc(radius: number, turn: 1 | -1, to: Point): void;
  outline(): Outline;
}

/** Each step is measured from the rounded position, so that rounding errors do not accumulate. */
function penAt(from: Point): Pen {
  const start = { x: hundredths(from.x), y: hundredths(from.y) };
  let at = start;
  let rest = "";
  const step = (to: Point): readonly [dx: number, dy: number] => {
    const next = { x: hundredths(to.x), y: hundredths(to.y) };
    const by = [hundredths(next.x - at.x), hundredths(next.y - at.y)] as const;
    at = next;
    return by;
  };
  return {
    line(to) {
      const [dx, dy] = step(to);
      if (dx === 0 && dy === 0) return;
      if (dy === 0) rest += `h${short(dx)}`;
      else rest += dx === 0 ? `v${short(dy)}` : `l${short(dx)}${separated(dy)}`;
    },
    arc(radius, turn, to) {
      const [dx, dy] = step(to);
      if (dx === 0 && dy === 0) return;
      const size = hundredths(radius);
      rest += `a${short(size)}${separated(size)} 0 0 ${turn === 1 ? 1 : 0}${separated(dx)}${separated(dy)}`;
    },
    outline: () => ({ ...start, rest: `${rest}z` }),
  };
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100 + 0;
}

/** A number without the zero before its point. */
function short(value: number): string {
  return String(value).replace(/^(-?)0\./, "$1.");
}

function separated(value: number): string {
  return value < 0 ? short(value) : ` ${short(value)}`;
}
