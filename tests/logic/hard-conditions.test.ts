/** Where exact answers end. Work is counted in steps, so it is the same on every machine; `npm run bench -- conditions` times it. */
import { expect, test } from "vitest";
import { BUDGET } from "../../shared/logic/budget.ts";
import { compile } from "../../shared/logic/compile.ts";
import { ADVERSARIAL, type ConditionCase, RANDOM } from "./hard-conditions.ts";

/** How many of a kind have exact answers, as “19 of 20”. */
function exactOf({ inputs }: ConditionCase): string {
  const exact = inputs.filter((input) => {
    const { tangles, diagrams } = compile(input, new Map(), BUDGET);
    // Tried by the handset's order and by another, each within the budget of one condition.
    expect(diagrams.spent()).toBeLessThanOrEqual(2 * BUDGET.condition + 2 * 128);
    return tangles.size === 0;
  });
  return `${exact.length} of ${inputs.length}`;
}

test("random conditions are followed up to some twenty clauses of three, and none is where there are eighty", () => {
  const told = RANDOM.map((each) => `${each.title.replace(" switches of three positions", "")}: ${exactOf(each)}`);
  expect(told).toEqual([
    "40, 5 clauses of 3: 20 of 20",
    "40, 10 clauses of 3: 20 of 20",
    "40, 15 clauses of 3: 20 of 20",
    "40, 20 clauses of 3: 19 of 20",
    "40, 30 clauses of 3: 7 of 20",
    "40, 40 clauses of 3: 0 of 20",
    "40, 80 clauses of 3: 0 of 20",
    "60, 5 clauses of 3: 20 of 20",
    "60, 10 clauses of 3: 20 of 20",
    "60, 15 clauses of 3: 20 of 20",
    "60, 20 clauses of 3: 20 of 20",
    "60, 30 clauses of 3: 20 of 20",
    "60, 40 clauses of 3: 1 of 20",
    "60, 80 clauses of 3: 0 of 20",
    "40, 20 clauses of 2: 20 of 20",
    "40, 40 clauses of 2: 20 of 20",
    "40, 80 clauses of 2: 0 of 20",
    "60, 20 clauses of 2: 20 of 20",
    "60, 40 clauses of 2: 20 of 20",
    "60, 80 clauses of 2: 0 of 20",
  ]);
});

test.each(ADVERSARIAL.filter(({ title }) => !title.startsWith("a grid of 7")))(
  "$title: followed, whatever order the handset has",
  (each) => {
    const count = each.inputs.length;
    expect(exactOf(each)).toBe(`${count} of ${count}`);
  },
);

test("a grid of 49 switches is given up, as no order is good for it", () => {
  expect(exactOf(ADVERSARIAL.find(({ title }) => title.startsWith("a grid of 7"))!)).toBe("0 of 1");
});
