/**
 * How cost grows with what a pilot writes: lines, layers, craft of a workspace, controls, conditions; in this process,
 * from texts to findings. Flags: `--of=lines,craft`, `--rounds=5`, and `--keep` for the page of the reference.
 */
import { type Catalogue, makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import type { GrowthCurve, GrowthSubject } from "../../shared/ide/reference/speed/figures.ts";
import { flagOf } from "./figures.ts";
import { growthOf } from "./growth/fit.ts";
import { type Cost, costOf } from "./growth/measure.ts";
import { SUBJECTS, type Subject } from "./growth/subjects.ts";
import { conditions, KEEPS, keep, roundsOf } from "./keep.ts";
import { spreadOf } from "./peer/ratios.ts";

/** A straight line or better, with room for the noise of a machine. */
const MOST_EXPONENT = 1.1;
const OF = flagOf("of")?.split(",");
const ROUNDS = Number(flagOf("rounds") ?? 1);
/** Less than this is not measured, but lost among what the process holds anyway. */
const LEAST = 0.01;

const COSTS = [
  { figure: "first findings", unit: "ms", of: "firstMs" },
  { figure: "findings after an edit", unit: "ms", of: "editMs" },
  { figure: "memory", unit: "MB", of: "memoryMB" },
] as const satisfies readonly { figure: string; unit: "ms" | "MB"; of: keyof Cost }[];

async function measured(subject: Subject, catalogue: Catalogue): Promise<GrowthSubject> {
  const { name, what, sizes } = subject;
  const costs: Cost[][] = sizes.map(() => []);
  for (let round = 0; round < ROUNDS; round++)
    for (const [i, size] of sizes.entries()) costs[i]!.push(await costOf(subject, size, catalogue));
  const curves = COSTS.map(({ figure, unit, of }): GrowthCurve => {
    const values = costs.map((rounds) => roundsOf(spreadOf(rounds.map((cost) => Math.max(LEAST, cost[of])))));
    const exponent = growthOf(sizes.map((size, i) => [size, values[i]![0]]));
    return { figure, unit, values, exponent: Number(exponent.toFixed(2)) };
  });
  return { name, what, sizes, curves };
}

function tableOf({ name, what, sizes, curves }: GrowthSubject): string {
  const row = (title: string, cells: readonly number[]) =>
    `  ${title.padEnd(28)}${cells.map((cell) => String(cell).padStart(9)).join("")}`;
  const rows = curves.map(({ figure, unit, values, exponent }) => {
    const told = `  exponent ${exponent.toFixed(2)}${exponent > MOST_EXPONENT ? "  WORSE THAN A LINE" : ""}`;
    return (
      row(
        `${figure}, ${unit}`,
        values.map(([median]) => median),
      ) + told
    );
  });
  return [`${name}: ${what}`, row(name, sizes), ...rows].join("\n");
}

export async function run(): Promise<string> {
  const catalogue = makeCatalogue();
  const chosen = SUBJECTS.filter(({ name }) => OF === undefined || OF.includes(name));
  // Code that has not run yet is slow, whatever it is given.
  for (const subject of chosen) for (const size of subject.sizes.slice(0, 3)) await costOf(subject, size, catalogue);
  const subjects: GrowthSubject[] = [];
  for (const subject of chosen) subjects.push(await measured(subject, catalogue));
  const kept = KEEPS ? [keep("growth", { ...conditions(), rounds: ROUNDS, subjects })] : [];
  return [...subjects.map(tableOf), ...kept].join("\n\n");
}
