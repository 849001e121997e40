/**
 * The same work through our server and through the JSON language server, one run of each in turn: a craft told as a
 * script and as JSON with a schema, in which every line but the headings is a setting that both check. Flags:
 * `--lines=100,1000` and `--rounds=5`.
 */
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import { findingsOf } from "../../shared/rules/engine/engine.ts";
import { flagOf } from "./figures.ts";
import { FIGURES, type Figure, runOf } from "./peer/measure.ts";
import { typingPlaceOf } from "./peer/place.ts";
import { ratioOf, type Spread, spreadOf } from "./peer/ratios.ts";
import { type Side, sidesOf } from "./peer/sides.ts";
import { schemaOf } from "./peer/twin-schema.ts";
import { twinsOf } from "./peer/twins.ts";

const LINES = (flagOf("lines") ?? "100,500,1000,10000").split(",").map(Number);
const FILE = "/craft.fettle";
const ROUNDS = Number(flagOf("rounds") ?? 3);

/** What our part of the other's is to be at most, by figure and number of lines; null: nothing is asked. */
function aimOf(figure: Figure, lines: number): number | null {
  if (figure.startsWith("edit")) return lines >= 1000 ? 0.5 : 0.8;
  return figure === "first answer" || figure === "memory" ? 1 : null;
}

/** Runs both sides so many times, in turn; by figure what each round gave on each side. */
async function roundsOf(sides: readonly Side[], typed: (i: number) => string) {
  const runs: Record<Side["name"], Record<Figure, number>[]> = { ours: [], theirs: [] };
  for (let round = 0; round < ROUNDS; round++) {
    // Each begins as often as the other: what the first leaves behind on the machine is the second's.
    for (const side of round % 2 === 0 ? sides : sides.toReversed()) runs[side.name].push(await runOf(side, typed));
  }
  return runs;
}

const wide = ({ median, min, max }: Spread, digits: number) =>
  `${median.toFixed(digits).padStart(7)} ${`(${min.toFixed(digits)}–${max.toFixed(digits)})`.padEnd(16)}`;

async function measuredAt(lines: number): Promise<string> {
  const catalogue = makeCatalogue();
  const twins = twinsOf(lines, catalogue);
  const core = makeCore(catalogue);
  const place = typingPlaceOf(twins, (script) =>
    findingsOf(core.at(memoryFiles({ [FILE]: script })), FILE).map(({ range }) => range.start.line),
  );
  const { ours, theirs } = await roundsOf(sidesOf(twins, place, schemaOf(catalogue)), place.typed);
  const rows = FIGURES.map((figure) => {
    const [mine, others] = [ours, theirs].map((runs) => runs.map((run) => run[figure])) as [number[], number[]];
    const ratio = ratioOf(mine, others);
    const aim = aimOf(figure, lines);
    const missed = aim !== null && ratio.median > aim ? "  MISSED" : "";
    return `  ${figure.padEnd(22)} ${wide(spreadOf(mine), 1)} ${wide(spreadOf(others), 1)} ${wide(ratio, 2)} ${aim?.toFixed(1) ?? "–"}${missed}`;
  });
  const typedAt = twins.script.split("\n")[place.script.line]!.trim();
  return [
    `${lines} lines, ${twins.settings} of them settings; typed at “${typedAt}”, line ${place.script.line}`,
    ...rows,
  ].join("\n");
}

export async function run(): Promise<string> {
  const tables: string[] = [];
  for (const lines of LINES) tables.push(await measuredAt(lines));
  return [
    `${ROUNDS} rounds: median (least–most). Milliseconds, memory in MB; ours, theirs, ours over theirs, aim.`,
    ...tables,
  ].join("\n\n");
}
