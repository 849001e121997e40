/**
 * The fewest movements of controls that show all that they can do: every place of every control, and every mode and
 * output on and off.
 */
import type { Compiled } from "./compile.ts";
import { EVERY, NONE } from "./diagram.ts";
import { supportOf } from "./quantify.ts";
import { type Course, controlsOf, courseOf, isIn, type TourMode } from "./tour-course.ts";
import { makePart, partsBy, type Step, testList } from "./tour-part.ts";
import { asWished, type Purse, tourOfPart } from "./tour-search.ts";
import type { Tour, TourMove, TourStart, TourWish, UndecidedMode } from "./tour-types.ts";

/** A tour of a board; null where the budget does not even suffice to carry its conditions over. */
export function findTour(compiled: Compiled, names: readonly string[], wish: TourWish): Tour | null {
  const course = courseOf(compiled, names, wish);
  if (!course) return null;
  const { steps, isShortest } = course.diagrams.withBudget(Number.POSITIVE_INFINITY, () => stepsOf(course, compiled))!;
  return { ...told(course, steps), isShortest, ...sorted(compiled, course, names) };
}

/** The steps of all parts, those that may arm at the end. The controls of a step are indexes of the course. */
function stepsOf(
  course: Course,
  { budget }: Compiled,
): { readonly steps: readonly Step[]; readonly isShortest: boolean } {
  const purse: Purse = { left: budget.tour };
  const wished = wishedSets(course);
  const risky = new Set(wished.flatMap((set) => controlsOf(course, set)));
  const steps: Step[] = [];
  const riskyParts: number[] = [];
  const riskySteps: Step[] = [];
  let isShortest = true;
  const parts = partsBy(course, course.goals);
  const goals = goalsByPart(course, parts);
  for (const [i, of] of parts.entries()) {
    const found = tourOfPart(makePart(course, of, goals[i]!), purse);
    isShortest &&= found.isShortest;
    const own = found.steps.map(({ control, place }) => ({ control: of[control]!, place }));
    if (of.some((control) => risky.has(control))) {
      riskyParts.push(i);
      riskySteps.push(...own);
    } else steps.push(...own);
  }
  if (risky.size === 0) return { steps: [...steps, ...riskySteps], isShortest };
  const of = riskyParts.flatMap((i) => parts[i]!).sort((a, b) => a - b);
  const riskyGoals = riskyParts.flatMap((i) => goals[i]!);
  const part = makePart(course, of, riskyGoals, wished);
  const [late, ...shunned] = wished.map((set) => testList(course, of, set));
  const outside = course.diagrams.not(wished[0]!);
  const lateGoals = [...riskyGoals.keys()].filter((goal) => !course.diagrams.meet(riskyGoals[goal]!, outside));
  const known = riskySteps.map(({ control, place }) => ({ control: of.indexOf(control), place }));
  const last = asWished(
    part,
    { late: late!, lateGoals, leastLate: lateGoals.length > 0 || hasLatePlace(course, of, outside) ? 1 : 0, shunned },
    known,
    purse,
  );
  const risks = last.map(({ control, place }) => ({ control: of[control]!, place }));
  // A craft that is armed at rest is disarmed first of all.
  const start = course.controls.map((control) => control.start);
  const isLate = isIn(course, wished[0]!, start);
  return { steps: isLate ? [...risks, ...steps] : [...steps, ...risks], isShortest };
}

/**
 * The states in which the craft may be armed, which come last, and those of them that had better not come at all: upside
 * down, or with a stick that is not at rest.
 */
function wishedSets({ diagrams, controls, controlAt, armed, modes }: Course): readonly number[] {
  const late = diagrams.not(armed.off);
  if (late <= EVERY) return [];
  const turtle = modes.find(({ name }) => name === "turtle");
  const away = controls.flatMap(({ name, places, start }, i) =>
    /^ch\d+$/.test(name) && places.length > 1
      ? diagrams.make(
          controlAt.indexOf(i),
          places.map((_, p) => (p === start ? NONE : EVERY)),
        )
      : [],
  );
  const shunned = [...(turtle ? [diagrams.not(turtle.off)] : []), ...away].map((set) => diagrams.and(late, set));
  return [late, ...shunned.filter((set) => set !== NONE && set !== late)];
}

