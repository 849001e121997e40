/** Which slots a formula takes. */
import type { Formula } from "./formula-tree.ts";

/** The names of its slots, each once, in order. */
export function slotsOfFormula(formula: Formula): readonly string[] {
  const found = new Set<string>();
  const visit = (part: Formula): void => {
    if (part.kind === "slot") found.add(part.slot);
    else if (part.kind === "negative") visit(part.of);
    else if (part.kind === "call") part.of.forEach(visit);
    else if (part.kind === "two") {
      visit(part.a);
      visit(part.b);
    }
  };
  visit(formula);
  return [...found];
}
