/** What a tour has to go through: the places of each control, and the sets of states of which it has to meet each once. */
import type { Compiled } from "./compile.ts";
import { type Diagrams, EVERY, makeDiagrams, NONE } from "./diagram.ts";
import { supportOf } from "./quantify.ts";
import { middleUs } from "./sets.ts";
import type { TourWish } from "./tour-types.ts";
import { type BoardVariable, valuesAt } from "./variables.ts";

/** A control that the pilot moves: one of the handset, or a stick. */
export interface TourControl {
  readonly name: string;
  /** Positions by name, of a dial or a stick one pulse for each stretch that conditions tell apart. */
  readonly places: readonly (string | number)[];
  /** The place at which the tour begins. */
  readonly start: number;
  /** Once let go it is back at its start. */
  readonly springs: boolean;
}

/** In which states a mode is certainly on, and in which certainly off, as sets of `Course.diagrams`. */
export interface TourMode {
  readonly name: string;
  readonly on: number;
  readonly off: number;
}

/** The controls of a craft with their places, and the modes over these: what nobody moves is quantified away. */
export interface Course {
  /** In the order of the hand. */
  readonly controls: readonly TourControl[];
  readonly diagrams: Diagrams;
  /** The index in `controls` of each level's control. */
  readonly controlAt: Int32Array;
  readonly modes: readonly TourMode[];
  readonly armed: TourMode;
  /** Sets that the tour must meet besides each place of each control, none of them met at its start. */
  readonly goals: readonly number[];
}

/** A place, with the values of the variable as which it may arrive. */
interface Place {
  readonly at: string | number;
  readonly values: readonly number[];
}

/** The course of a board. Charges `compiled.budget.tour` steps at most for the sets; null where they do not suffice. */
export function courseOf(compiled: Compiled, names: readonly string[], wish: TourWish): Course | null {
  const { byLevel, levels } = compiled;
  const alike = alikeValues(compiled);
  const places = byLevel.map((variable, level): readonly Place[] | null => placesOf(variable, alike[level]!, wish));
  const order = handOrder(compiled, wish).filter((level) => places[level] !== null);
  const diagrams = makeDiagrams(places.map((each) => each?.length ?? 1));
  const controlAt = new Int32Array(byLevel.length).fill(-1);
  order.forEach((level, i) => {
    controlAt[level] = i;
  });
  return diagrams.withBudget(compiled.budget.tour, () => {
    const carry = carrier(compiled, diagrams, places);
    const modeOf = (name: string, set: number): TourMode => ({
      name,
      on: carry(set),
      off: carry(compiled.diagrams.not(set)),
    });
    const modes = names.flatMap((name) => {
      const set = compiled.selected.get(name);
      return set === undefined ? [] : modeOf(name, set);
    });
    const armed = armedOf(compiled, modeOf);
    const begun = order.map((level): TourControl => {
      const variable = byLevel[level]!;
      const own = places[level]!;
      const stick = variable.control ? undefined : wish.sticks?.find(({ channel }) => channel === variable.channel);
      const start = stick ? nearestPlace(own, stick.restUs) : startOf(variable, own);
      const springs = stick?.springs ?? variable.control?.kind === "button";
      return { name: variable.name, places: own.map(({ at }) => at), start, springs };
    });
    const dials = new Set(byLevel.flatMap(({ name, control }) => (control?.kind === "dial" ? [name] : [])));
    const controls = disarmedStart(begun, dials, { diagrams, controlAt, not: armed.off });
    const levelsOf = order.map((level) => levels.get(byLevel[level]!.name)!);
    const goals = goalsOf({ controls, diagrams, controlAt, modes }, levelsOf, compiled.budget.tour >> 2);
    return { controls, diagrams, controlAt, modes, armed, goals };
  });
}

/** Whether a state, as an index of a place for each control, is in a set. */
export function isIn(
  { diagrams, controlAt }: Pick<Course, "diagrams" | "controlAt">,
  set: number,
  at: ArrayLike<number>,
): boolean {
  let node = set;
  while (node > EVERY) node = diagrams.child(node, at[controlAt[diagrams.levelOf(node)]!]!);
  return node === EVERY;
}

