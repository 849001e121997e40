import { createRequire } from "node:module";
import fc from "fast-check";
import { expect, test } from "vitest";
import { makeSwitchboard } from "../../shared/logic/switchboard.ts";
import type { SwitchInput } from "../../shared/logic/switchboard-types.ts";
import type { Condition } from "../../shared/syntax/condition.ts";
import { choices, modeHolds } from "./enumerate.ts";
import { craft } from "./generate.ts";

// Oracle: `logic-solver` 2.0.1, a satisfiability solver that uses neither diagrams nor intervals.

type Formula = object | string;
interface Solver {
  require(...formulas: Formula[]): void;
  solveAssuming(formula: Formula): object | null;
}
const Logic = createRequire(import.meta.url)("logic-solver") as {
  Solver: new () => Solver;
  TRUE: Formula;
  FALSE: Formula;
  and(...parts: Formula[]): Formula;
  or(...parts: Formula[]): Formula;
  not(part: Formula): Formula;
  exactlyOne(...parts: Formula[]): Formula;
};

/** One Boolean variable for each position and each microsecond, exactly one true for each control; `tag` separates craft. */
function formulasOf(input: SwitchInput, solver: Solver, tag: string): ReadonlyMap<string, Formula> {
  const places = new Map(choices(input));
  const term = (name: string, at: string | number): string => `${tag}${name}=${at}`;
  for (const [name, all] of places) solver.require(Logic.exactlyOne(...all.map((at) => term(name, at))));
  const lines = new Map(input.conditions.map((each) => [each.name, each.lines]));
  const memo = new Map<string, Formula>();
  const formulaOfMode = (name: string): Formula => {
    const formula =
      memo.get(name) ?? Logic.or(Logic.FALSE, ...(lines.get(name) ?? []).map(({ condition }) => formulaOf(condition!)));
    memo.set(name, formula);
    return formula;
  };
  const formulaOf = (condition: Condition): Formula => {
    switch (condition.kind) {
      case "always":
        return Logic.TRUE;
      case "not":
        return Logic.not(formulaOf(condition.part));
      case "and":
        return Logic.and(...condition.parts.map(formulaOf));
      case "or":
        return Logic.or(...condition.parts.map(formulaOf));
      case "mode":
        return formulaOfMode(condition.name);
      case "is": {
        const arrives = places.get(condition.control)!.includes(condition.position);
        const is = arrives ? term(condition.control, condition.position) : Logic.FALSE;
        return condition.negated ? Logic.not(is) : is;
      }
      default: {
        const { subject } = condition;
        const control = input.controls.find((each) =>
          subject.kind === "control" ? each.name === subject.name : each.channel === subject.channel,
        );
        const name = control?.name ?? `ch${(subject as { channel: number }).channel}`;
        const passing = places.get(name)!.filter((at) => {
          const us = typeof at === "number" ? at : control!.positions.find((each) => each.name === at)!.pulseUs;
          if (condition.kind === "in") return us >= condition.fromUs && us <= condition.toUs;
          return condition.kind === "above" ? us > condition.boundUs : us < condition.boundUs;
        });
        return Logic.or(Logic.FALSE, ...passing.map((at) => term(name, at)));
      }
    }
  };
  return new Map(input.conditions.map(({ name }) => [name, formulaOfMode(name)]));
}

test("2,000 craft: satisfiability, validity and clashes agree with the solver", () => {
  let asked = 0;
  let solver = new Logic.Solver();
  fc.assert(
    fc.property(craft(8, 8), (input) => {
      const board = makeSwitchboard(input);
      // Starting a solver is slow, and so is asking one that holds many craft.
      if (asked % 20 === 0) solver = new Logic.Solver();
      const modes = formulasOf(input, solver, `${asked}/`);
      asked++;
      const { sets } = board;
      for (const [i, name] of board.names.entries()) {
        const set = board.selected(name)!;
        const formula = modes.get(name)!;
        const possible = solver.solveAssuming(formula) !== null;
        expect(set !== sets.none).toBe(possible);
        expect(set === sets.every).toBe(solver.solveAssuming(Logic.not(formula)) === null);
        const witness = board.witness(set);
        expect(witness !== null && modeHolds(input, name, witness.positions)).toBe(possible);
        const other = board.names[(i + 1) % board.names.length]!;
        const both = solver.solveAssuming(Logic.and(formula, modes.get(other)!)) !== null;
        const [clash] = board.clashes([[name, other]]);
        expect(clash !== undefined).toBe(both);
        if (clash) {
          expect(modeHolds(input, name, clash.witness.positions)).toBe(true);
          expect(modeHolds(input, other, clash.witness.positions)).toBe(true);
        }
        const outside = solver.solveAssuming(Logic.and(formula, Logic.not(modes.get(other)!))) !== null;
        expect(sets.within(set, board.selected(other)!)).toBe(!outside);
      }
    }),
    { numRuns: 2000, seed: 7 },
  );
}, 180_000);