/** Whether some place of these controls is nowhere in a set of states. */
function hasLatePlace({ diagrams, controls, controlAt }: Course, of: readonly number[], set: number): boolean {
  return supportOf(diagrams, set).some((level) => {
    const i = controlAt[level]!;
    return (
      of.includes(i) &&
      controls[i]!.places.some((_, p) => {
        const only = controls[i]!.places.map((__, other) => (other === p ? EVERY : NONE));
        return !diagrams.meet(diagrams.make(level, only), set);
      })
    );
  });
}

/** The goals of each part. */
function goalsByPart(course: Course, parts: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const partOf = new Map(parts.flatMap((of, i) => of.map((control) => [control, i] as const)));
  const goals = parts.map((): number[] => []);
  for (const set of course.goals) goals[partOf.get(controlsOf(course, set)[0]!)!]!.push(set);
  return goals;
}

/** The steps as movements, with what comes of each. */
function told(course: Course, steps: readonly Step[]): Pick<Tour, "start" | "moves"> {
  const { controls, modes, armed } = course;
  const at = controls.map(({ start }) => start);
  const truths = modes.map((mode) => truthAt(course, mode, at));
  const modesOn = controls.map((): number[] => []);
  for (const [m, { on, off }] of modes.entries())
    for (const i of new Set([...controlsOf(course, on), ...controlsOf(course, off)])) modesOn[i]!.push(m);
  const here = () => {
    const on: string[] = [];
    const possible: string[] = [];
    for (let m = 0; m < modes.length; m++) {
      if (truths[m] === "yes") on.push(modes[m]!.name);
      else if (truths[m] === "depends") possible.push(modes[m]!.name);
    }
    return { on, possible, armed: truthAt(course, armed, at) };
  };
  // Where a dial stands that nothing hangs on is nobody's concern.
  const places = controls.flatMap((control, i) =>
    control.places.length > 1 ? [[control.name, control.places[at[i]!]!] as const] : [],
  );
  const start: TourStart = { positions: Object.fromEntries(places), ...here() };
  const moves = steps.map(({ control, place }): TourMove => {
    const { name, places: own } = controls[control]!;
    const from = own[at[control]!]!;
    at[control] = place;
    const comesOn: string[] = [];
    const goesOff: string[] = [];
    for (const m of modesOn[control]!) {
      const [before, now] = [truths[m], truthAt(course, modes[m]!, at)];
      truths[m] = now;
      if (before !== "yes" && now === "yes") comesOn.push(modes[m]!.name);
      if (before === "yes" && now !== "yes") goesOff.push(modes[m]!.name);
    }
    return { name, from, to: own[place]!, ...here(), comesOn, goesOff };
  });
  return { start, moves };
}

type Truth = TourMove["armed"];

function truthAt(course: Course, { on, off }: TourMode, at: readonly number[]): Truth {
  if (isIn(course, on, at)) return "yes";
  return isIn(course, off, at) ? "no" : "depends";
}

/** The modes that a tour cannot show on and off, and why. */
function sorted(
  { selected, diagrams, byLevel, levels }: Compiled,
  { modes, controls }: Course,
  names: readonly string[],
): Pick<Tour, "always" | "never" | "undecided" | "unknown"> {
  const moved = new Set(controls.map(({ name }) => levels.get(name)!));
  const named = (test: (set: number) => boolean) => names.filter((name) => test(selected.get(name) ?? -1));
  const undecided = modes.flatMap(({ name, on, off }): UndecidedMode[] => {
    const set = selected.get(name)!;
    const [neverOn, neverOff] = [on === NONE && set !== NONE, off === NONE && set !== EVERY];
    if (!neverOn && !neverOff) return [];
    const channels = supportOf(diagrams, set).flatMap((level) => (moved.has(level) ? [] : byLevel[level]!.channel));
    return [
      { name, unseen: neverOn && neverOff ? "both" : neverOn ? "on" : "off", channels: channels.sort((a, b) => a - b) },
    ];
  });
  return {
    always: named((set) => set === EVERY),
    never: named((set) => set === NONE),
    undecided,
    unknown: names.filter((name) => !selected.has(name)),
  };
}
