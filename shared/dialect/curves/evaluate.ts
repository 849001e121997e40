/** What a formula of a dialect gives. It is walked as a tree, never run as code. */
import type { Formula } from "./formula-tree.ts";

/** The value at a stick from -1 to 1, with what the slots hold; NaN where one of them is not known. */
export function evaluate(formula: Formula, stick: number, slots: ReadonlyMap<string, number>): number {
  switch (formula.kind) {
    case "number":
      return formula.number;
    case "stick":
      return stick;
    case "slot":
      return slots.get(formula.slot) ?? Number.NaN;
    case "negative":
      return -evaluate(formula.of, stick, slots);
    case "two": {
      const a = evaluate(formula.a, stick, slots);
      const b = evaluate(formula.b, stick, slots);
      return { "+": a + b, "-": a - b, "*": a * b, "/": a / b, "^": a ** b }[formula.operator];
    }
    case "call": {
      const values = formula.of.map((each) => evaluate(each, stick, slots));
      const [first = Number.NaN] = values;
      if (formula.name === "abs") return Math.abs(first);
      if (formula.name === "sign") return Math.sign(first);
      return formula.name === "min" ? Math.min(...values) : Math.max(...values);
    }
  }
}
