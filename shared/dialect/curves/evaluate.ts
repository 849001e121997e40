/** What a formula of a dialect gives. It is walked as a tree or made into functions, never run as code. */
import type { Formula } from "./formula-tree.ts";

/** The value at a stick from -1 to 1, with what the slots hold; NaN where one of them is not known. */
export function evaluate(formula: Formula, stick: number, slots: ReadonlyMap<string, number>): number {
  const names = [...slots.keys()];
  return curveOf(formula, names)(stick, [...slots.values()]);
}

/** A formula whose slots come in this order, for many sticks and many values. */
export function curveOf(
  formula: Formula,
  names: readonly string[],
): (stick: number, values: readonly number[]) => number {
  switch (formula.kind) {
    case "number": {
      const { number } = formula;
      return () => number;
    }
    case "stick":
      return (stick) => stick;
    case "slot": {
      const at = names.indexOf(formula.slot);
      return (_, values) => values[at] ?? Number.NaN;
    }
    case "negative": {
      const of = curveOf(formula.of, names);
      return (stick, values) => -of(stick, values);
    }
    case "two": {
      const [a, b] = [curveOf(formula.a, names), curveOf(formula.b, names)];
      switch (formula.operator) {
        case "+":
          return (stick, values) => a(stick, values) + b(stick, values);
        case "-":
          return (stick, values) => a(stick, values) - b(stick, values);
        case "*":
          return (stick, values) => a(stick, values) * b(stick, values);
        case "/":
          return (stick, values) => a(stick, values) / b(stick, values);
        case "^":
          return (stick, values) => a(stick, values) ** b(stick, values);
      }
      break;
    }
    case "call": {
      const of = formula.of.map((each) => curveOf(each, names));
      const apply = Math[formula.name] as (...of: number[]) => number;
      return (stick, values) => apply(...of.map((each) => each(stick, values)));
    }
  }
}
