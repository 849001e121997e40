/** Where a tour of a part stands: the places of its controls, what it has shown so far, and the least that is left to do. */
import { passesTests, type Step, type TestList, type TourPart, YES } from "./tour-part.ts";

/** A step can be taken back in the reverse order. */
export interface Taken extends Step {
  readonly from: number;
  readonly wasNew: boolean;
  readonly met: readonly number[];
}

export interface Walk {
  readonly part: TourPart;
  /** The place of each control. */
  readonly at: Int32Array;
  /**
   * Movements that are left in any case: each place that was not taken yet needs one of its own, and a control that
   * springs back one more.
   */
  left(): number;
  /** Goals that are not met yet, by their indexes. */
  openGoals(): readonly number[];
  isOpen(goal: number): boolean;
  isNew(control: number, place: number): boolean;
  /** By how many movements a tour gets longer that takes this step next; 0 for one of those that are left in any case. */
  extra(control: number, place: number): number;
  take(control: number, place: number): Taken;
  takeBack(taken: Taken): void;
  /** By how many movements at least a tour gets longer on which this goal is met. */
  extraOfGoal(goal: number): number;
  /** What to move for a state in a goal by which the tour gets longer the least, and of these one near here. */
  wayTo(goal: number): readonly Step[];
  /** The same text for states from which the same is left to do. */
  key(): string;
}

const FAR = 1 << 30;
const LONGER = 1 << 10;

/** The beginning of a tour of a part. `spend` is charged with the steps of work. */
export function beginWalk(part: TourPart, spend: (steps: number) => void): Walk {
  const { controls, goals, alike, goalsOn } = part;
  const at = Int32Array.from(controls, ({ start }) => start);
  const fresh = controls.map(({ places, start }) => Uint8Array.from(places, (_, p) => (p === start ? 0 : 1)));
  const freshCount = Int32Array.from(controls, ({ places }) => places.length - 1);
  /** By control, for each class of places that are alike how many of it were not taken yet; the class by its first place. */
  const freshAlike = controls.map(({ places, start }, c) => {
    const counts = new Uint16Array(places.length);
    for (const p of places.keys()) if (p !== start) counts[alike[c]![p]!]!++;
    return counts;
  });
  const open = new Uint8Array(goals.length).fill(1);
  const springs = controls.map((control) => (control.springs ? 1 : 0));
  let left = 0;
  /** Whether a control that springs back is still to be let go. */
  const due = (c: number): number => (springs[c] === 1 && (at[c] !== controls[c]!.start || freshCount[c]! > 0) ? 1 : 0);
  for (const c of controls.keys()) left += freshCount[c]! + due(c);

  const extra = (c: number, p: number): number => {
    const isNew = fresh[c]![p] === 1;
    const after = freshCount[c]! - (isNew ? 1 : 0);
    const dueAfter = springs[c] === 1 && (p !== controls[c]!.start || after > 0) ? 1 : 0;
    return (isNew ? 0 : 1) + dueAfter - due(c);
  };
  /** By how many movements a tour gets longer at least if a control is at a place at any time from now on. */
  const extraEver = (c: number, p: number): number => {
    if (at[c] === p || fresh[c]![p] === 1) return 0;
    if (springs[c] === 1 && p === controls[c]!.start) return 0;
    return springs[c] === 1 && due(c) === 0 ? 2 : 1;
  };
  const costs = new Int32Array(Math.max(0, ...goals.map((goal) => goal.controls.length)));
  const cheapest = (list: TestList, price: (c: number, p: number) => number): number => {
    const { controls: asked, firsts, children } = list;
    spend(1 + (children.length >> 3));
    for (let t = 0; t < asked.length; t++) {
      const c = asked[t]!;
      let best = FAR;
      for (let p = 0; p < controls[c]!.places.length; p++) {
        const child = children[firsts[t]! + p]!;
        const below = child >= 0 ? costs[child]! : child === YES ? 0 : FAR;
        if (below < best) best = Math.min(best, below + price(c, p));
      }
      costs[t] = best;
    }
    return costs[asked.length - 1]!;
  };
  return {
    part,
    at,
    left: () => left,
    openGoals: () => [...open.keys()].filter((goal) => open[goal] === 1),
    isOpen: (goal) => open[goal] === 1,
    isNew: (c, p) => fresh[c]![p] === 1,
    extra,
    take: (control, place) => {
      const from = at[control]!;
      const wasNew = fresh[control]![place] === 1;
      const before = due(control);
      at[control] = place;
      if (wasNew) {
        fresh[control]![place] = 0;
        freshCount[control]!--;
        freshAlike[control]![alike[control]![place]!]!--;
        left--;
      }
      left += due(control) - before;
      const met: number[] = [];
      for (const goal of goalsOn[control]!) {
        if (open[goal] === 0 || !passesTests(goals[goal]!, at)) continue;
        open[goal] = 0;
        met.push(goal);
      }
      return { control, place, from, wasNew, met };
    },
    takeBack: ({ control, place, from, wasNew, met }) => {
      const before = due(control);
      at[control] = from;
      if (wasNew) {
        fresh[control]![place] = 1;
        freshCount[control]!++;
        freshAlike[control]![alike[control]![place]!]!++;
        left++;
      }
      left += due(control) - before;
      for (const goal of met) open[goal] = 1;
    },
    extraOfGoal: (goal) => cheapest(goals[goal]!, extraEver),
    wayTo: (goal) => {
      const list = goals[goal]!;
      // First of all what makes the tour longer, then how many movements the way has.
      const price = (c: number, p: number): number => (at[c] === p ? 0 : 1 + LONGER * extraEver(c, p));
      cheapest(list, price);
      const steps: Step[] = [];
      for (let test = list.controls.length - 1; test >= 0; ) {
        const c = list.controls[test]!;
        const below = (p: number): number => {
          const child = list.children[list.firsts[test]! + p]!;
          return child >= 0 ? costs[child]! : child === YES ? 0 : FAR;
        };
        const places = [...controls[c]!.places.keys()];
        const place = places.find((p) => below(p) < FAR && below(p) + price(c, p) === costs[test])!;
        if (place !== at[c]) steps.push({ control: c, place });
        test = list.children[list.firsts[test]! + place]!;
      }
      return steps;
    },
    key: () => {
      const codes: number[] = [];
      for (let c = 0; c < controls.length; c++) {
        // Places that are alike are as good as each other, but one of them may be where the control springs back to.
        codes.push(springs[c] === 1 && at[c] === controls[c]!.start ? 0 : alike[c]![at[c]!]! + 1);
        const counts = freshAlike[c]!;
        for (let p = 0; p < counts.length; p++) if (alike[c]![p] === p) codes.push(counts[p]!);
      }
      for (let goal = 0; goal < open.length; goal += 15) {
        let bits = 0;
        for (let i = goal; i < Math.min(goal + 15, open.length); i++) bits = bits * 2 + open[i]!;
        codes.push(bits);
      }
      return String.fromCharCode(...codes);
    },
  };
}
