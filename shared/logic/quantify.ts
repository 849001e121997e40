/** Fixing variables of a diagram, leaving them open, and finding those on which a set hangs. */
import { type Diagrams, EVERY, NONE } from "./diagram.ts";

/** A value for each level, or -1 where the variable is free. */
export type Fixed = Int32Array;

export function nothingFixed(diagrams: Diagrams): Fixed {
  return new Int32Array(diagrams.widths.length).fill(-1);
}

/** What is left of a set once some variables are fixed; it depends on none of them. */
export function given(diagrams: Diagrams, node: number, fixed: Fixed): number {
  const known = new Map<number, number>();
  const visit = (at: number): number => {
    if (at <= EVERY) return at;
    const earlier = known.get(at);
    if (earlier !== undefined) return earlier;
    const level = diagrams.levelOf(at);
    const value = fixed[level]!;
    let result: number;
    if (value >= 0) {
      result = visit(diagrams.child(at, value));
    } else {
      const children: number[] = [];
      for (let v = 0; v < diagrams.widths[level]!; v++) children.push(visit(diagrams.child(at, v)));
      result = diagrams.make(level, children);
    }
    known.set(at, result);
    return result;
  };
  return visit(node);
}

/** Whether a set holds once some variables are fixed: always (1), never (0), or as the others decide (2). */
export function truthGiven(diagrams: Diagrams, node: number, fixed: Fixed): 0 | 1 | 2 {
  const known = new Map<number, 0 | 1 | 2>();
  const visit = (at: number): 0 | 1 | 2 => {
    if (at <= EVERY) return at as 0 | 1;
    const earlier = known.get(at);
    if (earlier !== undefined) return earlier;
    const level = diagrams.levelOf(at);
    const value = fixed[level]!;
    let result: 0 | 1 | 2;
    if (value >= 0) {
      result = visit(diagrams.child(at, value));
    } else {
      result = visit(diagrams.child(at, 0));
      for (let v = 1; v < diagrams.widths[level]! && result !== 2; v++) {
        if (visit(diagrams.child(at, v)) !== result) result = 2;
      }
    }
    known.set(at, result);
    return result;
  };
  return visit(node);
}

/**
 * A function that takes the marked levels out of a set: with `diagrams.or` as `join`, what some of
 * their values bring into the set; with `diagrams.and`, what stays in it whatever they are. It
 * remembers, so keep it as long as the same levels are asked about.
 */
export function makeQuantifier(
  diagrams: Diagrams,
  marked: Uint8Array,
  join: (a: number, b: number) => number,
): (node: number) => number {
  const last = marked.lastIndexOf(1);
  const absorbing = join(NONE, EVERY);
  const known = new Map<number, number>();
  const visit = (at: number): number => {
    const level = diagrams.levelOf(at);
    if (level > last) return at;
    const earlier = known.get(at);
    if (earlier !== undefined) return earlier;
    const width = diagrams.widths[level]!;
    let result = 0;
    if (marked[level] === 1) {
      result = visit(diagrams.child(at, 0));
      for (let v = 1; v < width && result !== absorbing; v++) result = join(result, visit(diagrams.child(at, v)));
    } else {
      const children: number[] = [];
      for (let v = 0; v < width; v++) children.push(visit(diagrams.child(at, v)));
      result = diagrams.make(level, children);
    }
    known.set(at, result);
    return result;
  };
  return visit;
}

/** The levels on which a set hangs, rising. */
export function supportOf(diagrams: Diagrams, node: number): readonly number[] {
  const seen = new Set<number>();
  const marks = new Uint8Array(diagrams.widths.length);
  const visit = (at: number): void => {
    if (at <= EVERY || seen.has(at)) return;
    seen.add(at);
    const level = diagrams.levelOf(at);
    marks[level] = 1;
    for (let v = 0; v < diagrams.widths[level]!; v++) visit(diagrams.child(at, v));
  };
  visit(node);
  const levels: number[] = [];
  for (let level = 0; level < marks.length; level++) if (marks[level] === 1) levels.push(level);
  return levels;
}