/** The controls on which a set depends. */
export function controlsOf({ diagrams, controlAt }: Pick<Course, "diagrams" | "controlAt">, set: number): number[] {
  return supportOf(diagrams, set).map((level) => controlAt[level]!);
}

/** For each level, for each value whether no set tells it from the value before it. */
function alikeValues({ diagrams, selected }: Compiled): readonly Uint8Array[] {
  const alike = diagrams.widths.map((width) => new Uint8Array(width).fill(1));
  const seen = new Set<number>();
  const visit = (node: number): void => {
    if (node <= EVERY || seen.has(node)) return;
    seen.add(node);
    const level = diagrams.levelOf(node);
    for (let v = 0; v < diagrams.widths[level]!; v++) {
      const child = diagrams.child(node, v);
      if (v > 0 && child !== diagrams.child(node, v - 1)) alike[level]![v] = 0;
      visit(child);
    }
  };
  for (const set of selected.values()) visit(set);
  return alike;
}

/** The places of a variable; null for a channel that nobody moves. */
function placesOf(variable: BoardVariable, alike: Uint8Array, { sticks }: TourWish): readonly Place[] | null {
  const { control, channel, intervals, rangeUs } = variable;
  if (control && control.kind !== "dial")
    return control.positions.map(({ name }) => ({ at: name, values: valuesAt(variable, name) }));
  const stick = control ? undefined : sticks?.find((each) => each.channel === channel);
  if (!control && !stick) return null;
  const places: Place[] = [];
  for (let first = 0; first < intervals.length; ) {
    let last = first;
    while (last + 1 < intervals.length && alike[last + 1] === 1) last++;
    const { fromUs } = intervals[first]!;
    const { toUs } = intervals[last]!;
    const rests = stick !== undefined && fromUs <= stick.restUs && stick.restUs <= toUs;
    // An end of the travel is found without looking.
    const endUs = first === 0 ? fromUs : last === intervals.length - 1 ? toUs : null;
    const isWhole = rangeUs !== null && first === 0 && last === intervals.length - 1;
    const at = rests ? stick.restUs : isWhole || endUs === null ? middleUs({ fromUs, toUs }) : endUs;
    places.push({ at, values: [first] });
    first = last + 1;
  }
  const falls = control !== null && (control.fromUs ?? 0) > (control.toUs ?? 0);
  return falls ? places.reverse() : places;
}

function startOf({ control }: BoardVariable, places: readonly Place[]): number {
  return Math.max(
    0,
    places.findIndex(({ at }) => at === control?.rest),
  );
}

/** The place in which a stick rests, or that is nearest to where it does. */
function nearestPlace(places: readonly Place[], restUs: number): number {
  const away = places.map(({ at }) => Math.abs(Number(at) - restUs));
  return away.indexOf(Math.min(...away));
}

/** The levels of all variables, in the order of the hand and then of the handset. */
function handOrder({ variables, levelOf }: Compiled, { order = [] }: TourWish): readonly number[] {
  const rank = new Map(order.map((name, i) => [name, i]));
  const rankOf = (i: number) => rank.get(variables[i]!.name) ?? order.length;
  const indexes = variables.map((_, i) => i).sort((a, b) => rankOf(a) - rankOf(b) || a - b);
  return indexes.map((i) => levelOf[i]!);
}

/** Carries a set of the board over to the places: the states in which it holds whatever nobody moves, and however a place arrives. */
function carrier(
  { diagrams: from }: Compiled,
  to: Diagrams,
  places: readonly (readonly Place[] | null)[],
): (set: number) => number {
  const memo = new Map<number, number>();
  const visit = (node: number): number => {
    if (node <= EVERY) return node;
    const known = memo.get(node);
    if (known !== undefined) return known;
    const level = from.levelOf(node);
    to.spend(level);
    const children = Array.from({ length: from.widths[level]! }, (_, v) => visit(from.child(node, v)));
    const own = places[level];
    const all = (values: readonly number[]) => values.map((v) => children[v]!).reduce(to.and);
    const result = own
      ? to.make(
          level,
          own.map(({ values }) => all(values)),
        )
      : children.reduce(to.and);
    memo.set(node, result);
    return result;
  };
  return visit;
}

