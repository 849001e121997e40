/** Where exact answers about conditions end: random ones over many controls, and orders chosen to be bad; and how long each takes. */
import { BUDGET } from "../../shared/logic/budget.ts";
import { compile } from "../../shared/logic/compile.ts";
import { makeSwitchboard } from "../../shared/logic/switchboard.ts";
import type { SwitchInput } from "../../shared/logic/switchboard-types.ts";
import { ADVERSARIAL, type ConditionCase, RANDOM } from "../logic/hard-conditions.ts";
import { percentile } from "./figures.ts";

/** Runs before the first that counts, as a server has run before. */
const WARM = 3;

interface Told {
  readonly exact: boolean;
  readonly steps: number;
  readonly ms: number;
}

/** From the condition as read to its set, and whether it is known; nothing is known of it before. */
function follow(input: SwitchInput): Told {
  const begun = performance.now();
  const { diagrams } = compile(input, new Map(), BUDGET);
  const ms = performance.now() - begun;
  return { exact: makeSwitchboard(input).tangles.size === 0, steps: diagrams.spent(), ms };
}

function row({ title, inputs }: ConditionCase): string {
  const told = inputs.map(follow);
  const exact = told.filter((each) => each.exact).length;
  const times = told.map((each) => each.ms).sort((a, b) => a - b);
  const steps = told.map((each) => each.steps).sort((a, b) => a - b);
  return [
    title.padEnd(58),
    `${exact} of ${told.length}`.padStart(9),
    String(percentile(steps, 0.5)).padStart(8),
    percentile(times, 0.5).toFixed(1).padStart(7),
    times.at(-1)!.toFixed(1).padStart(7),
  ].join("  ");
}

export async function run(): Promise<string> {
  for (let i = 0; i < WARM; i++) for (const { inputs } of RANDOM.slice(0, 2)) inputs.forEach(follow);
  const head = `${"".padEnd(58)}      exact     steps   ms p50     most`;
  return [head, ...RANDOM.map(row), ...ADVERSARIAL.map(row)].join("\n");
}
