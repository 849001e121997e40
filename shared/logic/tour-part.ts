/**
 * A part of a tour: controls that conditions combine, by themselves. Each goal rests on the controls of one part, and a
 * movement moves one control, so the shortest tours of the parts, one after another, are a shortest tour of all.
 */
import { EVERY } from "./diagram.ts";
import { type Course, controlsOf, type TourControl } from "./tour-course.ts";

/** A control of the part, by its index, put to a place. */
export interface Step {
  readonly control: number;
  readonly place: number;
}

/** A set of states as a list of tests, each after those it leads to: what a search walks faster than a diagram. */
export interface TestList {
  /** The control that each test looks at, by its index in the part. */
  readonly controls: Int32Array;
  /** For each test where its children begin in `children`. */
  readonly firsts: Int32Array;
  /** By place the test to go on with; `YES` in the set, `NO` outside of it. */
  readonly children: Int32Array;
}

/** Above these numbers no search among tours ends within the budget. */
const MOST_PLACES = 64;
const MOST_CONTROLS = 16;
const MOST_GOALS = 64;

export const YES = -1;
export const NO = -2;

export interface TourPart {
  /** Their indexes in the course, in the order of the hand. */
  readonly of: readonly number[];
  readonly controls: readonly TourControl[];
  readonly goals: readonly TestList[];
  /** Few enough controls and places to search among their tours. */
  readonly isSmall: boolean;
  /** For each goal, for each other one whether they cannot be met in the same state; null where that is not known. */
  readonly apart: readonly Uint8Array[] | null;
  /** By control the goals that rest on it. */
  readonly goalsOn: readonly (readonly number[])[];
  /** By control, for each place the first of the places that all goals and wishes take for the same. */
  readonly alike: readonly (readonly number[])[];
}

/** The controls of each part: those that some of these sets combine; each part in the order of the hand. */
export function partsBy(course: Course, sets: readonly number[]): readonly (readonly number[])[] {
  const head = course.controls.map((_, i) => i);
  const find = (i: number): number => {
    let at = i;
    while (head[at] !== at) {
      head[at] = head[head[at]!]!;
      at = head[at]!;
    }
    return at;
  };
  for (const set of sets) {
    const [first, ...others] = controlsOf(course, set);
    for (const other of others) {
      const [a, b] = [find(first!), find(other)];
      head[Math.max(a, b)] = Math.min(a, b);
    }
  }
  const parts = new Map<number, number[]>();
  for (const i of head.keys()) {
    const root = find(i);
    const part = parts.get(root);
    if (part) part.push(i);
    else parts.set(root, [i]);
  }
  return [...parts.values()];
}

/** These controls of the course with these goals; `others` are sets whose places must be told apart as well. */
export function makePart(
  course: Course,
  of: readonly number[],
  goals: readonly number[],
  others: readonly number[] = [],
): TourPart {
  const controls = of.map((i) => course.controls[i]!);
  const lists = goals.map((set) => testList(course, of, set));
  const told = [...lists, ...others.map((set) => testList(course, of, set))];
  const isSmall =
    of.length <= MOST_CONTROLS && controls.reduce((sum, { places }) => sum + places.length, 0) <= MOST_PLACES;
  const alike = controls.map(({ places }, c) => places.map((_, p) => (isSmall ? firstAlike(told, c, p) : p)));
  const goalsOn = controls.map((): number[] => []);
  for (const [goal, list] of lists.entries()) for (const c of new Set(list.controls)) goalsOn[c]!.push(goal);
  return { of, controls, goals: lists, alike, isSmall, apart: isSmall ? apartOf(course, goals) : null, goalsOn };
}

/** For each set, for each other set whether they have no state in common; null where there are too many of them. */
function apartOf({ diagrams }: Course, goals: readonly number[]): readonly Uint8Array[] | null {
  if (goals.length > MOST_GOALS) return null;
  return goals.map((goal) => Uint8Array.from(goals, (other) => (diagrams.meet(goal, other) ? 0 : 1)));
}

function firstAlike(lists: readonly TestList[], control: number, place: number): number {
  for (let p = 0; p < place; p++) {
    const differs = lists.some(({ controls, firsts, children }) =>
      controls.some((c, t) => c === control && children[firsts[t]! + p] !== children[firsts[t]! + place]),
    );
    if (!differs) return p;
  }
  return place;
}

/** A set that rests on controls of the part alone. */
export function testList(course: Course, of: readonly number[], set: number): TestList {
  const { diagrams, controlAt } = course;
  const local = new Map(of.map((i, c) => [i, c]));
  const indexes = new Map<number, number>();
  const controls: number[] = [];
  const firsts: number[] = [];
  const children: number[] = [];
  const visit = (node: number): number => {
    if (node <= EVERY) return node === EVERY ? YES : NO;
    const known = indexes.get(node);
    if (known !== undefined) return known;
    const level = diagrams.levelOf(node);
    diagrams.spend(level);
    const own = Array.from({ length: diagrams.widths[level]! }, (_, p) => visit(diagrams.child(node, p)));
    indexes.set(node, controls.length);
    controls.push(local.get(controlAt[level]!)!);
    firsts.push(children.length);
    children.push(...own);
    return controls.length - 1;
  };
  visit(set);
  return {
    controls: Int32Array.from(controls),
    firsts: Int32Array.from(firsts),
    children: Int32Array.from(children),
  };
}

/** Whether a state, as a place for each control of the part, is in the set of a list. A list without tests is of no set. */
export function passesTests({ controls, firsts, children }: TestList, at: ArrayLike<number>): boolean {
  let test = controls.length - 1;
  while (test >= 0) test = children[firsts[test]! + at[controls[test]!]!]!;
  return test === YES;
}