/** The states in which the craft is armed; without an arm that is known, none is certain to be, or not to be. */
function armedOf(compiled: Compiled, modeOf: (name: string, set: number) => TourMode): TourMode {
  const { selected, names, diagrams } = compiled;
  const arm = selected.get("arm");
  const isSetUp = (name: string) => names.references.has(name);
  if (arm === undefined) return { name: "arm", on: NONE, off: isSetUp("arm") ? NONE : EVERY };
  const whole = modeOf("arm", arm);
  if (!isSetUp("arm-permit")) return whole;
  const permit = selected.get("arm-permit");
  if (permit === undefined) return { ...whole, on: NONE };
  const both = diagrams.withBudget(compiled.budget.question, () => diagrams.and(arm, permit));
  return both === null ? { ...whole, on: NONE } : modeOf("arm", both);
}

interface Sought extends Pick<Course, "diagrams" | "controlAt"> {
  readonly not: number;
}

/** The dials, where the craft would be armed at their first ends, moved to the nearest places at which it is not. */
function disarmedStart(
  controls: readonly TourControl[],
  dials: ReadonlySet<string>,
  { diagrams, controlAt, not }: Sought,
): readonly TourControl[] {
  const at = controls.map(({ start }) => start);
  if (dials.size === 0 || not <= EVERY || isIn({ diagrams, controlAt }, not, at)) return controls;
  const memo = new Map<number, number>();
  const cost = (node: number): number => {
    if (node <= EVERY) return node === EVERY ? 0 : Number.POSITIVE_INFINITY;
    const known = memo.get(node);
    if (known !== undefined) return known;
    const i = controlAt[diagrams.levelOf(node)]!;
    let best = Number.POSITIVE_INFINITY;
    for (let p = 0; p < controls[i]!.places.length; p++) {
      if (p !== at[i] && !dials.has(controls[i]!.name)) continue;
      best = Math.min(best, Math.abs(p - at[i]!) + cost(diagrams.child(node, p)));
    }
    memo.set(node, best);
    return best;
  };
  if (cost(not) === Number.POSITIVE_INFINITY) return controls;
  const starts = [...at];
  for (let node = not; node > EVERY; ) {
    const i = controlAt[diagrams.levelOf(node)]!;
    const whole = cost(node);
    const places = controls[i]!.places.map((_, p) => p);
    const allowed = dials.has(controls[i]!.name) ? places : [at[i]!];
    starts[i] = allowed.find((p) => Math.abs(p - at[i]!) + cost(diagrams.child(node, p)) === whole)!;
    node = diagrams.child(node, starts[i]!);
  }
  return controls.map((control, i) => ({ ...control, start: starts[i]! }));
}

/**
 * The sets in which a mode is on, and those in which it is off, as far as there are such states: without those that
 * are met at the start, and those that a tour meets in any case, since it goes to every place and to a smaller set.
 * Where that takes too much work more of them stay: to meet them once more does no harm.
 */
function goalsOf(
  course: Omit<Course, "goals" | "armed">,
  levelOf: readonly number[],
  mostSteps: number,
): readonly number[] {
  const { controls, diagrams, modes } = course;
  const at = controls.map(({ start }) => start);
  const sets = new Set(modes.flatMap(({ on, off }) => [on, off]));
  const open = [...sets].filter((set) => set !== NONE && !isIn(course, set, at));
  const only = controls.map(({ places }, i) =>
    places.map((_, p) =>
      diagrams.make(
        levelOf[i]!,
        places.map((__, other) => (other === p ? EVERY : NONE)),
      ),
    ),
  );
  const isSure = (set: number): boolean => {
    const others = diagrams.not(set);
    return controlsOf(course, set).some((i) => only[i]!.some((place) => !diagrams.meet(place, others)));
  };
  return (
    diagrams.withBudget(mostSteps, () => {
      const left = open.filter((set) => !isSure(set));
      return left.filter((set) => {
        const others = diagrams.not(set);
        return !left.some((other) => other !== set && !diagrams.meet(other, others));
      });
    }) ?? open
  );
}
